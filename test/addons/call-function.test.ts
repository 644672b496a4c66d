import { describe, expect, it } from 'vitest';
import { callFunction } from '../../src/addons/shared/call-function.js';
import { restoreBlankCells, restoreBlankRanges } from '../../src/addons/shared/restore-blanks.js';
import { InputError } from '../../src/errors.js';
import type { CellArgument, CellScalar, DescribedFunction } from '../../src/functions/described-function.js';
import { describedFunctions } from '../../src/functions/index.js';
import { expectCells } from './agree.js';

type Rows = readonly (readonly CellScalar[])[];
const byName = new Map(describedFunctions.map((described) => [described.cellName, described]));

describe('callFunction', () => {
  it('knows every described function by a name and arguments that every spreadsheet can write', () => {
    expect(byName.size).toBe(describedFunctions.length);
    for (const { cellName, arguments: described } of describedFunctions) {
      expect(cellName).toMatch(/^[A-Z][A-Z0-9]*(_[A-Z0-9]+)+$/);
      expect(cellName.length, cellName).toBeLessThanOrEqual(64);
      for (const { name } of described) expect(name).toMatch(/^[a-z][A-Za-z0-9]*$/);
      const firstOptional = described.findIndex(({ optional }) => optional);
      const rest = firstOptional < 0 ? [] : described.slice(firstOptional);
      expect(
        rest.every(({ optional }) => optional),
        `${cellName}: optional arguments come last`,
      ).toBe(true);
    }
  });

  it.each(describedFunctions.map((described) => ({ cellName: described.cellName, described })))(
    'gives the example of $cellName, blanks as null or as empty text',
    ({ described: { cellName, example } }) => {
      const { arguments: args, result } = example;
      expectCells(callFunction(cellName, args), result);
      expectCells(callFunction(cellName, args.map(emptyTextsFor)), result);
    },
  );

  it.each(describedFunctions.map((described) => ({ cellName: described.cellName, described })))(
    'refuses every wrong argument of $cellName, by its name',
    ({ described }) => {
      const wrong = wrongArguments(described);
      expect(wrong.length).toBeGreaterThan(0);
      for (const { what, args, argument } of wrong) {
        const call = () => callFunction(described.cellName, args);
        expect(call, `${argument} is ${what}`).toThrow(InputError);
        expect(call, `${argument} is ${what}`).toThrow(argument);
      }
    },
  );

  it('refuses an unknown name and too many arguments', () => {
    expect(() => callFunction('NO_SUCH', [])).toThrow('no function is called NO_SUCH');
    expect(() => callFunction('ADD_VAT', [1, 0.05, 3])).toThrow('ADD_VAT was given 3 arguments');
  });

  it('refuses an answer that no cell can hold', () => {
    expect(() => callFunction('USE_AT_WEATHER', [1e308, 1e308, 1e9, 1e9])).toThrow(
      'USE_AT_WEATHER has no answer for these values',
    );
  });
});

describe('blanks that a host hands over as 0', () => {
  const tariff = byName.get('UNIT_RATE')!;
  const table = tariff.example.arguments[1] as Rows;
  const zeros = (rows: Rows): Rows => rows.map((row) => row.map((cell) => cell ?? 0));

  it.each(['UNIT_RATE', 'UNIT_RATES', 'TARIFF_ENERGY_COST', 'TARIFF_STANDING_CHARGE'])(
    'in its tariff table leave %s its value',
    (cellName) => {
      const { arguments: described, example } = byName.get(cellName)!;
      const args = example.arguments.map((value) => (Array.isArray(value) ? zeros(value as Rows) : value));
      expectCells(callFunction(cellName, restoreBlankRanges(args, described)), example.result);
    },
  );

  it('keep a window from or to midnight, and a row of nothing but blanks is skipped', () => {
    const rows = [
      [0, 0, 0, 27.5, 0, 50],
      [0, 0.25, 'Every day', 9, 0, 0],
      [0.75, 0, 'Every day', 40, 0, 0],
      Array(6).fill(0),
    ];
    const restored = restoreBlankRanges([46_023.1, rows], tariff.arguments)[1] as Rows;
    expect(restored).toEqual([
      [null, null, null, 27.5, null, 50],
      [0, 0.25, 'Every day', 9, null, null],
      [0.75, 0, 'Every day', 40, null, null],
      Array(6).fill(null),
    ]);
    expect(callFunction('UNIT_RATE', [46_023.1, restored])).toBe(9);
    expect(callFunction('UNIT_RATE', [46_023.8, restored])).toBe(40);
  });

  it('are refused as dates and times, and left as numbers', () => {
    expect(restoreBlankCells([0, table], tariff.arguments)).toEqual([null, table]);
    expect(restoreBlankCells([0, 0], byName.get('ADD_VAT')!.arguments)).toEqual([0, 0]);
  });
});

/** Each argument in turn with what it can't be; the message must name it. */
function wrongArguments({
  arguments: described,
  example,
}: DescribedFunction): { what: string; argument: string; args: CellArgument[] }[] {
  return described.flatMap(({ name, kind, shape, optional }, index) => {
    const given = example.arguments[index] ?? null;
    const wrong: [what: string, value: CellArgument][] = [];
    if (shape === 'cell') {
      wrong.push(['a range', [[1], [2]]]);
      if (kind === 'text') wrong.push(['a number', 7]);
      else wrong.push(['a text date', '2026-01-01'], ['an error', '#DIV/0!'], ['yes or no', true]);
      if (!optional) wrong.push(['a blank', null]);
    } else {
      const rows = given as Rows;
      const first = (value: CellScalar): Rows => [[value, ...rows[0]!.slice(1)], ...rows.slice(1)];
      wrong.push(
        ['nothing', null],
        ['an error in a cell', first('#DIV/0!')],
        ['a text in a cell', first('2026-01-01')],
      );
      if (shape === 'column') wrong.push(['two columns', rows.map((row) => [...row, 1])]);
    }
    return wrong.map(([what, value]) => ({
      what,
      argument: name,
      args: described.map((_, i) => (i === index ? value : (example.arguments[i] ?? null))),
    }));
  });
}

function emptyTextsFor(value: CellArgument): CellArgument {
  if (!Array.isArray(value)) return value ?? '';
  return (value as Rows).map((row) => row.map((cell) => cell ?? ''));
}
