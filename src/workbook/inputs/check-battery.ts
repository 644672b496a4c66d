import { InputError, type Place } from '../../errors.js';
import { SHEETS } from '../layout.js';
import { BATTERY_INPUT_LETTERS, BATTERY_INPUT_ROW } from '../model/battery/battery-rows.js';
import { type BatteryCells, isEfficiency } from './battery-cells.js';
import { hasName, numberIn, type WorkbookInputs } from './workbook-inputs.js';

const NOT_NEGATIVE: readonly [keyof BatteryCells, string, string][] = [
  ['usableKwh', 'usable capacity', 'kWh'],
  ['chargeKw', 'AC charge power', 'kW'],
  ['dischargeKw', 'AC discharge power', 'kW'],
  ['reserveKwh', 'reserve', 'kWh'],
  ['startKwh', 'level at the start', 'kWh'],
  ['wearPencePerKwh', 'wear', 'per kWh'],
  ['priceFixed', 'price of any size', ''],
  ['pricePerKwh', 'price per kWh', ''],
];

/**
 * Makes sure that the battery's inputs can be worked with. Blank figures count as 0; without a capacity the
 * efficiencies do not matter.
 *
 * @param inputs as the cells hold them
 * @param file name of the workbook, for messages
 * @throws InputError naming the first cell that is wrong
 */
export function checkBatteryCells(inputs: WorkbookInputs, file: string): void {
  const { battery } = inputs;
  const placeOf = (key: keyof BatteryCells): Place => ({
    file,
    line: `${SHEETS.battery}!${BATTERY_INPUT_LETTERS}${BATTERY_INPUT_ROW[key]}`,
  });
  for (const [key, name, unit] of NOT_NEGATIVE) {
    const value = battery[key];
    if (value === null || (typeof value === 'number' && value >= 0)) continue;
    throw new InputError(
      `the battery's ${name} is ${JSON.stringify(value)}`,
      `Give 0 ${unit} or more.`.replace('  ', ' '),
      placeOf(key),
    );
  }
  for (const key of ['chargeFromGrid', 'mayFeedCar', 'mayExport'] as const) {
    const text = String(battery[key] ?? '').toLowerCase();
    if (text === 'yes' || text === 'no') continue;
    throw new InputError(
      battery[key] === null ? 'the choice is missing' : `"${String(battery[key])}" is no choice here`,
      'Write yes or no.',
      placeOf(key),
    );
  }
  if (numberIn(battery.usableKwh) > 0) checkWorkingBattery(battery, placeOf);
  const { tariff } = battery;
  const names = inputs.tariffs.map(({ name }) => name).filter(hasName);
  if (tariff !== null && !names.some((name) => String(name).toLowerCase() === String(tariff).toLowerCase())) {
    throw new InputError(
      `the tariff to look at, "${String(tariff)}", is none of the tariffs`,
      `Leave it blank for today's, or choose one of: ${names.join(', ')}.`,
      placeOf('tariff'),
    );
  }
}

function checkWorkingBattery(battery: BatteryCells, placeOf: (key: keyof BatteryCells) => Place): void {
  for (const [key, name] of [
    ['chargeKw', 'charge'],
    ['dischargeKw', 'discharge'],
  ] as const) {
    if (numberIn(battery[key]) > 0) continue;
    throw new InputError(
      `the battery holds ${String(battery.usableKwh)} kWh but its ${name} power is 0 kW`,
      `Give its AC ${name} power, or a usable capacity of 0 kWh for no battery.`,
      placeOf(key),
    );
  }
  const efficiencies: (keyof BatteryCells)[] =
    battery.roundTripEfficiency === null
      ? ['chargeEfficiency', 'dischargeEfficiency']
      : ['roundTripEfficiency'];
  for (const key of efficiencies) {
    if (isEfficiency(battery[key])) continue;
    throw new InputError(
      battery[key] === null
        ? "the battery's efficiency is missing"
        : `the battery's efficiency is ${JSON.stringify(battery[key])}`,
      'Give a share above 0 % and at most 100 %, for example 95 %.',
      placeOf(key),
    );
  }
}
