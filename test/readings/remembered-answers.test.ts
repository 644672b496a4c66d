import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  answersToRemember,
  type FileOptions,
  type ImportOptions,
  importFiles,
  type RecalledFile,
  type RememberedAnswers,
  recallAnswers,
  remember,
  withRecalled,
} from '../../src/readings/index.js';
import { nameOfExport } from '../../src/readings/remembered/name-of-export.js';
import { messageOf } from './import-text.js';

const ZONE = { timeZone: 'Europe/London' };
const two = (n: number): string => String(n).padStart(2, '0');

/** A day of half-hours of a month. */
function file(
  name: string,
  month: number,
  header = 'Time,Energy',
  cell = (i: number) => `0.${((i * 37) % 89) + 10}`,
) {
  const lines = Array.from(
    { length: 48 },
    (_, i) => `2026-${two(month)}-20 ${two(Math.floor(i / 2))}:${i % 2 ? '30' : '00'},${cell(i)}`,
  );
  return { name, bytes: Buffer.from(`${header === '' ? '' : `${header}\n`}${lines.join('\n')}\n`) };
}

/** A fill: what is read of the files, what is told of them, and what is remembered afterwards. */
function fill(
  before: readonly RememberedAnswers[],
  files: ReturnType<typeof file>[],
  said: Omit<ImportOptions, 'timeZone'> = {},
) {
  const options = { ...said, ...ZONE };
  const recalled = recallAnswers(files, options, 'readings', before);
  const imported = importFiles(files, withRecalled(options, recalled));
  const told = answersToRemember(files, recalled, options, 'readings');
  return { recalled, imported, after: remember(before, told, recalled) };
}
const held = (...list: Partial<RememberedAnswers>[]): RememberedAnswers[] =>
  list.map((one) => ({
    kind: 'readings',
    columns: 'Time | Energy',
    name: '',
    toldFor: 'may.csv',
    answers: {},
    ...one,
  }));
const inForce = ({ recalled }: { recalled: RecalledFile[] }): FileOptions[] =>
  recalled.map((one) => one.inForce);
const firstImport = ({ imported }: ReturnType<typeof fill>): number | undefined =>
  imported.readings.channels.importKwh?.[0];

describe('what a file was told', () => {
  const may = fill([], [file('downloads/may.csv', 5)], { unit: 'Wh', stamp: 'end' });

  it('is remembered by the names of its columns and its own, without folder and dates', () => {
    expect(may.after.answers).toEqual(held({ answers: { unit: 'Wh', stamp: 'end' } }));
  });

  it('is used for the next month’s, which comes to the same as if it were said again', () => {
    const june = fill(may.after.answers, [file('elsewhere/june.csv', 6)]);
    const told = importFiles([file('june.csv', 6)], { ...ZONE, unit: 'Wh', stamp: 'end' });
    expect(june.imported.readings).toEqual(told.readings);
    expect(june.recalled[0]?.from).toBe(may.after.answers[0]);
    // Nothing was said: nothing changes.
    expect(june.after.answers).toBe(may.after.answers);
  });

  it('gives way to what is said now, and that is remembered', () => {
    const june = fill(may.after.answers, [file('june.csv', 6)], { unit: 'kWh' });
    expect(inForce(june)).toEqual([{ unit: 'kWh', stamp: 'end' }]);
    expect(firstImport(june)).toBe(0.1);
    expect(june.after.answers).toEqual(held({ answers: { unit: 'kWh', stamp: 'end' }, toldFor: 'june.csv' }));
  });

  it('is forgotten where that is said, of all files or of one', () => {
    for (const said of [{ forget: true }, { perFile: { 'june.csv': { forget: true } } }] as const) {
      const june = fill(may.after.answers, [file('june.csv', 6)], said);
      expect(inForce(june)).toEqual([{}]);
      expect(june.after.answers).toEqual([]);
    }
  });

  it('is used for no file of other columns, nor of another kind', () => {
    const other = file('june.csv', 6, 'Start,Energy');
    expect(inForce(fill(may.after.answers, [other]))).toEqual([{}]);
    const [gas] = recallAnswers([file('june.csv', 6)], ZONE, 'gas', may.after.answers);
    expect(gas?.inForce).toEqual({});
  });

  it('is left out as far as it is about nothing in the file', () => {
    const files = [file('may.csv', 5, 'Time,Import kWh', (i) => `0.${((i * 37) % 89) + 10}`)];
    const said = { unit: 'Wh', dateOrder: 'dmy', channels: { Energy: 'ignore' } } as const;
    const options = { ...said, ...ZONE };
    const recalled = recallAnswers(files, options, 'readings', []);
    expect(answersToRemember(files, recalled, options, 'readings')[0]?.answers).toEqual({});
  });

  it('finds the header, the lines to pass over and the mark between cells again', () => {
    const of = (month: number) => {
      const [header, ...lines] = String(file('a', month).bytes).trimEnd().split('\n');
      const text = ['Our home, 2026-01-01, 12', header, ...lines, 'Total,9999']
        .join('\n')
        .replaceAll(',', '|');
      return { name: `${month}.csv`, bytes: Buffer.from(`${text}\n`) };
    };
    const said = { delimiter: '|', headerLine: 2, passOver: ['Total'], unit: 'Wh' };
    const first = fill([], [of(5)], said);
    expect(first.after.answers.map(({ answers }) => answers)).toEqual([said]);
    expect(inForce(fill(first.after.answers, [of(6)]))).toEqual([said]);
  });
});

describe('files of the same columns and other names', () => {
  const heat = held({ name: 'heat', toldFor: 'heat-may.csv', answers: { defaultChannel: 'heatPumpKwh' } });

  it('share what was said of unit, stamp and dates', () => {
    const [one] = inForce(fill(held({ name: 'grid', answers: { unit: 'Wh' } }), [file('b1a2.csv', 6)]));
    expect(one).toEqual({ unit: 'Wh' });
  });

  it.each<[string, FileOptions]>([
    ['default channel', { defaultChannel: 'heatPumpKwh' }],
    ['channels', { channels: { Energy: 'heatPumpKwh' }, unit: 'Wh' }],
  ])('do not share the %s: the other may be another meter', (_, answers) => {
    const { recalled, imported } = fill(held({ name: 'heat', answers }), [file('grid-june.csv', 6)]);
    expect(recalled[0]).toMatchObject({ from: undefined, inForce: {}, notUsed: { name: 'heat' } });
    expect(Object.keys(imported.readings.channels)).toEqual(['importKwh']);
  });

  it('share nothing once they were told different things, or one of them nothing', () => {
    const different = held({ name: 'a', answers: { unit: 'Wh' } }, { name: 'b', answers: { unit: 'kWh' } });
    const nothing = held({ name: 'a', answers: { unit: 'Wh' } }, { name: 'b' });
    for (const before of [different, nothing])
      expect(inForce(fill(before, [file('c.csv', 6)]))).toEqual([{}]);
  });

  it('are remembered as told nothing, so that nothing said of the one reaches the other next month', () => {
    const said = { perFile: { 'heat-may.csv': { defaultChannel: 'heatPumpKwh', unit: 'Wh' } } } as const;
    const grid = (name: string, month: number) =>
      file(name, month, 'Time,Energy', (i) => `0.${((i * 37) % 89) + 10}`);
    const may = fill([], [file('heat-may.csv', 5), grid('grid-may.csv', 5)], said);
    expect(may.after.answers.map(({ name, answers }) => [name, answers])).toEqual([
      ['heat', { defaultChannel: 'heatPumpKwh', unit: 'Wh' }],
      ['grid', {}],
    ]);
    const june = fill(may.after.answers, [grid('grid-june.csv', 6), file('heat-june.csv', 6)]);
    expect(inForce(june)).toEqual([{}, { defaultChannel: 'heatPumpKwh', unit: 'Wh' }]);
  });

  it('are told apart by a meter’s number, not by dates and counters', () => {
    expect(nameOfExport('a/Meter 1200345671 2026-05-01_2026-05-31 (2).csv')).toBe('meter 1200345671');
    expect(['May 2026.csv', '20260501.csv', 'x\\q3.xlsx', 'a.zip/07.csv'].map(nameOfExport)).toEqual(
      Array(4).fill(''),
    );
    expect(nameOfExport('Maya_usage.csv')).toBe('maya usage');
  });

  it('of one fill that were told different things and have one name are not remembered, and named', () => {
    const perFile = { 'a/use.csv': { unit: 'Wh' }, 'b/use.csv': { unit: 'kWh' } };
    const both = fill([], [file('a/use.csv', 5), file('b/use.csv', 6)], { perFile });
    expect(both.after).toEqual({ answers: [], alike: ['use.csv'] });
  });

  it('without names of columns share nothing at all', () => {
    const first = fill([], [file('heat-5.csv', 5, '')], { unit: 'Wh' });
    expect(first.after.answers[0]?.columns).toBe('no names: dateTime, number');
    expect(inForce(fill(first.after.answers, [file('heat-6.csv', 6, '')]))).toEqual([{ unit: 'Wh' }]);
    expect(inForce(fill(first.after.answers, [file('grid-6.csv', 6, '')]))).toEqual([{}]);
  });
  it('keep what is theirs where one is told more', () => {
    const after = fill(heat, [file('grid-june.csv', 6)], { unit: 'Wh' }).after.answers;
    expect(after.map(({ name, answers }) => [name, answers])).toEqual([
      ['heat', { defaultChannel: 'heatPumpKwh' }],
      ['grid', { unit: 'Wh' }],
    ]);
  });
});

describe('what no longer fits is asked about', () => {
  const heat = held({ name: 'heat', toldFor: 'heat-may.csv', answers: { unit: 'Wh' } });

  it('where a file of the name has other columns now', () => {
    const june = [file('heat june.csv', 6, 'Time,Energy used')];
    expect(messageOf(() => fill(heat, june))).toBe(
      'InputError: heat june.csv: "heat-may.csv", a file of this name, was told how to read it, but had other columns: "Time | Energy". Say it anew for the columns that there are now, or that nothing is to be said: --for "heat june.csv:forget=yes".',
    );
    // Each way out leads out, this month and the next.
    for (const said of [{ unit: 'Wh' }, { forget: true }] as const) {
      const { after } = fill(heat, june, said);
      expect(after.answers).toHaveLength(2);
      expect(inForce(fill(after.answers, [file('heat july.csv', 7, 'Time,Energy used')]))).toEqual([
        'unit' in said ? said : {},
      ]);
    }
  });

  it('where its dates say otherwise', () => {
    const before = held({ answers: { dateOrder: 'mdy' } });
    const of = (day: number) => {
      const lines = Array.from({ length: 4 }, (_, i) => `${two(day)}/05/2026 0${i}:00,0.${i + 1}`);
      return { name: 'june.csv', bytes: Buffer.from(`Time,Energy\n${lines.join('\n')}\n`) };
    };
    expect(fill(before, [of(4)]).recalled[0]?.from).toBe(before[0]);
    expect(messageOf(() => fill(before, [of(25)]))).toBe(
      'InputError: june.csv, line 2: dates are day first, as line 2 shows, and files of these columns were told otherwise ("may.csv": --date-order mdy). What is remembered no longer fits: say --date-order anew, or leave it to the file: --for june.csv:forget=yes.',
    );
  });

  it('where its numbers say otherwise', () => {
    const before = held({ answers: { decimalMark: '.', unit: 'Wh' } });
    const of = (text: string) => file('june.csv', 6, 'Time,Energy', () => `"${text}"`);
    expect(fill(before, [of('1,234')]).recalled[0]?.from).toBe(before[0]);
    expect(messageOf(() => fill(before, [of('1,25')]))).toContain(
      'numbers have a decimal comma, and files of these columns were told otherwise ("may.csv": --decimal point)',
    );
  });
});

it('filling twice what was filled changes nothing of what is remembered, whatever was said', () => {
  const said = fc.record(
    {
      unit: fc.constantFrom('Wh', 'kWh', 'W'),
      stamp: fc.constantFrom('start' as const, 'end' as const),
      stampZone: fc.constantFrom('utc', '+01:00'),
      defaultChannel: fc.constantFrom('importKwh' as const, 'carKwh' as const),
      intervalMinutes: fc.constant(30),
    },
    { requiredKeys: [] },
  );
  fc.assert(
    fc.property(said, said, (first, second) => {
      const may = fill([], [file('may.csv', 5)], first);
      const june = fill(may.after.answers, [file('june.csv', 6)], second);
      expect(inForce(june)).toEqual([{ ...first, ...second }]);
      const again = fill(june.after.answers, [file('june.csv', 6)]);
      expect(again.imported.readings).toEqual(june.imported.readings);
      expect(again.after.answers).toBe(june.after.answers);
    }),
    { numRuns: 40, seed: 14 },
  );
});
