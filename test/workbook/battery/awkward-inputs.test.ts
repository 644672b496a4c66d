import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Column } from '../../../src/workbook/book/terms.js';
import { BATTERY_FIELDS } from '../../../src/workbook/fields/battery-fields.js';
import { SHEETS, USUAL_DAYS } from '../../../src/workbook/layout.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { tariffOf } from '../../../src/workbook/model/period-line.js';
import { describeWithCalc } from '../../engines/availability.js';
import { assertCellsEqual, compareCells } from '../../engines/compare-cells.js';
import { type Calc, type CalcDocument, startCalc } from '../../engines/libreoffice.js';
import type { TypedInput } from '../sample-workbooks.js';
import { filledMonth } from '../template.js';
import { typedAnyway } from './typed-anyway.js';

/** So many formula cells at least: a comparison that finds few has gone blind. */
const LEAST_CELLS = 540_000;

/** The checks of the laws, which count the tariffs that break them. */
const LAWS = [
  'Tariffs on which the battery’s level leaves its bounds',
  'Tariffs on which the level is not what went in and out',
  'Tariffs whose months with the battery differ from their half-hours',
  'Tariffs on which import changes by other than what the battery takes and gives',
];

const typed = (key: keyof typeof BATTERY_FIELDS, value: TypedInput['value']): TypedInput => ({
  sheet: SHEETS.battery,
  cell: BATTERY_FIELDS[key].at,
  value,
});
const reading = (cell: string, value: TypedInput['value']): TypedInput => ({
  sheet: SHEETS.readings,
  cell,
  value,
});

const CHANGES: { name: string; inputs: TypedInput[] }[] = [
  {
    name: 'it sells, feeds the car, wears, starts half full, and another tariff is looked at',
    inputs: [
      typed('mayExport', 'yes'),
      typed('mayFeedCar', 'yes'),
      typed('wearPencePerKwh', 1.5),
      typed('startKwh', 5),
      typed('tariff', 'Half-hourly price'),
    ],
  },
  {
    name: 'an efficiency of 95 instead of 95 %, which counts as no battery',
    inputs: [typed('chargeEfficiency', 95)],
  },
  {
    name: 'a reserve above the capacity, a round trip, no charging from the grid, an unknown tariff',
    inputs: [
      typed('chargeEfficiency', 0.95),
      typed('roundTripEfficiency', 0.81),
      typed('reserveKwh', 20),
      typed('chargeFromGrid', 'no'),
      typed('tariff', 'none of them'),
    ],
  },
  {
    name: 'negative readings, and text where a number belongs',
    inputs: [
      typed('reserveKwh', 1),
      typed('chargeFromGrid', 'yes'),
      typed('tariff', null),
      typed('mayFeedCar', 'no'),
      reading('C100', -0.3),
      reading('D120', -0.2),
      reading('J130', -3),
      reading('H131', 'x'),
    ],
  },
  {
    name: 'a row without its time in the middle of a day, at which the battery stands still',
    inputs: [reading('A200', null)],
  },
];

describeWithCalc('LibreOffice and the library agree on a battery with awkward inputs', () => {
  let folder: string;
  let calc: Calc;
  let month: CalcDocument;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'awkward-'));
    const path = join(folder, 'month.xlsx');
    await writeFile(path, await filledMonth());
    calc = await startCalc();
    month = await calc.open(path);
  });
  afterAll(async () => {
    await calc.stop();
    await rm(folder, { recursive: true, force: true });
  });

  // Each change is made in the open spreadsheet and left there, as a user would.
  const made: TypedInput[] = [];
  it.each(CHANGES)('$name', async ({ inputs }) => {
    made.push(...inputs);
    await month.setCells(inputs.map(({ sheet, cell, value }) => ({ sheet, cell, value: value ?? null })));
    const expected = typedAnyway(await filledMonth(), made);
    const values = await month.readAll();
    assertCellsEqual(compareCells(expected, { engine: 'LibreOffice', values }), LEAST_CELLS);
    expect(
      compareCells(await filledMonth(), { engine: 'LibreOffice', values }).mismatchCount,
    ).toBeGreaterThan(0);
  });

  it('finds each law of the battery broken where a cell of it is overwritten', async () => {
    const book = declareBook(USUAL_DAYS);
    const cell = ({ sheet, letters, firstRow }: Column, row: number, value: number) => ({
      sheet,
      cell: `${letters}${firstRow + row}`,
      value,
    });
    const checks = async (): Promise<number[]> => {
      const sheet = await month.readSheet(SHEETS.checks);
      const counts = new Map(
        Array.from({ length: sheet.rows }, (_, i) => [sheet.at(i + 1, 1).value, sheet.at(i + 1, 2).value]),
      );
      return LAWS.map((name) => Number(counts.get(name)));
    };
    const { importChangeKwh } = book.workings.realCost;
    expect(await checks()).toEqual(LAWS.map(() => 0));
    await month.setCells([
      cell(tariffOf(book, 0).level, 150, 4),
      cell(tariffOf(book, 1).level, 150, 5000),
      cell(importChangeKwh, 150, 99),
      cell(tariffOf(book, 3).batteryMonths.energy, 0, 99_999),
    ]);
    // The level of 5000 falls back at once; the import typed over is that of the tariff looked at, which its days tell too.
    expect(await checks()).toEqual([1, 2, 2, 1]);
  });
});
