import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CellArgument, DescribedFunction } from '../../src/functions/described-function.js';
import { loadIronCalc } from '../engines/ironcalc.js';
import { describeTwoFaces, expectExampleToHold, expectFacesToAgree, layOutFaces } from './two-faces.js';

const argument = {
  name: 'value',
  unit: 'none',
  kind: 'number',
  shape: 'cell',
  description: 'A value.',
} as const;

const sumAbove: DescribedFunction = {
  name: 'sumAbove',
  cellName: 'SUM_ABOVE',
  category: 'shares',
  summary: 'Sum of the values of a column that are above a limit.',
  arguments: [
    { ...argument, shape: 'column' },
    { ...argument, name: 'limit' },
  ],
  result: { unit: 'none', shape: 'cell', description: 'The sum.' },
  source: 'arithmetic',
  example: { arguments: [[[1], [null], [5]], 2], result: 5 },
  compute: ([column, limit]) =>
    (column as number[][]).flat().reduce((sum, value) => (value > (limit as number) ? sum + value : sum), 0),
  formula: ([column, limit]) => `SUMIF(${column},">"&${limit})`,
};

const label: DescribedFunction = {
  ...sumAbove,
  name: 'label',
  cellName: 'LABEL',
  summary: 'A text and whether it is marked.',
  arguments: [
    { ...argument, kind: 'text' },
    { ...argument, name: 'marked', kind: 'yesNo', optional: true },
  ],
  example: { arguments: ['peak "A1"', true], result: 'peak "A1" *' },
  compute: ([text, marked]) => (marked ? `${text} *` : `${text}`),
  formula: ([text, marked]) => (marked === undefined ? `${text}&""` : `${text}&IF(${marked}," *","")`),
};

const reversed: DescribedFunction = {
  ...sumAbove,
  name: 'reversed',
  cellName: 'REVERSED',
  example: { arguments: [[[1], [2]]], result: [[2], [1]] },
  compute: ([column]) => [...(column as number[][])].reverse(),
};
delete reversed.formula;

const number = fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter((x) => x === 0 || Math.abs(x) > 1e-9);
const lists: Record<string, fc.Arbitrary<readonly CellArgument[]>> = {
  sumAbove: fc.tuple(
    fc.array(fc.tuple(fc.option(number, { freq: 5 })), { minLength: 1, maxLength: 60 }),
    fc.integer({ min: -1e6, max: 1e6 }),
  ),
  label: fc.oneof(
    fc.tuple(
      fc.string({ minLength: 1 }).filter((text) => text.trim() === text),
      fc.boolean(),
    ),
    fc.tuple(fc.constantFrom('007', '=1+1', 'TRUE', "'quoted'", '5%', '2024-01-15')),
  ),
};

describeTwoFaces('functions made up for this test', [sumAbove, label, reversed], lists);

describe('holding the two faces of a function together', () => {
  it('names function, arguments and both values where they differ', async () => {
    const wrong = {
      ...sumAbove,
      formula: ([column, limit]: readonly string[]) => `SUMIF(${column},">="&${limit})`,
    };
    const faces = await layOutFaces([wrong], { sumAbove: fc.constant([[[2], [3]], 2]) }, { casesEach: 1 });
    expect(() => expectFacesToAgree(faces, loadIronCalc(faces.file).result())).toThrow(
      'sumAbove([[2],[3]],2)\n    computed 3, IronCalc gives 5 for =SUMIF(Arguments!$A$5:$A$6,">="&Arguments!$C$5)',
    );
  });

  it('finds an example that does not hold', () => {
    const wrong = { ...reversed, example: { arguments: [[[1], [2]]], result: [[2], [1.1]] } };
    expect(() => expectExampleToHold(wrong)).toThrow(
      'reversed([[1],[2]]): the example says [2],[1.1], computed [2],[1]',
    );
  });

  it('demands arguments for every function with a formula', async () => {
    await expect(layOutFaces([sumAbove], {})).rejects.toThrow(
      'sumAbove has a formula, but no argument lists',
    );
  });

  it('says which arguments a computation refuses', async () => {
    const refusing = {
      ...sumAbove,
      compute: () => {
        throw new Error('never');
      },
    };
    await expect(layOutFaces([refusing], lists)).rejects.toThrow(
      'sumAbove([[1],[null],[5]],2): the computation refuses',
    );
  });
});
