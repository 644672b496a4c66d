import {
  CellError,
  type CellValue,
  cellName,
  columnNumber,
  encodeCellText,
  escapeXml,
} from '../package/index.js';

/** A cell to put into a sheet. */
export interface NewCell {
  row: number;
  column: number;
  value: CellValue;
  formula?: string;
  style: number;
}

/**
 * Puts cells into a sheet that the project built, where none of its own stand.
 *
 * @param xml the sheet
 * @param cells the cells
 * @returns the sheet with them, rows and columns in their order
 */
export function insertCells(xml: string, cells: readonly NewCell[]): string {
  const start = xml.indexOf('<sheetData');
  const open = xml.indexOf('>', start) + 1;
  const isEmpty = xml[open - 2] === '/';
  const end = isEmpty ? open : xml.indexOf('</sheetData>');
  const rows = rowsOf(isEmpty ? '' : xml.slice(open, end));
  const byRow = new Map<number, NewCell[]>();
  for (const cell of cells) byRow.set(cell.row, [...(byRow.get(cell.row) ?? []), cell]);
  for (const [row, added] of byRow)
    rows.set(row, withCells(rows.get(row) ?? `<row r="${row}"></row>`, added));
  const data = [...rows].sort(([a], [b]) => a - b).map(([, text]) => text);
  const head = xml.slice(0, start).replace(/<dimension [^>]*\/>/, '');
  return `${head}<sheetData>${data.join('')}</sheetData>${xml.slice(isEmpty ? end : end + '</sheetData>'.length)}`;
}

function rowsOf(data: string): Map<number, string> {
  const rows = new Map<number, string>();
  for (const [text, row] of data.matchAll(/<row r="(\d+)"[^>]*?(?:\/>|>[\s\S]*?<\/row>)/g)) {
    rows.set(Number(row), text);
  }
  return rows;
}

function withCells(row: string, added: readonly NewCell[]): string {
  const [opening = ''] = /^<row [^>]*?\/?>/.exec(row) ?? [];
  const head = opening.replace(/\/>$/, '>').replace(/ spans="[^"]*"/, '');
  const inner = opening.endsWith('/>') ? '' : row.slice(opening.length, -'</row>'.length);
  const cells = new Map<number, string>();
  for (const [text, letters = ''] of inner.matchAll(/<c r="([A-Z]+)\d+"[^>]*?(?:\/>|>[\s\S]*?<\/c>)/g)) {
    cells.set(columnNumber(letters), text);
  }
  for (const cell of added) cells.set(cell.column, cellXml(cell));
  const sorted = [...cells].sort(([a], [b]) => a - b).map(([, text]) => text);
  return `${head}${sorted.join('')}</row>`;
}

function cellXml({ row, column, value, formula, style }: NewCell): string {
  const open = `<c r="${cellName(row, column)}"${style === 0 ? '' : ` s="${style}"`}`;
  const f = formula === undefined ? '' : `<f>${escapeXml(formula)}</f>`;
  if (value === null) return f === '' ? `${open}/>` : `${open}>${f}</c>`;
  if (typeof value === 'number') return `${open}>${f}<v>${value}</v></c>`;
  if (typeof value === 'boolean') return `${open} t="b">${f}<v>${value ? 1 : 0}</v></c>`;
  if (value instanceof CellError) return `${open} t="e">${f}<v>${value.code}</v></c>`;
  const text = encodeCellText(value);
  if (f !== '') return `${open} t="str">${f}<v>${text}</v></c>`;
  return `${open} t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
}
