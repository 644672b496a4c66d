import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { BLOCK_ROWS, FIRST_ROW, SHEETS, USUAL_DAYS } from '../../src/workbook/layout.js';
import { declareBook } from '../../src/workbook/model/book.js';
import { READING } from '../../src/workbook/model/columns.js';
import { ratePeriodRows, tariffLetters, windowRows } from '../../src/workbook/model/tariff-rows.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { describeWithCalc } from '../engines/availability.js';
import { type Calc, type CalcDocument, startCalc } from '../engines/libreoffice.js';
import type { TypedInput } from './sample-workbooks.js';
import { filledMonth } from './template.js';

/** Half-hours of October 2026 in Britain: 31 days and the hour that comes twice. */
const OCTOBER = 31 * 48 + 2;

const UNUSED = 'Readings that no half-hour uses: repeated, off the half-hour, or beyond the days';

describeWithCalc('readings pasted by hand', () => {
  let calc: Calc;
  let folder: string;
  let month: CalcDocument;
  beforeAll(async () => {
    calc = await startCalc();
    folder = await mkdtemp(join(tmpdir(), 'paste-'));
    month = await opened(await filledMonth());
  });
  afterAll(async () => {
    await calc.stop();
    await rm(folder, { recursive: true, force: true });
  });

  const opened = async (bytes: Uint8Array) => {
    const path = join(folder, 'home.xlsx');
    await writeFile(path, bytes);
    return calc.open(path);
  };

  /** The month as a person has it: local times without offsets. */
  async function withoutOffsets(): Promise<Uint8Array> {
    const workbook = openWorkbookPackage(await filledMonth(), 'home.xlsx');
    const blanks = Array.from({ length: OCTOBER }, () => null);
    workbook.editSheet(SHEETS.readings, {
      inputs: [{ column: columnNumber(READING.offset), firstRow: FIRST_ROW, values: blanks }],
    });
    return workbook.toBytes();
  }

  it('need no offsets: the hour that autumn repeats is told by the order of the rows', async () => {
    const pasted = await opened(await withoutOffsets());
    const rows = async (document: CalcDocument): Promise<unknown[]> => {
      const sheet = await document.readSheet(SHEETS.halfHours);
      const { readingRow } = declareBook(USUAL_DAYS).workings.halfHours;
      return Array.from(
        { length: 31 * BLOCK_ROWS },
        (_, i) => sheet.get(`${readingRow.letters}${FIRST_ROW + i}`)?.value,
      ).filter((row) => row !== 0);
    };
    const found = await rows(pasted);
    expect(new Set(found).size).toBe(OCTOBER);
    expect(found).toEqual(await rows(month));
    await pasted.close();
  });

  const SLIPS: { name: string; check: string; typed: TypedInput[] }[] = [
    {
      name: 'a date that arrived as text',
      check: 'Dates that arrived as text',
      typed: [
        { sheet: SHEETS.readings, cell: `${READING.start}${FIRST_ROW + 40}`, value: '05/10/2026 20:00' },
      ],
    },
    {
      name: 'a time off the half-hour',
      check: UNUSED,
      typed: [{ sheet: SHEETS.readings, cell: `${READING.start}${FIRST_ROW + 40}`, value: 46296.84 }],
    },
    {
      name: 'a row pasted twice',
      check: UNUSED,
      typed: [{ sheet: SHEETS.readings, cell: `${READING.start}${FIRST_ROW + 100}`, value: 46296.5 }],
    },
    {
      name: 'a value that is a word',
      check: 'Values that are not numbers',
      typed: [{ sheet: SHEETS.readings, cell: `${READING.solarKwh}${FIRST_ROW + 7}`, value: 'n/a' }],
    },
    {
      name: 'a negative reading',
      check: 'Negative kWh',
      typed: [{ sheet: SHEETS.readings, cell: `${READING.exportKwh}${FIRST_ROW + 7}`, value: -0.4 }],
    },
    {
      name: 'two windows that overlap',
      check: 'Half-hours of the week in two windows of a tariff',
      typed: [{ sheet: SHEETS.tariffs, cell: `${tariffLetters(2)}${windowRows(0).to}`, value: 0.75 }],
    },
    {
      name: 'a rate typed as text',
      check: 'Base rates that are missing or no numbers',
      typed: [
        { sheet: SHEETS.tariffs, cell: `${tariffLetters(1)}${ratePeriodRows(0).base}`, value: '28.31 p' },
      ],
    },
  ];

  it.each(SLIPS)('$name is counted by the checks', async ({ check, typed }) => {
    const before = await Promise.all(
      typed.map(
        async ({ sheet, cell }) =>
          (await month.readSheet(sheet, { range: `${cell}:${cell}` })).get(cell)?.value,
      ),
    );
    await month.setCells(typed.map(({ sheet, cell, value }) => ({ sheet, cell, value: value ?? null })));
    const checks = await month.readSheet(SHEETS.checks);
    const rows = Array.from({ length: 120 }, (_, i) => i + 1);
    const row = rows.find((r) => checks.get(`A${r}`)?.value === check);
    expect(row, `a check called ${check}`).toBeDefined();
    expect(checks.get(`B${row}`)?.value).toBeGreaterThan(0);
    expect(checks.get(`C${row}`)?.value).toBe('look');
    expect((await month.readSheet(SHEETS.answer)).get('A3')?.value).toMatch(/ asks? for a look/);

    await month.setCells(typed.map(({ sheet, cell }, i) => ({ sheet, cell, value: before[i] ?? null })));
    expect((await month.readSheet(SHEETS.checks)).get(`B${row}`)?.value).toBe(0);
  });
});
