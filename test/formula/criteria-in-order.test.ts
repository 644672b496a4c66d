import fc from 'fast-check';
import { expect, it } from 'vitest';
import { compileFormula } from '../../src/formula/compile.js';
import { Grid } from '../../src/formula/grid.js';
import type { CellPlace } from '../../src/formula/nodes.js';
import { parseFormulaText } from '../../src/formula/parse-text.js';
import type { Value } from '../../src/formula/values.js';

const HOME: CellPlace = { sheet: 'Costs', row: 1, column: 9 };
const ROWS = 600;

const rising = (numbers: readonly number[]): number[] => [...numbers].sort((a, b) => a - b);
const numbers = fc.array(fc.integer({ min: 0, max: 40 }), { minLength: ROWS, maxLength: ROWS });
/** Times as a year has them: in order, an hour shown twice, a later file above an earlier one, blank at the end; or out of order. */
const times: fc.Arbitrary<Value[]> = fc.oneof(
  numbers.map(rising),
  fc
    .tuple(numbers, fc.integer({ min: 1, max: ROWS - 1 }), fc.integer({ min: 0, max: ROWS }))
    .map(([all, cut, blank]) => [
      ...rising(all.slice(0, cut)),
      ...rising(all.slice(cut)),
      ...Array<Value>(blank).fill(null),
    ]),
  fc
    .tuple(numbers, fc.integer({ min: 0, max: ROWS - 1 }), fc.constantFrom<Value>(null, 'noon', 7))
    .map(([all, at, odd]) => rising(all).map((number, i): Value => (i === at ? odd : number))),
  numbers,
);
const orders: Readonly<Record<string, (value: number, bound: number) => boolean>> = {
  '<': (value, bound) => value < bound,
  '<=': (value, bound) => value <= bound,
  '>': (value, bound) => value > bound,
  '>=': (value, bound) => value >= bound,
};
const order = fc.tuple(fc.constantFrom(...Object.keys(orders)), fc.integer({ min: -1, max: 41 }));

it('criteria find in any order of numbers what looking at each finds', () => {
  fc.assert(
    fc.property(times, order, order, order, (starts, first, second, third) => {
      const grid = new Grid();
      const kwh = starts.map((_, i) => i % 7);
      grid.column('Costs', 1).setValues(1, starts);
      grid.column('Costs', 2).setValues(1, kwh);
      const area = (letters: string): string => `$${letters}$1:$${letters}$${starts.length}`;
      const criteria = [
        ['A', first],
        ['A', second],
        ['B', third],
      ] as const;
      const pairs = criteria.map(([letters, [sign, bound]]) => `${area(letters)},"${sign}${bound}"`).join();
      const result = (text: string): Value =>
        compileFormula(parseFormulaText(text, HOME, new Map()), HOME, grid)(HOME.row);
      const meets = (value: Value | undefined, [sign, bound]: readonly [string, number]): boolean =>
        typeof value === 'number' && orders[sign]?.(value, bound) === true;
      const found = kwh.filter(
        (kwh, i) => meets(starts[i], first) && meets(starts[i], second) && meets(kwh, third),
      );
      expect(result(`COUNTIFS(${pairs})`)).toBe(found.length);
      expect(result(`SUMIFS(${area('B')},${pairs})`)).toBe(found.reduce((sum, kwh) => sum + kwh, 0));
    }),
    { numRuns: 300 },
  );
});

it('criteria see a number that is typed after they were asked', () => {
  const grid = new Grid();
  grid.column('Costs', 1).setValues(
    1,
    Array.from({ length: ROWS }, (_, i) => i),
  );
  const count = compileFormula(
    parseFormulaText(`COUNTIFS($A$1:$A$${ROWS},">=590")`, HOME, new Map()),
    HOME,
    grid,
  );
  expect(count(HOME.row)).toBe(10);
  grid.column('Costs', 1).setValue(1, 1000);
  expect(count(HOME.row)).toBe(11);
});
