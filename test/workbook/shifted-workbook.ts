import {
  cellName,
  escapeXml,
  openWorkbookPackage,
  parseCellRef,
  rangeName,
  sheetRange,
} from '../../src/workbook/package/index.js';
import { sheetPart, withParts } from './edit-package.js';

/** Columns or rows that were inserted before one, or deleted from it on. */
export interface Shift {
  sheet: string;
  what: 'column' | 'row';
  /** From 1. */
  at: number;
  /** Below 0: deleted. */
  count: number;
}

/**
 * A workbook in which somebody inserted or deleted columns or rows of a sheet: its cells and the defined names move, as
 * in every spreadsheet program. Formulas keep their text: what is held here is refused before one is looked at.
 */
export function shiftedWorkbook(bytes: Uint8Array, { sheet, what, at, count }: Shift): Uint8Array {
  /** Where a column or row stands afterwards; undefined where it is gone. */
  const moved = (place: number): number | undefined => {
    if (place < at) return place;
    return count < 0 && place < at - count ? undefined : place + count;
  };
  const movedSpan = (first: number, last: number): [number, number] | undefined => {
    const left = Array.from({ length: last - first + 1 }, (_, i) => moved(first + i)).filter(
      (n) => n !== undefined,
    );
    return left.length === 0 ? undefined : [left[0]!, left.at(-1)!];
  };
  const isColumn = what === 'column';
  return withParts(bytes, {
    [sheetPart(bytes, sheet)]: (xml) =>
      xml.replace(
        /<row r="(\d+)"([^>]*?)(?:\/>|>([\s\S]*?)<\/row>)/g,
        (_, number: string, more: string, cells = '') => {
          const row = isColumn ? Number(number) : moved(Number(number));
          if (row === undefined) return '';
          const kept = (cells as string).replace(
            /<c r="([A-Z]+\d+)"(?:[^>]*\/>|[^>]*>[\s\S]*?<\/c>)/g,
            (cell: string, name: string) => {
              const { column } = parseCellRef(name);
              const to = isColumn ? moved(column) : column;
              return to === undefined ? '' : cell.replace(name, cellName(row, to));
            },
          );
          return `<row r="${row}"${more.replace(/ spans="[^"]*"/, '')}>${kept}</row>`;
        },
      ),
    'xl/workbook.xml': (xml) =>
      xml.replace(
        /(<definedName [^>]*>)([^<]*)(<\/definedName>)/g,
        (whole, open: string, text: string, close: string) => {
          const found = sheetRange(text.replaceAll('&apos;', "'"));
          if (found?.sheet !== sheet) return whole;
          const { firstRow, lastRow, firstColumn, lastColumn } = found.range;
          const columns = isColumn ? movedSpan(firstColumn, lastColumn) : [firstColumn, lastColumn];
          const rows = isColumn ? [firstRow, lastRow] : movedSpan(firstRow, lastRow);
          if (columns === undefined || rows === undefined) return `${open}#REF!${close}`;
          const [[left = 0, right = 0], [top = 0, bottom = 0]] = [columns, rows];
          const range = rangeName({ firstRow: top, lastRow: bottom, firstColumn: left, lastColumn: right });
          return `${open}${escapeXml(`'${sheet}'!${range.replace(/([A-Z]+)(\d+)/g, '$$$1$$$2')}`)}${close}`;
        },
      ),
  });
}

/** A workbook with the whole cells of some places of a sheet put to other places: moved, swapped or sorted. */
export function movedCells(
  bytes: Uint8Array,
  sheet: string,
  to: (cell: { row: number; column: number }) => { row: number; column: number },
): Uint8Array {
  const part = sheetPart(bytes, sheet);
  const rows = new Map<number, Map<number, string>>();
  const xml = openWorkbookPackage(bytes, 'home.xlsx').readPart(part)!.toString();
  for (const [cell, name] of xml.matchAll(/<c r="([A-Z]+\d+)"(?:[^>]*\/>|[^>]*>[\s\S]*?<\/c>)/g)) {
    const { row, column } = to(parseCellRef(name!));
    if (!rows.has(row)) rows.set(row, new Map());
    rows.get(row)!.set(column, cell.replace(name!, cellName(row, column)));
  }
  const sorted = [...rows].sort(([a], [b]) => a - b);
  const data = sorted.map(([row, cells]) => {
    const inOrder = [...cells].sort(([a], [b]) => a - b).map(([, cell]) => cell);
    return `<row r="${row}">${inOrder.join('')}</row>`;
  });
  return withParts(bytes, {
    [part]: (now) =>
      now.replace(/<sheetData>[\s\S]*<\/sheetData>/, () => `<sheetData>${data.join('')}</sheetData>`),
  });
}
