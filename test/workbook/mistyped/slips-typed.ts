import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Field } from '../../../src/workbook/fields/field.js';
import { GAS_FIELDS } from '../../../src/workbook/fields/gas-fields.js';
import { HEATING_TABLES } from '../../../src/workbook/fields/heating-fields.js';
import { type TypedInput, withTyped } from '../sample-workbooks.js';
import { smallMonth } from '../small-month.js';
import { battery, firstRates, setting, tariffFields } from './asked-home.js';

const typed = (field: Field, value: number): TypedInput => ({
  sheet: field.cell.place.sheet,
  cell: field.at,
  value,
});

/** A slip for each check that asks, two for some. */
const SLIPS: readonly TypedInput[] = [
  typed(tariffFields('singleRate').periods[1]!.base, 0.282),
  typed(firstRates('twoRates').windowRates[0]!, 0.097),
  typed(firstRates('freeLunch').standing, 0.573),
  typed(firstRates('twoRates').exportRate, 133),
  typed(battery.chargeKw, 36),
  typed(battery.dischargeEfficiency, 0.095),
  typed(HEATING_TABLES.rates[1]!.gasRate, 0.0617),
  typed(setting('gasStandingPencePerDay'), 858),
  typed(GAS_FIELDS[0]!.calorificValue, 29.4),
  typed(setting('volumeCorrection'), 1.2264),
];

/** What the checks then ask. */
export const ASKED_OF_SLIPS: Readonly<Record<string, [found: number, asks: string]>> = {
  'Unit rates that look mistyped': [
    2,
    'First of 2: “Single rate”, Base rate, outside the windows, change 1 of rates: 0.282 p/kWh. Typed in £? 28.2 p is written 28.2.',
  ],
  'Standing charges that look mistyped': [
    1,
    '“Free weekend lunch”, Standing charge: 0.573 p/day. Typed in £? 57.3 p is written 57.3.',
  ],
  'Export rates that look mistyped': [
    1,
    '“Two-rate night”, Export rate: 133 p/kWh. A decimal point lost? 13.3 p is written 13.3.',
  ],
  'Battery figures that look mistyped': [
    2,
    'First of 2: Charge power: 36 kW. From empty to full in 16 min: is it in kW, its decimal point in place?',
  ],
  'Heating: rates that look mistyped': [2, 'First of 2: Gas standing charge: 858 p/day. Is it a month’s?'],
  'Heating: figures of gas, boiler, water, weather or carbon that look mistyped': [
    2,
    'First of 2: Old boiler, Calorific value: 29.4 MJ/m³. Mains gas has 35 to 43: what does the bill say?',
  ],
};

/** A workbook of a month in which they are typed. */
export const withSlips = async (): Promise<Uint8Array> => withTyped(await smallMonth(), SLIPS);

/** The same with the first of them alone. */
export const withOneSlip = async (): Promise<Uint8Array> => withTyped(await smallMonth(), SLIPS.slice(0, 1));

/** Writes a workbook into a folder. */
export async function written(bytes: Uint8Array, folder: string): Promise<string> {
  const path = join(folder, 'home.xlsx');
  await writeFile(path, bytes);
  return path;
}
