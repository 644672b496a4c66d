import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cellName,
  columnName,
  columnNumber,
  LAST_COLUMN,
  LAST_ROW,
  parseCellRef,
  parseRangeRef,
  rangeName,
} from '../../../src/workbook/package/index.js';

describe('columnName', () => {
  it.each([
    [1, 'A'],
    [26, 'Z'],
    [27, 'AA'],
    [702, 'ZZ'],
    [703, 'AAA'],
    [LAST_COLUMN, 'XFD'],
  ])('%i is %s', (column, name) => expect(columnName(column)).toBe(name));

  it.each([0, -1, 1.5, LAST_COLUMN + 1])('refuses %d', (column) => {
    expect(() => columnName(column)).toThrow(RangeError);
  });

  it('is undone by columnNumber', () => {
    for (let column = 1; column <= LAST_COLUMN; column++)
      expect(columnNumber(columnName(column))).toBe(column);
  });
});

describe('parseCellRef', () => {
  it('takes anchors and lower case', () => {
    expect(parseCellRef('$b$7')).toEqual({ row: 7, column: 2 });
  });

  it.each(['', 'A', '7', 'A0', 'A01', 'XFE1', 'A1048577', 'A1:B2', 'R1C1', 'AAAA1'])('refuses %j', (text) => {
    expect(() => parseCellRef(text)).toThrow(RangeError);
  });

  it('undoes cellName', () => {
    const rows = fc.integer({ min: 1, max: LAST_ROW });
    const columns = fc.integer({ min: 1, max: LAST_COLUMN });
    fc.assert(
      fc.property(rows, columns, (row, column) => {
        expect(parseCellRef(cellName(row, column))).toEqual({ row, column });
      }),
      { seed: 1 },
    );
  });
});

describe('parseRangeRef', () => {
  it('takes the corners in any order', () => {
    expect(rangeName(parseRangeRef('C9:$A$1'))).toBe('A1:C9');
    expect(rangeName(parseRangeRef('B2'))).toBe('B2');
  });
});
