import { columnLetters } from '../../column-letters.js';
import { InputError } from '../../errors.js';
import type { Table } from '../read-table.js';
import { openParts, type PackageParts } from './package-parts.js';
import { odsSheets } from './read-ods.js';
import { type SheetPart, xlsxSheets } from './read-xlsx.js';
import type { SheetCells } from './sheet-cells.js';

const ODS = 'application/vnd.oasis.opendocument.spreadsheet';

/**
 * Whether a zip file is a document of an office program rather than a packet of files.
 *
 * @param parts the zip file
 * @returns true for .xlsx, .ods and their like
 * @example isWorkbook(openParts(bytes, 'may.zip')) // false
 */
export function isWorkbook(parts: PackageParts): boolean {
  return (
    parts.names.includes('[Content_Types].xml') ||
    (parts.names.includes('mimetype') && parts.names.includes('content.xml'))
  );
}

/**
 * Reads the sheet of readings of a workbook into rows of texts: dates as dates, numbers as they are stored.
 *
 * @param bytes the file
 * @param file name for messages
 * @param wanted name of the sheet, where the user says it
 * @param hasReadings whether a sheet may hold readings
 * @returns the table
 * @throws InputError where the file is no workbook of sheets, where there is no such sheet, and where several may hold readings
 * @example readSheets(bytes, 'may.xlsx', undefined, hasReadings).lineOf(2, 1) // 'Readings!B3'
 */
export function readSheets(
  bytes: Uint8Array,
  file: string,
  wanted: string | undefined,
  hasReadings: (rows: string[][]) => boolean,
): Table {
  const parts = openParts(bytes, file);
  const { kind, sheets } = sheetsOf(parts, file);
  const names = sheets.map(({ name }) => `"${name}"`).join(', ');
  if (wanted !== undefined) {
    const bare = wanted.trim().toLowerCase();
    const sheet =
      sheets.find(({ name }) => name === wanted) ??
      sheets.find(({ name }) => name.trim().toLowerCase() === bare);
    if (sheet === undefined) {
      throw new InputError(`there is no sheet "${wanted}"`, `The sheets are ${names}.`, { file });
    }
    return tableOf(sheet.cells(), file, kind, sheets.length - 1);
  }
  const visible = sheets.filter(({ hidden }) => !hidden);
  const filled = visible.map((sheet) => sheet.cells()).filter(({ rows }) => rows.length > 0);
  const likely = filled.filter(({ rows }) => hasReadings(rows));
  if (likely.length > 1) {
    throw new InputError(
      `the sheets ${likely.map(({ name }) => `"${name}"`).join(' and ')} may all hold readings`,
      `Say which: --sheet "${likely[0]!.name}".`,
      { file },
    );
  }
  const sheet = likely[0] ?? filled[0];
  if (sheet !== undefined) return tableOf(sheet, file, kind, sheets.length - 1);
  throw new InputError(
    sheets.length > 0 ? `its sheets (${names}) are empty` : 'it holds no sheet',
    'Give a workbook with a sheet of readings.',
    { file },
  );
}

function sheetsOf(parts: PackageParts, file: string): { kind: string; sheets: SheetPart[] } {
  if (!parts.names.includes('[Content_Types].xml')) {
    if (parts.text('mimetype')?.trim() === ODS) return { kind: '.ods', sheets: odsSheets(parts, file) };
    throw notSheets(file);
  }
  if (parts.names.some((name) => /(^|\/)workbook\.bin$/.test(name))) {
    throw new InputError('the file is a binary workbook', 'Open it and save it as .xlsx.', { file });
  }
  if (!parts.names.some((name) => /(^|\/)workbook\d*\.xml$/.test(name))) throw notSheets(file);
  return { kind: '.xlsx', sheets: xlsxSheets(parts, file) };
}

function notSheets(file: string): InputError {
  return new InputError(
    'the file is a document, and no workbook of sheets',
    'Copy the readings into a spreadsheet program and save it as .xlsx.',
    { file },
  );
}

function tableOf(
  { name, rows, hidden, is1904 }: SheetCells,
  file: string,
  kind: string,
  others: number,
): Table {
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  // A blank cell is there, whether it is stored or not.
  const records = rows.map((row) => [...row, ...new Array<string>(width - row.length).fill('')]);
  const sheet = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
  const rest = others === 0 ? '' : `; ${others} other sheet${others === 1 ? '' : 's'} not read`;
  return {
    file,
    records,
    delimiter: ' ',
    encoding: '',
    endsWithLineEnd: true,
    lineNumber: (record) => record + 1,
    lineOf: (record, column = 0) => `${sheet}!${columnLetters(column + 1)}${record + 1}`,
    source: {
      text: `${kind}, ${hidden ? 'hidden ' : ''}sheet "${name}"${rest}`,
      lineName: 'row',
      assumptions: [],
      isSheet: true,
      ...(is1904 === true ? { countsFrom1904: true } : {}),
    },
  };
}
