import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { isoDateToSerial } from '../../src/time/serial.js';
import { BATTERY_FIELDS } from '../../src/workbook/fields/battery-fields.js';
import { HOME_FIELDS } from '../../src/workbook/fields/home-fields.js';
import { SHEETS } from '../../src/workbook/layout.js';
import {
  ratePeriodRows,
  TARIFF_ROW,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from '../../src/workbook/model/tariff-rows.js';
import { describeWithCalc, describeWithGnumeric } from '../engines/availability.js';
import { assertCellsEqual, compareCells } from '../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../engines/gnumeric.js';
import { type Calc, type CalcDocument, startCalc } from '../engines/libreoffice.js';
import { filledYear, type TypedInput, withTyped } from './sample-workbooks.js';
import { emptyTemplate } from './template.js';

/** So many formula cells at least: a comparison that finds few has gone blind. */
const YEAR_CELLS = 480_000;

const TWO_RATE = tariffLetters(1);
const HEAT_PUMP_HOURS = tariffLetters(2);
const OLD_NIGHT_METER = tariffLetters(5);

const batteryCell = (key: keyof typeof BATTERY_FIELDS): string => BATTERY_FIELDS[key].at;

const CHANGES: { name: string; typed: TypedInput[] }[] = [
  {
    name: 'a rate',
    typed: [{ sheet: SHEETS.tariffs, cell: `${TWO_RATE}${ratePeriodRows(0).base}`, value: 31.72 }],
  },
  {
    name: 'a window, now across midnight on weekdays only',
    typed: [
      { sheet: SHEETS.tariffs, cell: `${HEAT_PUMP_HOURS}${windowRows(2).from}`, value: 22.5 / 24 },
      { sheet: SHEETS.tariffs, cell: `${HEAT_PUMP_HOURS}${windowRows(2).to}`, value: 1.5 / 24 },
      { sheet: SHEETS.tariffs, cell: `${HEAT_PUMP_HOURS}${windowRows(2).days}`, value: 'Mon-Fri' },
    ],
  },
  {
    name: 'the clock of a tariff, a date of change and VAT',
    typed: [
      { sheet: SHEETS.tariffs, cell: `${OLD_NIGHT_METER}${TARIFF_ROW.clock}`, value: 'local' },
      {
        sheet: SHEETS.tariffs,
        cell: `${TWO_RATE}${ratePeriodRows(1).validFrom}`,
        value: isoDateToSerial('2026-02-15'),
      },
      { sheet: SHEETS.tariffs, cell: HOME_FIELDS.vatShare.at, value: 0.2 },
    ],
  },
  {
    name: "the period and today's tariff",
    typed: [
      { sheet: SHEETS.answer, cell: 'C4', value: isoDateToSerial('2025-12-01') },
      { sheet: SHEETS.answer, cell: 'E4', value: isoDateToSerial('2026-02-17') },
      { sheet: SHEETS.tariffs, cell: TODAYS_TARIFF_CELL, value: 'Single rate' },
    ],
  },
  {
    name: 'the battery: capacity, power, efficiency, reserve, and leave to export',
    typed: [
      { sheet: SHEETS.battery, cell: batteryCell('usableKwh'), value: 13.5 },
      { sheet: SHEETS.battery, cell: batteryCell('chargeKw'), value: 2.4 },
      { sheet: SHEETS.battery, cell: batteryCell('roundTripEfficiency'), value: 0.81 },
      { sheet: SHEETS.battery, cell: batteryCell('reserveKwh'), value: 1.5 },
      { sheet: SHEETS.battery, cell: batteryCell('wearPencePerKwh'), value: 1.2 },
      { sheet: SHEETS.battery, cell: batteryCell('mayExport'), value: 'yes' },
    ],
  },
];

let folder: string;
const saved = async (name: string, bytes: Uint8Array): Promise<string> => {
  const path = join(folder, name);
  await writeFile(path, bytes);
  return path;
};
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'recalculation-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describeWithCalc('LibreOffice recalculates every formula to the value that the library stored', () => {
  let calc: Calc;
  let year: CalcDocument;
  beforeAll(async () => {
    calc = await startCalc();
    year = await calc.open(await saved('year.xlsx', await filledYear()));
  });
  afterAll(() => calc.stop());

  it('in the empty template', async () => {
    const empty = await calc.open(await saved('template.xlsx', await emptyTemplate()));
    assertCellsEqual(
      compareCells(await emptyTemplate(), { engine: 'LibreOffice', values: await empty.readAll() }),
      YEAR_CELLS,
    );
    await empty.close();
  });

  it('in a filled year', async () => {
    assertCellsEqual(
      compareCells(await filledYear(), { engine: 'LibreOffice', values: await year.readAll() }),
      YEAR_CELLS,
    );
  });

  // Each change is made in the open spreadsheet and left there, as a user would.
  const made: TypedInput[] = [];
  it.each(CHANGES)('after changing $name', async ({ typed }) => {
    const before = await filledYear();
    made.push(...typed);
    await year.setCells(typed.map(({ sheet, cell, value }) => ({ sheet, cell, value: value ?? null })));
    const expected = withTyped(before, made);
    const values = await year.readAll();
    assertCellsEqual(compareCells(expected, { engine: 'LibreOffice', values }), YEAR_CELLS);
    expect(compareCells(before, { engine: 'LibreOffice', values }).mismatchCount).toBeGreaterThan(0);
  });
});

describeWithGnumeric(
  'Gnumeric recalculates every formula of a filled year to the value that the library stored',
  () => {
    it('in a filled year', async () => {
      const path = await saved('year-for-gnumeric.xlsx', await filledYear());
      assertCellsEqual(compareCells(path, await recalculateWithGnumeric(path)), YEAR_CELLS);
    });
  },
);
