import ExcelJS from 'exceljs';
import { strToU8, zipSync } from 'fflate';

/** A cell as it is typed: a number with its format, a text, a blank, a formula. */
type Typed = string | number | Date | undefined | { value: number; format: string } | { formula: string };

/** An .xlsx file with sheets of typed cells. */
export async function xlsxBytes(sheets: Record<string, Typed[][]>, date1904 = false): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  workbook.properties.date1904 = date1904;
  for (const [name, rows] of Object.entries(sheets)) {
    const sheet = workbook.addWorksheet(name);
    rows.forEach((row, r) => {
      row.forEach((typed, c) => {
        if (typed === undefined) return;
        const cell = sheet.getCell(r + 1, c + 1);
        if (typeof typed === 'object' && 'format' in typed) {
          cell.value = typed.value;
          cell.numFmt = typed.format;
        } else cell.value = typed as ExcelJS.CellValue;
      });
    });
  }
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

const escaped = (text: string): string => text.replace(/[&<]/g, (c) => (c === '&' ? '&amp;' : '&lt;'));

/** A cell of an .ods file: kind and stored value. */
export type OdsCell = ['float' | 'date' | 'time' | 'string' | 'blank', string] | { xml: string };

/** The content of an .ods file (OASIS OpenDocument 1.2 part 1, 9.1). */
export function odsContent(sheets: Record<string, OdsCell[][]>): string {
  const cell = (typed: OdsCell): string => {
    if (!Array.isArray(typed)) return typed.xml;
    const [kind, value] = typed;
    if (kind === 'blank') return '<table:table-cell/>';
    if (kind === 'string')
      return `<table:table-cell office:value-type="string"><text:p>${escaped(value)}</text:p></table:table-cell>`;
    const attribute = kind === 'float' ? 'value' : `${kind}-value`;
    return `<table:table-cell office:value-type="${kind}" office:${attribute}="${value}"><text:p>shown otherwise</text:p></table:table-cell>`;
  };
  const tables = Object.entries(sheets).map(
    ([name, rows]) =>
      `<table:table table:name="${name}"><table:table-column table:number-columns-repeated="1024"/>${rows
        .map((row) => `<table:table-row>${row.map(cell).join('')}</table:table-row>`)
        .join(
          '',
        )}<table:table-row table:number-rows-repeated="1048000"><table:table-cell table:number-columns-repeated="1024"/></table:table-row></table:table>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?><office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet>${tables.join('')}</office:spreadsheet></office:body></office:document-content>`;
}

/** An .ods file. */
export function odsBytes(
  sheets: Record<string, OdsCell[][]>,
  parts: Record<string, string> = {},
): Uint8Array {
  return zipOf({
    mimetype: 'application/vnd.oasis.opendocument.spreadsheet',
    'META-INF/manifest.xml':
      '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>',
    'content.xml': odsContent(sheets),
    ...parts,
  });
}

/** A zip file of texts or bytes. */
export function zipOf(files: Record<string, string | Uint8Array>): Uint8Array {
  return zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, content]) => [
        name,
        typeof content === 'string' ? strToU8(content) : content,
      ]),
    ),
  );
}
