import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { SHEETS } from '../../../src/workbook/layout.js';
import {
  BATTERY_INPUT_LETTERS,
  BATTERY_INPUT_ROW,
} from '../../../src/workbook/model/battery/battery-rows.js';
import { describeWithCalc } from '../../engines/availability.js';
import { assertCellsEqual, compareCells } from '../../engines/compare-cells.js';
import { type Calc, type CalcDocument, startCalc } from '../../engines/libreoffice.js';
import type { TypedInput } from '../sample-workbooks.js';
import { filledMonth } from '../template.js';
import { typedAnyway } from './typed-anyway.js';

/** So many formula cells at least: a comparison that finds few has gone blind. */
const LEAST_CELLS = 1_250_000;

const typed = (key: keyof typeof BATTERY_INPUT_ROW, value: TypedInput['value']): TypedInput => ({
  sheet: SHEETS.battery,
  cell: `${BATTERY_INPUT_LETTERS}${BATTERY_INPUT_ROW[key]}`,
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
});
