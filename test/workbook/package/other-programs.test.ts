import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import {
  comparableFormula,
  DROP,
  openWorkbookPackage,
  type SheetEdits,
  translateFormula,
  type WorkbookPackage,
} from '../../../src/workbook/package/index.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { compressedParts, formulaKinds, householdWorkbook, rowCount } from './household-workbook.js';
import { formulasOf, valuesOf } from './tiny-workbook.js';

// Other programs take a second or two, more on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const folder = mkdtempSync(join(tmpdir(), 'other-programs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const original = await householdWorkbook();
const originalPath = join(folder, 'home.xlsx');
writeFileSync(originalPath, original);

const lastRow = rowCount + 2;
const firstNewKwh = 1 / 3;

/** A new month: other readings, five more half-hours, the cost beside each; what the user added is calculated anew. */
function newMonth(): SheetEdits {
  const kwh = Float64Array.from({ length: rowCount + 5 }, (_, index) => firstNewKwh + index / 100);
  return {
    inputs: [
      { column: 2, firstRow: 3, values: kwh },
      { column: 7, firstRow: 3, values: ['=1+1', 'a <b> & "c"', true] },
      { column: 2, firstRow: 1, values: [30] },
    ],
    cached: (row, column) => {
      const cost = (kwh[row - 3] as number) * 30;
      if (column === 3) return cost;
      return column === 4 ? (cost > 15 ? 'dear' : '') : DROP;
    },
  };
}

function soffice(...args: string[]): void {
  const profile = `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`;
  execFileSync('soffice', [profile, '--headless', ...args], { stdio: 'ignore' });
}

/** What LibreOffice shows of the first sheet of a file, as a table of texts. */
function shownByCalc(path: string): string[][] {
  // Tab, double quote, UTF-8, from line 1; then: numbers without quotes, and in full, not as their format shows them.
  const filter = 'csv:Text - txt - csv (StarCalc):9,34,76,1,,0,false,true,false';
  soffice('--convert-to', filter, '--outdir', join(folder, 'csv'), path);
  const csv = readFileSync(
    join(folder, 'csv', `${path.split('/').at(-1)?.replace('.xlsx', '')}.csv`),
    'utf8',
  );
  return csv.split('\n').map((line) => line.split('\t'));
}

/** All that must hold of the household's workbook, whoever saved it last. */
function takesANewMonth(name: string, bytes: () => Uint8Array): void {
  let before: WorkbookPackage;
  let after: WorkbookPackage;
  let saved: Uint8Array;
  beforeAll(() => {
    before = openWorkbookPackage(bytes(), name);
    after = openWorkbookPackage(bytes(), name);
    after.editSheet('Readings', newMonth());
    saved = after.toBytes();
    writeFileSync(join(folder, `${name}.xlsx`), saved);
  });

  it('its sheets, names and values are found', () => {
    expect(before.sheetNames()).toEqual(['Readings', 'Kinds', 'My notes']);
    expect(before.definedName('UnitRate')).toMatch(/^'?Readings'?!\$B\$1$/);
    const values = valuesOf(before.readSheet('Readings'));
    expect(values).toMatchObject({ A1: 'Unit rate, p/kWh', B1: 28.5, B2: 'kWh', B5: 0.2, D3: '' });
    expect(values.A5).toBeCloseTo(45_292 + 2 / 48, 9);
    expect(valuesOf(before.readSheet('My notes'))).toEqual({ A1: 3, B1: 'bold and plain' });
  });

  it('every formula is the one that was written', () => {
    const reader = before.readSheet('Readings');
    let checked = 0;
    while (reader.next()) {
      const master = { 3: 'B3*UnitRate', 4: 'IF(C3>$B$1/2,"dear","")', 5: 'C3*2' }[reader.column];
      if (reader.row < 3 || master === undefined) continue;
      const own = translateFormula(master, { row: 3, column: reader.column }, reader);
      expect(comparableFormula(reader.formula ?? '', reader)).toBe(comparableFormula(own, reader));
      expect(reader.comparableFormula).toBe(comparableFormula(master, { row: 3, column: reader.column }));
      checked++;
    }
    expect(checked).toBe(3 * rowCount);
    const kinds = formulasOf(before.readSheet('Kinds'));
    expect(Object.values(kinds).map((formula) => comparableFormula(formula, 'A1'))).toEqual(
      formulaKinds.map((formula) => comparableFormula(formula, 'A1')),
    );
  });

  it('the new values are what exceljs reads, and the formulas are as they were', async () => {
    const workbook = new ExcelJS.Workbook();
    await workbook.xlsx.load(saved as unknown as ExcelJS.Buffer);
    const sheet = workbook.getWorksheet('Readings') as ExcelJS.Worksheet;
    expect(sheet.getCell('B3').value).toBe(firstNewKwh);
    expect(sheet.getCell(`B${lastRow + 5}`).value).toBeCloseTo(firstNewKwh + 0.64, 12);
    expect(sheet.getCell('C3').result).toBe(firstNewKwh * 30);
    expect(sheet.getCell(`C${lastRow}`).result).toBe((firstNewKwh + 0.59) * 30);
    expect(sheet.getCell(`D${lastRow}`).result).toBe('dear');
    expect(sheet.getCell('G3').value).toBe('=1+1');
    expect(sheet.getCell('G3').type).toBe(ExcelJS.ValueType.String);
    expect(sheet.getCell('G4').value).toBe('a <b> & "c"');
    expect(sheet.getCell('G5').value).toBe(true);
    expect(formulasOf(after.readSheet('Readings'))).toEqual(formulasOf(before.readSheet('Readings')));
    expect(valuesOf(after.readSheet('Readings')).E3).toBeUndefined();
  });

  it('a new cell looks like the cell above it', () => {
    const styles = new Map<string, number>();
    for (const reader = after.readSheet('Readings'); reader.next(); ) styles.set(reader.name, reader.style);
    expect(styles.get(`B${lastRow + 5}`)).toBe(styles.get(`B${lastRow}`));
  });

  it('every other part keeps its very bytes, compressed ones included', () => {
    const old = compressedParts(bytes());
    const now = compressedParts(saved);
    expect([...now.keys()]).toEqual([...old.keys()]);
    const changed = [...old.keys()].filter(
      (part) => !(now.get(part) as Buffer).equals(old.get(part) as Buffer),
    );
    expect(changed).toEqual(['xl/worksheets/sheet1.xml']);
  });

  it('the same month again changes nothing', () => {
    const again = openWorkbookPackage(saved, name);
    expect(again.editSheet('Readings', newMonth()).changedCells).toBe(0);
    expect(again.toBytes()).toBe(saved);
  });
}

/** LibreOffice shows what was stored, and calculates what was not. */
function isShownByCalc(name: string): void {
  it('LibreOffice shows the stored values and calculates the cells without', () => {
    const shown = shownByCalc(join(folder, `${name}.xlsx`));
    for (let index = 0; index < rowCount; index++) {
      const kwh = firstNewKwh + index / 100;
      const row = shown[index + 2] as string[];
      expect(Number(row[1])).toBeCloseTo(kwh, 12);
      expect(Number(row[2])).toBeCloseTo(kwh * 30, 12);
      expect(row[3]).toBe(kwh * 30 > 15 ? 'dear' : '');
      expect(Number(row[4])).toBeCloseTo(kwh * 60, 12);
    }
    expect(Number(shown[lastRow + 4]?.[1])).toBeCloseTo(firstNewKwh + 0.64, 12);
    expect((shown[2] as string[])[6]).toBe('=1+1');
  });
}

/** Gnumeric reads what was typed and stored. */
function isReadByGnumeric(name: string): void {
  it('Gnumeric reads the values, and a text that begins like a formula as a text', () => {
    const csv = join(folder, `${name}-gnumeric.csv`);
    execFileSync(
      'ssconvert',
      ['-O', 'format=raw', '-T', 'Gnumeric_stf:stf_assistant', join(folder, `${name}.xlsx`), csv],
      {
        stdio: 'ignore',
      },
    );
    const shown = readFileSync(csv, 'utf8')
      .split('\n')
      .map((line) => line.split(','));
    for (let index = 0; index < rowCount; index++) {
      const kwh = firstNewKwh + index / 100;
      expect(Number(shown[index + 2]?.[1])).toBeCloseTo(kwh, 12);
      expect(Number(shown[index + 2]?.[2])).toBeCloseTo(kwh * 30, 12);
      expect(Number(shown[index + 2]?.[4])).toBeCloseTo(kwh * 60, 12);
    }
    expect(shown[2]?.[6]).toBe('=1+1');
  });
}

describe('a workbook that exceljs saved', () => {
  takesANewMonth('exceljs', () => original);
});

describeWithCalc('a workbook that exceljs saved, opened by LibreOffice', () => {
  isShownByCalc('exceljs');
});

describeWithGnumeric('a workbook that exceljs saved, opened by Gnumeric', () => {
  isReadByGnumeric('exceljs');
});

describeWithCalc('a workbook that LibreOffice saved', () => {
  beforeAll(() => soffice('--convert-to', 'xlsx', '--outdir', join(folder, 'calc'), originalPath));
  takesANewMonth('calc', () => readFileSync(join(folder, 'calc', 'home.xlsx')));
  isShownByCalc('calc');
});

describeWithGnumeric('a workbook that Gnumeric saved', () => {
  const saved = join(folder, 'gnumeric-saved.xlsx');
  beforeAll(() => {
    execFileSync('ssconvert', [originalPath, saved], { stdio: 'ignore' });
  });
  takesANewMonth('gnumeric', () => readFileSync(saved));
  describe('opened by itself again', () => isReadByGnumeric('gnumeric'));
  describeWithCalc('opened by LibreOffice', () => isShownByCalc('gnumeric'));
});
