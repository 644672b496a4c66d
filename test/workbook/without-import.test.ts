import { beforeAll, expect, it } from 'vitest';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { tariffOf } from '../../src/workbook/model/period-line.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { checkCounts, shownFormulas } from './shown-by-sheet.js';
import { smallTemplate } from './small-month.js';
import { imported, NOW, octoberCsv } from './template.js';

/** Days 10 to 16 of October, on which the meter's import is missing. */
const DAYS = { first: 9 * 48, rows: 7 * 48 };

/** A row without its import; nor a price, which says what stored energy is worth on any day. */
function withoutImport(header: string, row: string): string {
  const names = header.split(',');
  return row
    .split(',')
    .map((cell, i) => (/import|price/i.test(names[i] ?? '') ? '' : cell))
    .join(',');
}

let blank: WorkbookValues;
let missing: WorkbookValues;
beforeAll(async () => {
  const [header = '', ...rows] = octoberCsv().trimEnd().split('\n');
  const filled = async (change: (row: string) => string[]): Promise<WorkbookValues> => {
    const lines = rows.flatMap((row, i) =>
      i >= DAYS.first && i < DAYS.first + DAYS.rows ? change(row) : [row],
    );
    const readings = imported({ 'october.csv': `${[header, ...lines].join('\n')}\n` });
    return fillWorkbook(await smallTemplate(), 'home.xlsx', readings, { now: NOW }).values;
  };
  [blank, missing] = [await filled((row) => [withoutImport(header, row)]), await filled(() => [])];
});

it.each([SHEETS.answer, SHEETS.tariffs, SHEETS.battery, SHEETS.when, SHEETS.bills])(
  'a half-hour without import counts nowhere on %s, whatever else it has: as if its row were missing',
  (sheet) => {
    // All but how many checks ask: what the heat pump took without import has no price, which a row that is missing can't tell.
    const shown = (values: WorkbookValues) =>
      shownFormulas(values, sheet).filter(([at]) => sheet !== SHEETS.answer || at !== 'A3');
    const expected = shown(missing);
    expect(expected.filter(([, value]) => typeof value === 'number').length).toBeGreaterThan(3);
    expect(shown(blank)).toEqual(expected);
  },
);

it('the heat pump’s readings in it have no price, and a check says so', () => {
  const unpriced = 'Heating: months without a cost, as the import has gaps while the heat pump ran';
  expect([blank, missing].map((values) => checkCounts(values)[unpriced])).toEqual([1, 0]);
});

it('the battery stands still in it, on every tariff', () => {
  for (let t = 0; t < 6; t++) {
    const [a, b] = [blank, missing].map(({ calculated, book }) =>
      calculated.numbers(tariffOf(book, t).level),
    );
    expect(a).toEqual(b);
  }
});
