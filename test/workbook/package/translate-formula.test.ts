import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formulaTokens } from '../../../src/workbook/package/formula-tokens.js';
import { comparableFormula, relativeFormula, translateFormula } from '../../../src/workbook/package/index.js';

describe('translateFormula', () => {
  it.each([
    ['relative references move', 'A1+B2', 'B3+C4'],
    ['anchors hold', '$A1+A$1+$A$1', '$A3+B$1+$A$1'],
    ['ranges move at both ends', 'SUM(A1:$B$9)', 'SUM(B3:$B$9)'],
    ['whole columns', 'SUM(A:A)+SUM($A:B)', 'SUM(B:B)+SUM($A:C)'],
    ['whole rows', 'SUM(1:1)+SUM($1:2)', 'SUM(3:3)+SUM($1:4)'],
    ['other sheets', "Data!A1+'My Sheet'!A1+'O''Brien'!A1", "Data!B3+'My Sheet'!B3+'O''Brien'!B3"],
    ['sheets that look like references', "Q1!A1+'Q1'!A1+Q1:Q4!A1", "Q1!B3+'Q1'!B3+Q1:Q4!B3"],
    ['functions that look like references', 'LOG10(A1)+DAYS360(A1,B1)', 'LOG10(B3)+DAYS360(B3,C3)'],
    ['texts stay', '"A1"&A1&"say ""A1"""', '"A1"&B3&"say ""A1"""'],
    ['names stay', 'Rate_A1*rate.A1*A1_rate*Rate*\\A1', 'Rate_A1*rate.A1*A1_rate*Rate*\\A1'],
    ['names beyond the sheet stay', 'XFE1+TAX2024000+A1048577', 'XFE1+TAX2024000+A1048577'],
    ['tables stay', 'Table1[A1]+Table1[[#Data],[A1]]', 'Table1[A1]+Table1[[#Data],[A1]]'],
    ['another file', "[1]Data!A1+'[1]My Sheet'!A1", "[1]Data!B3+'[1]My Sheet'!B3"],
    ['numbers stay', '1E5+2.5e-3+.5+A1', '1E5+2.5e-3+.5+B3'],
    ['errors stay', 'IF(A1,#N/A,#REF!)', 'IF(B3,#N/A,#REF!)'],
    ['array constants', 'SUM({1,2;3,4}*A1)', 'SUM({1,2;3,4}*B3)'],
    ['spaces stay', ' SUM( A1 , B1 ) ', ' SUM( B3 , C3 ) '],
    ['newer functions', '_xlfn.IFS(A1>0,1)', '_xlfn.IFS(B3>0,1)'],
    ['a spill reference', 'SUM(A1#)', 'SUM(B3#)'],
    ['names in other alphabets', 'Tarif_été*ставка*A1', 'Tarif_été*ставка*B3'],
  ])('%s', (_, formula, moved) => expect(translateFormula(formula, 'C1', 'D3')).toBe(moved));

  it('says #REF! where a reference would leave the sheet', () => {
    expect(translateFormula('A1+SUM(A1:B1)+C1', 'C2', 'B2')).toBe('#REF!+SUM(#REF!)+B1');
    expect(translateFormula('A2', 'A3', 'A1')).toBe('#REF!');
    expect(translateFormula('XFD1', 'A1', 'B1')).toBe('#REF!');
  });

  const cells = fc.record({
    row: fc.integer({ min: 50, max: 90 }),
    column: fc.integer({ min: 50, max: 90 }),
  });
  const reference = fc
    .tuple(
      fc.constantFrom('', '$'),
      fc.constantFrom('AX', 'BZ', 'cc'),
      fc.constantFrom('', '$'),
      fc.integer({ min: 50, max: 99 }),
    )
    .map((parts) => parts.join('').toUpperCase());
  const piece = fc.oneof(
    reference,
    fc.tuple(reference, reference).map(([from, to]) => `SUM(${from}:${to})`),
    fc.constantFrom('"A1"', "'A 1'!BB60", 'LOG10(BB60)', 'Rate', '12.5', 'BA:BC', '60:$70'),
  );
  const formula = fc.array(piece, { minLength: 1, maxLength: 6 }).map((pieces) => pieces.join('+'));
  const law = (name: string, property: (text: string, a: Cell, b: Cell, c: Cell) => void) => {
    it(name, () => {
      fc.assert(fc.property(formula, cells, cells, cells, property), { seed: 2 });
    });
  };
  type Cell = { row: number; column: number };

  law('to its own cell changes nothing', (text, a) => {
    expect(translateFormula(text, a, a)).toBe(text);
  });
  law('there and back changes nothing', (text, a, b) => {
    expect(translateFormula(translateFormula(text, a, b), b, a)).toBe(text);
  });
  law('two steps are one', (text, a, b, c) => {
    expect(translateFormula(translateFormula(text, a, b), b, c)).toBe(translateFormula(text, a, c));
  });
  law('the relative form stays the same', (text, a, b) => {
    expect(relativeFormula(translateFormula(text, a, b), b)).toBe(relativeFormula(text, a));
  });

  it('cuts any text into pieces that join to the text again', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(
          formulaTokens(text)
            .map((token) => token.text)
            .join(''),
        ).toBe(text);
      }),
      { seed: 3 },
    );
  });
});

describe('relativeFormula', () => {
  it('writes distances', () => {
    expect(relativeFormula('A2*$B$1+SUM(A:$B)+SUM(1:$2)', 'C2')).toBe(
      'R[0]C[-2]*R1C2+SUM(C[-2]:C2)+SUM(R[-1]:R2)',
    );
  });
});

describe('comparableFormula', () => {
  it('is the same down a column, whoever wrote the formula', () => {
    expect(comparableFormula('a2 * $B$1', 'C2')).toBe(comparableFormula('A3*$B$1', 'C3'));
    expect(comparableFormula('A2*$B$1', 'C2')).not.toBe(comparableFormula('A2*$B$1', 'C3'));
    expect(comparableFormula('A2*$B$1', 'C2')).not.toBe(comparableFormula('A2*B1', 'C2'));
  });

  it('takes a range from a cell to itself as the cell, as Gnumeric saves it', () => {
    expect(comparableFormula('SUM(Data!$B$1:$B$1)', 'C2')).toBe(comparableFormula('SUM(Data!$B$1)', 'C2'));
    expect(comparableFormula('SUM(B2:B3)', 'C2')).not.toBe(comparableFormula('SUM(B2)', 'C2'));
    expect(comparableFormula('SUM(2:2)', 'C2')).not.toBe(comparableFormula('SUM(2)', 'C2'));
  });
});
