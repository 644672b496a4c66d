import ExcelJS from 'exceljs';
import { strToU8, unzipSync, zipSync } from 'fflate';

/** Half-hours in the household's workbook. */
export const rowCount = 60;

/** Formulas of every kind that a workbook may hold, by row of column A of the sheet `Kinds`. */
export const formulaKinds = [
  'Readings!B3 + 1',
  'sum(Readings!b3:b9)',
  "SUM('My notes'!A1:A3)",
  "'Readings'!B3*2",
  'IF(Readings!B3>0.2,"yes & ""no""","<no>")',
  'IF(Readings!B3>0,TRUE,FALSE)',
  'IFERROR(1/0,"none")',
  'SUMIFS(Readings!C3:C62,Readings!B3:B62,">=0.5")',
  'COUNTIFS(Readings!B3:B62,">0")',
  'INDEX(Readings!B3:B62,MATCH(0.3,Readings!B3:B62,0))',
  'SUM(INDEX(Readings!B:B,3):INDEX(Readings!B:B,6))',
  'SUMPRODUCT(--(Readings!B3:B62>0.5),Readings!C3:C62)',
  '-Readings!B4^2',
  '1.50*UnitRate',
  'unitrate*1E-3',
  'STDEV(Readings!B3:B62)',
  'MAX(Readings!B:B)',
  'ROUND(UnitRate/3,2)',
  'TEXT(Readings!A3,"yyyy-mm-dd")',
  'WEEKDAY(Readings!A3,2)',
  'MOD(Readings!A3,1)',
  'LOG10(100)',
  'NA()',
  '""',
  '(1+2)*3',
  'SMALL(Readings!B3:B62,2)',
];

/**
 * A household's workbook: readings with shared formulas, and much that has nothing to do with readings: notes, a
 * comment, a list to choose from, colours that follow values, names, a picture and a part that no program knows.
 */
export async function householdWorkbook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const readings = workbook.addWorksheet('Readings');
  readings.getCell('A1').value = 'Unit rate, p/kWh';
  readings.getCell('B1').value = 28.5;
  readings.getRow(2).values = ['Time', 'kWh', 'Cost, p', 'Dear?', 'Mine'];
  readings.getColumn(1).numFmt = 'yyyy-mm-dd hh:mm';
  readings.getColumn(2).numFmt = '0.000';
  for (let index = 0; index < rowCount; index++) {
    const row = index + 3;
    readings.getCell(row, 1).value = 45_292 + index / 48;
    readings.getCell(row, 2).value = (index % 10) / 10;
    const shared = (master: string, formula: string, result: number | string | boolean) =>
      (index === 0
        ? { formula, result, shareType: 'shared', ref: `${master}:${master.charAt(0)}${rowCount + 2}` }
        : { sharedFormula: master, result }) as unknown as ExcelJS.CellValue;
    readings.getCell(row, 3).value = shared('C3', 'B3*UnitRate', 0);
    readings.getCell(row, 4).value = shared('D3', 'IF(C3>$B$1/2,"dear","")', '');
    readings.getCell(row, 5).value = { formula: `C${row}*2`, result: 12345 };
  }
  readings.getCell('B1').note = 'from the bill';
  readings.getCell('G1').dataValidation = { type: 'list', allowBlank: true, formulae: ['"a,b"'] };
  readings.addConditionalFormatting({
    ref: 'B3:B62',
    rules: [
      {
        type: 'cellIs',
        operator: 'greaterThan',
        formulae: ['0.5'],
        priority: 1,
        style: { font: { bold: true } },
      },
    ],
  });
  const kinds = workbook.addWorksheet('Kinds');
  for (const [index, formula] of formulaKinds.entries())
    kinds.getCell(index + 1, 1).value = { formula } as ExcelJS.CellValue;
  const notes = workbook.addWorksheet('My notes');
  notes.getCell('A1').value = 3;
  notes.getCell('B1').value = { richText: [{ text: 'bold ', font: { bold: true } }, { text: 'and plain' }] };
  notes.addImage(
    workbook.addImage({ buffer: onePixel() as unknown as ExcelJS.Buffer, extension: 'png' }),
    'D1:E4',
  );
  workbook.definedNames.add('Readings!$B$1', 'UnitRate');
  const parts = unzipSync(new Uint8Array((await workbook.xlsx.writeBuffer()) as ArrayBuffer));
  const foreign = Uint8Array.from({ length: 999 }, (_, index) => index % 251);
  return zipSync({
    ...parts,
    'custom/foreign.bin': foreign,
    'custom/note.xml': strToU8('<note>mine</note>'),
  });
}

/** The smallest PNG picture. */
function onePixel(): Buffer {
  return Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
    'base64',
  );
}

/** Compressed bytes of every part of a zip file by its name, straight from the file. */
export function compressedParts(file: Uint8Array): Map<string, Buffer> {
  const bytes = Buffer.from(file);
  const parts = new Map<string, Buffer>();
  let at = bytes.readUInt32LE(bytes.length - 6);
  for (let count = bytes.readUInt16LE(bytes.length - 12); count > 0; count--) {
    const nameLength = bytes.readUInt16LE(at + 28);
    const start = bytes.readUInt32LE(at + 42);
    const data = start + 30 + bytes.readUInt16LE(start + 26) + bytes.readUInt16LE(start + 28);
    parts.set(
      bytes.toString('utf8', at + 46, at + 46 + nameLength),
      bytes.subarray(data, data + bytes.readUInt32LE(at + 20)),
    );
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return parts;
}
