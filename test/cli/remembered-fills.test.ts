import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { type FilledFile, fillFile } from '../../src/cli/fill-file.js';
import type { SaidOptions } from '../../src/cli/options-by-kind.js';
import { Progress } from '../../src/cli/progress.js';
import { rememberedAnswers, rowsOf } from '../../src/cli/remembered-rows.js';
import type { FileOptions } from '../../src/readings/index.js';
import { carryWorkbook } from '../../src/workbook/carry/carry-workbook.js';
import { TOLD } from '../../src/workbook/fields/told-places.js';
import { readInputs, shapeOfWorkbook } from '../../src/workbook/inputs/read-inputs.js';
import { readToldRows, type ToldRow } from '../../src/workbook/inputs/read-told-rows.js';
import { columnNumber, openWorkbookPackage } from '../../src/workbook/package/index.js';
import { smallTemplate } from '../workbook/small-month.js';

const folder = mkdtempSync(join(tmpdir(), 'remembered-fills-'));
const workbook = join(folder, 'home.xlsx');
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(async () => writeFileSync(workbook, await smallTemplate()));

const two = (n: number): string => String(n).padStart(2, '0');

/** Writes a file of one day of October, in Wh by the end of the half-hour, neither of which it says. */
function meterFile(name: string, day: number, header = 'When,Grid'): string {
  const lines = Array.from({ length: 47 }, (_, i) => {
    const minutes = (i + 1) * 30;
    return `2026-10-${two(day)} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)},${200 + ((i * 37) % 101)}`;
  });
  const path = join(folder, name);
  writeFileSync(path, `${[header, ...lines].join('\n')}\n`);
  return path;
}

const fill = (path: string, importOptions: SaidOptions = {}): Promise<FilledFile> =>
  fillFile({ files: [path], workbook, out: workbook, importOptions }, new Progress({ write: () => true }));
const said: SaidOptions = { unit: 'Wh', stamp: 'end', channels: { Grid: 'importKwh' } };
const rows = (bytes: Uint8Array = readFileSync(workbook)): ToldRow[] =>
  readToldRows(openWorkbookPackage(bytes, 'home.xlsx')).filter(({ answer }) => answer !== '');

/** Types into a cell of what files were told. */
function type(key: keyof typeof TOLD.letters, row: number, value: string | null): void {
  const opened = openWorkbookPackage(readFileSync(workbook), 'home.xlsx');
  const column = columnNumber(TOLD.letters[key]);
  opened.editSheet(TOLD.sheet, { inputs: [{ column, firstRow: TOLD.firstRow + row, values: [value] }] });
  writeFileSync(workbook, opened.toBytes());
}

describe('a workbook', () => {
  it('keeps in plain words what a file was told, uses it the next month and says so, and carries it along', async () => {
    await fill(meterFile('meter 1.csv', 1), said);
    const row = (answer: string): ToldRow => ({
      columns: 'When | Grid',
      kind: 'readings',
      name: 'meter',
      answer,
      toldFor: 'meter 1.csv',
    });
    const kept = [row('channel=Grid=importKwh'), row('stamp=end'), row('unit=Wh')];
    expect(rows()).toEqual(kept);

    const next = await fill(meterFile('meter 2.csv', 2));
    expect(next.report.replaceAll(/\s+/g, ' ')).toContain(
      'told channel=Grid=importKwh, stamp=end, unit=Wh, as said of "meter 1.csv" (kept on Notes; --forget leaves it out)',
    );
    expect(next.result.addedHalfHours).toBe(47);
    const opened = openWorkbookPackage(readFileSync(workbook), 'home.xlsx');
    const { readings } = readInputs(opened, shapeOfWorkbook(opened));
    // Half past midnight is the end of the first half-hour.
    expect(readings.startSerial[47]! % 1).toBe(0);
    expect(readings.values.importKwh[47]).toBe(0.2);

    const again = await fill(join(folder, 'meter 2.csv'));
    expect(again.written).toBe(false);

    const carried = await carryWorkbook(readFileSync(workbook), 'home.xlsx', { days: 50 });
    expect(rows(carried.bytes)).toEqual(kept);
    expect(carried.notCarried).toEqual([]);
  });

  it('forgets a row that is cleared, and everything where that is said', async () => {
    await fill(meterFile('meter 1.csv', 1), said);
    for (const key of Object.keys(TOLD.letters) as (keyof typeof TOLD.letters)[]) type(key, 1, null);
    const { report } = await fill(meterFile('meter 2.csv', 2));
    expect(report).not.toContain('stamp=end');
    expect(rows().map(({ answer }) => answer)).toEqual(['channel=Grid=importKwh', 'unit=Wh']);
    await fill(join(folder, 'meter 1.csv'), { ...said, forget: true, onConflict: 'replace', unit: 'kWh' });
    expect(rows().map(({ answer }) => answer)).toEqual(['channel=Grid=importKwh', 'stamp=end', 'unit=kWh']);
  });

  it.each<[keyof typeof TOLD.letters, string | null, string]>([
    ['answer', 'unti=Wh', `"unti=Wh" can't be used: The options are channel,`],
    ['answer', 'Wh', '"Wh" is not written OPTION=VALUE'],
    ['answer', 'stamp=middle', `"stamp=middle" can't be used: Write one of start, end`],
    ['kind', 'water', '"water" is none of readings, gas, temperatures'],
    ['columns', null, 'the row does not say of which columns'],
  ])('names a cell of %s that holds %s, and writes nothing', async (key, value, message) => {
    await fill(meterFile('meter 1.csv', 1), said);
    type(key, 1, value);
    const before = readFileSync(workbook);
    await expect(fill(meterFile('meter 2.csv', 2))).rejects.toThrow(
      `${workbook}, Notes!${TOLD.letters[key]}${TOLD.firstRow + 1}: ${message}`,
    );
    expect(readFileSync(workbook).equals(before)).toBe(true);
  });

  it('tells with a fault of a file what it was read by', async () => {
    await fill(meterFile('meter 1.csv', 1), said);
    const path = meterFile('meter 2.csv', 2);
    writeFileSync(path, readFileSync(path, 'utf8').replace(',200\n', ',2oo\n'));
    await expect(fill(path)).rejects.toThrow(
      `It was read by what is remembered: channel=Grid=importKwh, stamp=end, unit=Wh, as said of "meter 1.csv"; if that no longer fits, say it anew, or --for "${path}:forget=yes".`,
    );
  });
});

describe('what is remembered as rows', () => {
  it('comes back as it was, whatever was said', async () => {
    const answers: FileOptions = {
      channels: { 'a=b; c': 'importKwh', '3': 'ignore' },
      dateOrder: 'mdy',
      stamp: 'start',
      stampZone: '+01:00',
      stampColumn: 'Zeit',
      unit: 'Wh',
      register: false,
      intervalMinutes: 15,
      headerLine: 3,
      sheet: 'May 2026',
      delimiter: '\t',
      decimalMark: ',',
      passOver: ['Total', 'Sum: '],
    };
    const one = { kind: 'gas', columns: 'a | b', name: 'x', toldFor: 'x 1.csv', answers } as const;
    const other = { kind: 'temperature', columns: 'a | b', name: '', toldFor: 'y', answers: {} } as const;
    const { rows: list, left } = rowsOf([one, other]);
    expect([list.length, list.at(-1)?.answer, left]).toEqual([16, 'nothing', []]);
    const opened = openWorkbookPackage(await smallTemplate(), 'home.xlsx');
    for (const [key, letters] of Object.entries(TOLD.letters)) {
      const values = list.map((row) => row[key as keyof ToldRow]);
      opened.editSheet(TOLD.sheet, {
        inputs: [{ column: columnNumber(letters), firstRow: TOLD.firstRow, values }],
      });
    }
    expect(rememberedAnswers(opened.toBytes(), 'home.xlsx')).toEqual([
      { ...one, answers: { ...answers, passOver: ['Total', 'Sum:'] } },
      other,
    ]);
  });

  it('keeps whole files only where there is no room for all', () => {
    const many = Array.from({ length: 21 }, (_, i) => ({
      kind: 'gas' as const,
      columns: `${i}`,
      name: '',
      toldFor: `${i}.csv`,
      answers: { unit: 'm3', stamp: 'end' as const },
    }));
    const { rows: list, left } = rowsOf(many);
    expect([list.length, left]).toEqual([TOLD.rows, ['20.csv']]);
  });
});
