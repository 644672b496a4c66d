import { strToU8, type Zippable, zipSync } from 'fflate';
import type { CellValue, SheetReader, WorkbookPackage } from '../../../src/workbook/package/index.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';

const spreadsheet = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const relationships = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packageRelationships = 'http://schemas.openxmlformats.org/package/2006/relationships';

/** A worksheet with these rows; `before` stands in front of the data. */
export function sheetXml(rows: string, before = ''): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n<worksheet xmlns="${spreadsheet}">${before}<sheetData>${rows}</sheetData></worksheet>`;
}

/** Parts of the smallest workbook: one sheet, `Data`. */
export function tinyParts(sheet: string, sharedStrings: readonly string[] = []): Record<string, string> {
  return {
    '[Content_Types].xml': '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    '_rels/.rels': `<Relationships xmlns="${packageRelationships}"><Relationship Id="a" Type="${relationships}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `<workbook xmlns="${spreadsheet}" xmlns:r="${relationships}"><sheets><sheet name="Data" sheetId="1" r:id="s1"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="${packageRelationships}"><Relationship Id="s1" Type="${relationships}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="t" Type="${relationships}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
    'xl/worksheets/sheet1.xml': sheet,
    'xl/sharedStrings.xml': `<sst xmlns="${spreadsheet}">${sharedStrings.map((item) => `<si>${item}</si>`).join('')}</sst>`,
  };
}

/** Packs parts as a file, always the same bytes. */
export function zip(parts: Record<string, string | Uint8Array>): Uint8Array {
  const files: Zippable = {};
  for (const [name, content] of Object.entries(parts)) {
    files[name] = typeof content === 'string' ? strToU8(content) : content;
  }
  return zipSync(files, { mtime: new Date(2024, 0, 1) });
}

/** Opens the smallest workbook around a sheet with these rows. */
export function tinyWorkbook(
  rows: string,
  sharedStrings: readonly string[] = [],
  before = '',
): WorkbookPackage {
  return openWorkbookPackage(zip(tinyParts(sheetXml(rows, before), sharedStrings)), 'home.xlsx');
}

/** What stands between the tags of sheetData. */
export function rowsOf(workbook: WorkbookPackage): string {
  const xml = workbook.readPart('xl/worksheets/sheet1.xml')?.toString() ?? '';
  return /<sheetData>([\s\S]*)<\/sheetData>/.exec(xml)?.[1] ?? xml;
}

/** The message of the error that a call throws. */
export function messageOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    return `${(error as Error).name}: ${(error as Error).message}`;
  }
  return 'no error';
}

/** All values of a sheet by the name of their cell, blanks left out. */
export function valuesOf(reader: SheetReader): Record<string, CellValue> {
  const values: Record<string, CellValue> = {};
  while (reader.next()) if (reader.hasValue) values[reader.name] = reader.value;
  return values;
}

/** All formulas of a sheet by the name of their cell. */
export function formulasOf(reader: SheetReader): Record<string, string> {
  const formulas: Record<string, string> = {};
  while (reader.next()) if (reader.formula !== undefined) formulas[reader.name] = reader.formula;
  return formulas;
}
