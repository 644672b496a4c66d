import { describe, expect, it } from 'vitest';
import { blankStart } from '../../src/workbook/fill/blank-start.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { declareBook } from '../../src/workbook/model/book.js';
import { columnFormula, isSharedColumn } from '../../src/workbook/model/column-text.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { inflateEntry, readZip } from '../../src/zip/zip-container.js';
import { filledYear } from './sample-workbooks.js';
import { smallMonth } from './small-month.js';
import { emptyTemplate, filledMonth } from './template.js';

/** Cells with a shared formula: how many there are, and those beside which something else than a number is stored. */
function cellsThatShare(bytes: Uint8Array): { count: number; other: string[] } {
  const workbook = openWorkbookPackage(bytes, 'home.xlsx');
  const entries = readZip(bytes, 'home.xlsx');
  let count = 0;
  const other: string[] = [];
  for (const sheet of workbook.sheetNames()) {
    const part = workbook.sheetPart(sheet);
    const xml = inflateEntry(entries.find(({ name }) => name === part)!, 'home.xlsx').toString();
    const cells = xml.matchAll(
      /<c r="([A-Z]+\d+)"([^>]*)><f t="shared"[^>]*?(?:\/>|>[^<]*<\/f>)(?:<v>([^<]*)<\/v>)?/g,
    );
    for (const [, at, attributes = '', value = ''] of cells) {
      count++;
      if (value === '' || attributes.includes(' t=')) other.push(`${sheet}!${at}`);
    }
  }
  return { count, other };
}

describe('a cell that shares its formula', () => {
  it.each([
    ['the empty template', emptyTemplate],
    ['a filled month', filledMonth],
    ['a filled year', filledYear],
    ['a month in a workbook of a few days', smallMonth],
  ])('has a number stored beside it, in %s', async (_, workbook) => {
    const { count, other } = cellsThatShare(await workbook());
    expect(count).toBeGreaterThan(40_000);
    expect(other).toEqual([]);
  });
});

describe('a column of half-hours', () => {
  it('is a name in each of its rows, or shares a formula that looks at the row above', () => {
    const columns = workbookModel(blankStart(), declareBook(35)).find(
      ({ name }) => name === SHEETS.halfHours,
    )!.formulaColumns;
    const shared: string[] = [];
    const written: string[] = [];
    for (const column of columns) {
      const text = columnFormula(SHEETS.halfHours, column, column.firstRow);
      if (isSharedColumn(SHEETS.halfHours, column)) shared.push(text);
      else written.push(text);
    }
    expect(written.filter((text) => !/^\w+$/.test(text))).toEqual([]);
    expect(written).toEqual(expect.arrayContaining(['start_of_half_hour', 'used_by_home']));
    // Of the first row, 8.
    expect(shared.length).toBeGreaterThan(8);
    expect(shared.filter((text) => !/\$[A-Z]+7\b/.test(text))).toEqual([]);
  });
});
