import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFormula } from '../../src/formula/compile.js';
import { Grid } from '../../src/formula/grid.js';
import { type Area, type CellPlace, type Node, namedIn } from '../../src/formula/nodes.js';
import { parseFormula } from '../../src/formula/parse.js';
import { parseFormulaText } from '../../src/formula/parse-text.js';
import { printFormula } from '../../src/formula/print.js';
import { FormulaError, type Value } from '../../src/formula/values.js';

const HOME: CellPlace = { sheet: 'Costs', row: 2, column: 5 };
const NAMES = new Map<string, Area>([
  ['unit_rate', { sheet: 'Rates', firstRow: 1, lastRow: 1, firstColumn: 1, lastColumn: 1 }],
]);

function resultOf(text: string, grid = new Grid()): Value {
  return compileFormula(parseFormulaText(text, HOME, NAMES), HOME, grid)(HOME.row);
}

describe('a formula', () => {
  it('is printed with no more brackets than its meaning needs', () => {
    const again = (text: string): string => printFormula(parseFormulaText(text, HOME, NAMES), HOME);
    expect(again('((1+2))*3')).toBe('(1+2)*3');
    expect(again('1+(2*3)')).toBe('1+2*3');
    expect(again('1-(2-3)')).toBe('1-(2-3)');
    expect(again('(1-2)-3')).toBe('1-2-3');
    expect(again('IF(unit_rate>0,"say ""yes""",$A$2:$B9)')).toBe('IF(unit_rate>0,"say ""yes""",$A$2:$B9)');
    expect(again('INDEX($A$1:$A$9,2):INDEX($A$1:$A$9,4)')).toBe('INDEX($A$1:$A$9,2):INDEX($A$1:$A$9,4)');
  });

  it('is written by the names of its parts, and means what they stand for', () => {
    const grid = new Grid();
    grid.column('Costs', 1).setValues(1, [1, 2, 3]);
    const own = parseFormulaText('$A2', HOME, NAMES);
    const below: Node = { kind: 'named', name: 'from_here', is: parseFormulaText('$A2:$A3', HOME, NAMES) };
    const doubled: Node = { kind: 'named', name: 'doubled', is: parseFormula([below, '*2']) };
    const formula = parseFormula(['10*', own, '+SUMPRODUCT(', doubled, ',', below, ')-SUM(', below, ')']);
    expect(printFormula(formula, HOME)).toBe('10*$A2+SUMPRODUCT(doubled,from_here)-SUM(from_here)');
    expect(compileFormula(formula, HOME, grid)(HOME.row)).toBe(10 * 2 + 2 * (4 + 9) - 5);
    expect([...namedIn(formula)].map(({ name }) => name)).toEqual([
      'doubled',
      'from_here',
      'from_here',
      'from_here',
    ]);
  });

  it('says what is wrong where it is not well formed', () => {
    expect(() => parseFormula(['1+'])).toThrow('ends too early');
    expect(() => parseFormula(['SUM(1,2'])).toThrow('is missing');
    expect(() => parseFormula(['1 # 2'])).toThrow('no part of a formula');
    expect(() => resultOf('tariff_of_none*2')).toThrow('"tariff_of_none" is no name');
    expect(() => resultOf('XLOOKUP(1,2,3)')).toThrow('XLOOKUP is no function');
  });

  it('means the same after it was printed and read again', () => {
    const number = fc.integer({ min: 0, max: 9 }).map((value): Node => ({ kind: 'number', value }));
    const tree = fc.letrec<{ node: Node }>((tie) => ({
      node: fc.oneof(
        { maxDepth: 5 },
        number,
        fc.record({
          kind: fc.constant('unary' as const),
          operator: fc.constant('-' as const),
          operand: tie('node'),
        }),
        fc.record({
          kind: fc.constant('binary' as const),
          operator: fc.constantFrom('+', '-', '*', '/', '=', '<', '&' as const),
          left: tie('node'),
          right: tie('node'),
        }),
      ),
    })).node;
    fc.assert(
      fc.property(tree, (node) => {
        const run = (formula: Node): Value => compileFormula(formula, HOME, new Grid())(HOME.row);
        const text = printFormula(node, HOME);
        expect(run(parseFormulaText(text, HOME, NAMES))).toEqual(run(node));
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});

describe('a grid', () => {
  it('works a column out from the row above without going deep', () => {
    const grid = new Grid();
    const rows = 50_000;
    grid.column('Costs', 5).setValue(1, 0);
    const home = { sheet: 'Costs', row: 2, column: 5 };
    const running = parseFormulaText('$E1+1', home, NAMES);
    grid.column('Costs', 5).setFormulas(2, rows + 1, compileFormula(running, home, grid));
    expect(grid.value({ sheet: 'Costs', row: rows + 1, column: 5 })).toBe(rows);
  });

  it('names the cell that depends on itself', () => {
    const grid = new Grid();
    const at = (column: number): CellPlace => ({ sheet: 'Costs', row: 2, column });
    const put = (column: number, text: string): void => {
      const compute = compileFormula(parseFormulaText(text, at(column), NAMES), at(column), grid);
      grid.column('Costs', column).setFormulas(2, 2, compute);
    };
    put(1, '$B$2+1');
    put(2, '$A$2+1');
    expect(() => grid.value(at(1))).toThrow('column 1 of Costs, row 2, depends on itself');
  });

  it('passes errors on, and catches them where a formula says so', () => {
    expect(resultOf('1/0+1')).toBe(FormulaError.divisionByZero);
    expect(resultOf('IF(1/0>1,1,2)')).toBe(FormulaError.divisionByZero);
    expect(resultOf('IFERROR(1/0,7)')).toBe(7);
    expect(resultOf('"8,5"*2')).toBe(FormulaError.value);
  });
});
