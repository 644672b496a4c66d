import { strToU8, zipSync } from 'fflate';
import { ZIP_DATE } from '../../../src/workbook/package/zip-date.js';

/** The same content gives the same bytes, whenever it is packed. */
const PACKING = { level: 0, mtime: ZIP_DATE } as const;
const MINUTES_A_DAY = 1440;
/** 1970-01-01, counted as spreadsheets do. */
const EPOCH_DAYS = 25_569;
const STAMP = /^(\d{4})-(\d\d)-(\d\d)( (\d\d):(\d\d))?$/;
const NUMBER = /^-?\d+(\.\d+)?$/;

const escaped = (text: string): string =>
  // What no XML may hold is what no program writes.
  text.replace(/[^\t\x20-\ud7ff\ue000-\ufffd]/g, '').replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

/** Days of a stamp as a spreadsheet types it; undefined where the cell is none, and stays a text. */
function daysOf(cell: string): number | undefined {
  const [, year, month, day, , hour = '0', minute = '0'] = STAMP.exec(cell) ?? [];
  if (year === undefined) return undefined;
  const ms = Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute));
  // The 31st of February is no date to a spreadsheet either.
  if (new Date(ms).toISOString().slice(0, 16).replace('T', ' ') !== cell.padEnd(16, ' 00:00'))
    return undefined;
  return ms / 60_000 / MINUTES_A_DAY + EPOCH_DAYS;
}

/**
 * A zip file of one file.
 *
 * @param bytes content of the file
 * @returns the zip file
 * @example packZip(Buffer.from('start,kWh\n'))
 */
export const packZip = (bytes: Uint8Array): Uint8Array => zipSync({ 'a.csv': bytes }, PACKING);

/**
 * An .xlsx file of lines of cells, typed as a spreadsheet program would: dates as dates, numbers as numbers.
 *
 * @param lines cells with commas between
 * @returns the file
 * @example packXlsx(['start,kWh', '2026-01-31 00:30,0.25'])
 */
export function packXlsx(lines: readonly string[]): Uint8Array {
  const cellXml = (cell: string): string => {
    const days = daysOf(cell);
    if (days !== undefined) return `<c s="1"><v>${days}</v></c>`;
    if (NUMBER.test(cell)) return `<c><v>${cell}</v></c>`;
    return cell === ''
      ? '<c/>'
      : `<c t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
  };
  const rows = lines.map((line) => `<row>${line.split(',').map(cellXml).join('')}</row>`).join('');
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
  const related = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  return zipped({
    '[Content_Types].xml':
      '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>',
    '_rels/.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${related}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `<workbook xmlns="${main}" xmlns:r="${related}"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${related}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${related}/styles" Target="styles.xml"/></Relationships>`,
    'xl/styles.xml': `<styleSheet xmlns="${main}"><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="22" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    'xl/worksheets/sheet1.xml': `<worksheet xmlns="${main}"><sheetData>${rows}</sheetData></worksheet>`,
  });
}

/**
 * An .ods file of lines of cells, typed likewise.
 *
 * @param lines cells with commas between
 * @returns the file
 * @example packOds(['start,kWh', '2026-01-31 00:30,0.25'])
 */
export function packOds(lines: readonly string[]): Uint8Array {
  const cellXml = (cell: string): string => {
    if (daysOf(cell) !== undefined) {
      const date = cell.replace(' ', 'T');
      return `<table:table-cell office:value-type="date" office:date-value="${date}"><text:p>${cell}</text:p></table:table-cell>`;
    }
    if (NUMBER.test(cell)) return `<table:table-cell office:value-type="float" office:value="${cell}"/>`;
    if (cell === '') return '<table:table-cell/>';
    return `<table:table-cell office:value-type="string"><text:p>${escaped(cell)}</text:p></table:table-cell>`;
  };
  const rows = lines.map(
    (line) => `<table:table-row>${line.split(',').map(cellXml).join('')}</table:table-row>`,
  );
  const names = ['office', 'table', 'text'].map(
    (name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`,
  );
  return zipped({
    mimetype: 'application/vnd.oasis.opendocument.spreadsheet',
    'content.xml': `<office:document-content ${names.join(' ')}><office:body><office:spreadsheet><table:table table:name="Sheet1">${rows.join('')}</table:table></office:spreadsheet></office:body></office:document-content>`,
  });
}

function zipped(parts: Record<string, string>): Uint8Array {
  const entries = Object.entries(parts).map(([name, text]) => [name, strToU8(text)]);
  return zipSync(Object.fromEntries(entries), PACKING);
}
