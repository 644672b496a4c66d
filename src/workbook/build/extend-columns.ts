import { strFromU8, strToU8 } from 'fflate';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import type { FormulaColumn } from '../model/sheet-model.js';
import { escapeXml } from '../package/index.js';

/**
 * Writes long columns down a sheet: its first row is there with a formula a cell, the rows below share it.
 *
 * @param sheetXml the sheet as built, with the first row of every column
 * @param columns columns of one length, in any order
 * @param results values for every row
 * @returns the sheet with all rows
 * @throws Error when the first row is not found as the builder writes it
 */
export function extendColumns(
  sheetXml: Uint8Array<ArrayBuffer>,
  columns: readonly FormulaColumn[],
  results: WorkbookResults,
): Uint8Array<ArrayBuffer> {
  const [first] = columns;
  if (first === undefined) return sheetXml;
  const xml = strFromU8(sheetXml);
  const rowStart = xml.indexOf(`<row r="${first.firstRow}"`);
  const rowEnd = xml.indexOf('</row>', rowStart) + '</row>'.length;
  if (rowStart < 0) throw new Error(`row ${first.firstRow} is missing from the built sheet`);
  const built = xml.slice(rowStart, rowEnd);
  const lastRow = first.firstRow + first.rows - 1;

  const parts = columns.map((column, index) => {
    const cell = new RegExp(`<c r="${column.letters}${column.firstRow}" s="(\\d+)"[^>]*>`).exec(built);
    if (cell === null) throw new Error(`${column.letters}${column.firstRow} is missing from the built sheet`);
    return {
      open: `<c r="${column.letters}`,
      style: cell[1]!,
      master: `<f t="shared" ref="${column.letters}${column.firstRow}:${column.letters}${lastRow}" si="${index}">${escapeXml(column.formula(column.firstRow))}</f>`,
      child: `<f t="shared" si="${index}"/>`,
      values: column.values(results),
    };
  });
  const rows: string[] = [];
  for (let i = 0; i < first.rows; i++) {
    const row = first.firstRow + i;
    let text = `<row r="${row}">`;
    for (const part of parts) {
      const value = part.values[i];
      const isText = typeof value === 'string';
      const stored = isText ? escapeXml(value) : String(value ?? 0);
      text += `${part.open}${row}" s="${part.style}"${isText ? ' t="str"' : ''}>${i === 0 ? part.master : part.child}<v>${stored}</v></c>`;
    }
    rows.push(`${text}</row>`);
  }
  const extended = xml.slice(0, rowStart) + rows.join('') + xml.slice(rowEnd);
  return strToU8(
    extended.replace(/<dimension ref="([A-Z]+\d+):([A-Z]+)\d+"\/>/, `<dimension ref="$1:$2${lastRow}"/>`),
  );
}
