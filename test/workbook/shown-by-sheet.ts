import { SHEETS } from '../../src/workbook/layout.js';
import { allChecks } from '../../src/workbook/model/checks.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';

/** What every formula of a sheet that stands in a cell of its own comes to, by its cell. */
export function shownFormulas(
  { inputs, book, calculated }: WorkbookValues,
  sheet: string,
): [at: string, value: unknown][] {
  return workbookModel(inputs, book)
    .filter(({ name }) => name === sheet)
    .flatMap(({ cells }) => cells)
    .flatMap((cell): [string, unknown][] =>
      cell.kind === 'formula' ? [[cell.at, calculated.at(sheet, cell.at)]] : [],
    );
}

/** What each check counts, by its name. */
export function checkCounts({
  book,
  calculated,
}: Pick<WorkbookValues, 'book' | 'calculated'>): Record<string, unknown> {
  const checks = allChecks(book);
  const names = { sheet: SHEETS.checks, column: 1, firstRow: 6, rows: checks.length };
  const counts = calculated.column({ ...names, column: 2 });
  return Object.fromEntries(calculated.column(names).map((name, i) => [String(name), counts[i]]));
}
