import { strFromU8, strToU8 } from 'fflate';
import { columnNumber } from '../cell-address.js';
import { columnFormula, isSharedColumn } from '../model/column-text.js';
import type { FormulaColumn, FormulaValue, SheetModel, ValueColumn } from '../model/sheet-model.js';
import { CellError, escapeXml } from '../package/index.js';
import { storedNumber } from '../stored-number.js';

/** A stretch of a column as it is written: what stands before the row number, and what each row holds. */
interface Stretch {
  column: number;
  firstRow: number;
  lastRow: number;
  write: (row: number) => string;
}

/**
 * Writes the long columns of a sheet: the first cell of each is there as the builder wrote it, the rest is added.
 *
 * @param sheetXml the sheet as built, with the first cell of every long column
 * @param sheet the sheet
 * @param valuesOf stored values of a column of formulas, from its first row
 * @returns the sheet with all rows; what else stands in the rows of long columns is kept
 * @throws Error when a first cell is not found as the builder writes it
 */
export function extendColumns(
  sheetXml: Uint8Array<ArrayBuffer>,
  sheet: SheetModel,
  valuesOf: (column: FormulaColumn) => ArrayLike<FormulaValue>,
): Uint8Array<ArrayBuffer> {
  const formulas = sheet.formulaColumns.filter(({ rows }) => isLong(rows));
  const constants = (sheet.valueColumns ?? []).filter(({ values }) => isLong(values.length));
  // What continues a long column stands in the same rows.
  const all =
    formulas.length + constants.length === 0 ? [] : [...sheet.formulaColumns, ...(sheet.valueColumns ?? [])];
  if (all.length === 0) return sheetXml;
  const xml = strFromU8(sheetXml);
  const styleOf = (letters: string, row: number): string => {
    const cell = new RegExp(`<c r="${letters}${row}" s="(\\d+)"`).exec(xml);
    if (cell === null) throw new Error(`${letters}${row} is missing from the built sheet ${sheet.name}`);
    return cell[1] ?? '0';
  };
  let shared = 0;
  const stretches = all
    .map((column): Stretch => {
      const open = `<c r="${column.letters}`;
      const style = `" s="${styleOf(column.letters, column.firstRow)}"`;
      if ('values' in column) return valueStretch(column, open, style);
      return formulaStretch(sheet.name, column, open, style, valuesOf(column), () => shared++);
    })
    .sort((a, b) => a.column - b.column);
  const firstRow = Math.min(...stretches.map((stretch) => stretch.firstRow));
  const lastRow = Math.max(...stretches.map((stretch) => stretch.lastRow));
  const start = xml.indexOf(`<row r="${firstRow}"`);
  const end = xml.indexOf('</sheetData>');
  const beside = builtRows(xml.slice(start, end));
  const rows: string[] = [];
  for (let row = firstRow; row <= lastRow; row++) {
    const built = beside.get(row);
    const written: BuiltCell[] = [];
    for (const stretch of stretches) {
      if (row >= stretch.firstRow && row <= stretch.lastRow) {
        written.push({ column: stretch.column, xml: stretch.write(row) });
      }
    }
    if (built !== undefined) {
      const ours = new Set(written.map(({ column }) => column));
      written.push(...built.cells.filter(({ column }) => !ours.has(column)));
      written.sort((a, b) => a.column - b.column);
    }
    rows.push(`<row r="${row}"${built?.height ?? ''}>${written.map((cell) => cell.xml).join('')}</row>`);
  }
  const below = [...beside].filter(([row]) => row > lastRow).map(([, { whole }]) => whole);
  const extended = xml.slice(0, start) + rows.join('') + below.join('') + xml.slice(end);
  return strToU8(
    extended.replace(/<dimension ref="([A-Z]+\d+):([A-Z]+)\d+"\/>/, `<dimension ref="$1:$2${lastRow}"/>`),
  );
}

interface BuiltCell {
  column: number;
  xml: string;
}

/** Rows as the builder wrote them: the cells of each, and what it says of its height. */
function builtRows(xml: string): Map<number, { whole: string; height: string; cells: BuiltCell[] }> {
  const rows = xml.matchAll(/<row r="(\d+)"([^>]*?)(?:\/>|>([\s\S]*?)<\/row>)/g);
  return new Map(
    [...rows].map(([whole, row, attributes = '', content = '']) => {
      const cells = content.matchAll(/<c r="([A-Z]+)\d+"[^>]*?(?:\/>|>[\s\S]*?<\/c>)/g);
      const height = / ht="[^"]*"/.exec(attributes)?.[0];
      return [
        Number(row),
        {
          whole,
          height: height === undefined ? '' : `${height} customHeight="1"`,
          cells: [...cells].map(([cell, letters = '']) => ({ column: columnNumber(letters), xml: cell })),
        },
      ];
    }),
  );
}

/** Columns of this length are written as one cell by the builder; the rest is added to the package afterwards. */
export const LONG_COLUMN_ROWS = 1000;

/** Whether a column is too long for one cell at a time. */
export function isLong(rows: number): boolean {
  return rows > LONG_COLUMN_ROWS;
}

/** Whether a sheet has long columns; then all of its columns are written that way. */
export function hasLongColumns(sheet: SheetModel): boolean {
  return (
    sheet.formulaColumns.some(({ rows }) => isLong(rows)) ||
    (sheet.valueColumns ?? []).some(({ values }) => isLong(values.length))
  );
}

function valueStretch(column: ValueColumn, open: string, style: string): Stretch {
  const { letters, firstRow, values } = column;
  return {
    column: columnNumber(letters),
    firstRow,
    lastRow: firstRow + values.length - 1,
    write: (row) => `${open}${row}${style}>${`<v>${values[row - firstRow] ?? 0}</v>`}</c>`,
  };
}

function formulaStretch(
  sheet: string,
  column: FormulaColumn,
  open: string,
  style: string,
  values: ArrayLike<FormulaValue>,
  nextGroup: () => number,
): Stretch {
  const { letters, firstRow, rows } = column;
  const lastRow = firstRow + rows - 1;
  const first = columnFormula(sheet, column, firstRow);
  const group = isSharedColumn(sheet, column) ? nextGroup() : undefined;
  const formulaAt = (row: number): string => {
    if (group === undefined) return `<f>${escapeXml(columnFormula(sheet, column, row))}</f>`;
    if (row > firstRow) return `<f t="shared" si="${group}"/>`;
    return `<f t="shared" ref="${letters}${firstRow}:${letters}${lastRow}" si="${group}">${escapeXml(first)}</f>`;
  };
  return {
    column: columnNumber(letters),
    firstRow,
    lastRow,
    write: (row) => {
      const value = storedNumber(values[row - firstRow] ?? null);
      return `${open}${row}${style}${typeOf(value)}>${formulaAt(row)}<v>${storedText(value)}</v></c>`;
    },
  };
}

function typeOf(value: FormulaValue): string {
  if (value instanceof CellError) return ' t="e"';
  return typeof value === 'number' ? '' : ' t="str"';
}

function storedText(value: FormulaValue): string {
  if (value instanceof CellError) return value.code;
  return typeof value === 'string' ? escapeXml(value) : String(value ?? '');
}
