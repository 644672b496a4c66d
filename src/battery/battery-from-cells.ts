import { InputError } from '../errors.js';
import { type CellReader, cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, CellArgument, CellScalar } from '../functions/described-function.js';
import { requireHalfHours } from '../functions/require-half-hours.js';
import { SLOTS_PER_DAY, serialToLocalMs } from '../time/serial.js';
import { assertBattery, type Battery, type BatteryInput } from './battery.js';

const column = (
  name: string,
  unit: string,
  kind: ArgumentDescription['kind'],
  description: string,
): ArgumentDescription => ({ name, unit, kind, shape: 'column', description });

/** Arguments of every function that runs a battery over half-hours. */
export const BATTERY_RUN_ARGUMENTS: readonly ArgumentDescription[] = [
  column('localStart', 'date and time', 'dateTime', 'Start of each half-hour by the wall clock, in order.'),
  column('importKwh', 'kWh', 'number', 'Grid import without a battery, after solar.'),
  column('exportKwh', 'kWh', 'number', 'Surplus exported without a battery.'),
  column('carKwh', 'kWh', 'number', "The car's part of the import."),
  column('unitRatePence', 'p/kWh', 'number', 'Unit rate of each half-hour.'),
  column('exportRatePence', 'p/kWh', 'number', 'Rate paid for export.'),
  column(
    'battery',
    'none',
    'number',
    'Eleven cells, one below the other: usable kWh, charge kW, discharge kW, charge efficiency, discharge efficiency, ' +
      'reserve kWh, level at the start kWh, wear p/kWh, charges from the grid, may feed the car, may export (yes or no).',
  ),
];

/**
 * The half-hours and the battery out of the cells of {@link BATTERY_RUN_ARGUMENTS}.
 *
 * @param args as the cell gives them
 * @param described the function's arguments, those included
 * @returns kWh, p/kWh and the battery, and the reader for arguments beyond
 * @throws InputError naming the argument that can't be used
 * @example batteryRunFromCells(args, BATTERY_RUN_ARGUMENTS).battery.usableKwh
 */
export function batteryRunFromCells(
  args: readonly CellArgument[],
  described: readonly ArgumentDescription[],
): { input: BatteryInput; battery: Battery; read: CellReader } {
  const read = cellReader(args, described);
  const localStart = read.numbers('localStart');
  const input: BatteryInput = {
    importKwh: read.numbers('importKwh'),
    exportKwh: read.numbers('exportKwh'),
    carKwh: read.numbers('carKwh'),
    unitRatePence: read.numbers('unitRatePence'),
    exportRatePence: read.numbers('exportRatePence'),
    ...placesOf(requireHalfHours(localStart)),
  };
  if (localStart.length !== input.importKwh.length) {
    throw new InputError(
      `localStart has ${localStart.length} rows and importKwh has ${input.importKwh.length}`,
      'Point at ranges of the same length.',
    );
  }
  const rows = read.rows('battery');
  if (rows.length !== 11 || rows.some((row) => row.length !== 1)) {
    throw new InputError(
      `battery has ${rows.length} rows and ${rows[0]?.length ?? 0} columns`,
      'Point at its eleven cells, one below the other.',
    );
  }
  const cells = rows.map(([cell = null]) => cell);
  const battery: Battery = {
    usableKwh: numberIn(cells, 0),
    chargeKw: numberIn(cells, 1),
    dischargeKw: numberIn(cells, 2),
    chargeEfficiency: numberIn(cells, 3),
    dischargeEfficiency: numberIn(cells, 4),
    reserveKwh: numberIn(cells, 5),
    startKwh: numberIn(cells, 6),
    wearPencePerKwh: numberIn(cells, 7),
    chargeFromGrid: yesNoIn(cells, 8),
    mayFeedCar: yesNoIn(cells, 9),
    mayExport: yesNoIn(cells, 10),
  };
  assertBattery(battery);
  return { input, battery, read };
}

/**
 * Day, half-hour by the wall clock, and calendar month of each row. A start a hair below midnight is midnight.
 */
function placesOf(
  localStart: Float64Array,
): Required<Pick<BatteryInput, 'dayIndex' | 'halfHourOfDay' | 'monthIndex'>> {
  const halfHours = localStart.map((serial) => Math.round(serial * SLOTS_PER_DAY));
  const dates = halfHours.map((halfHour) => Math.floor(halfHour / SLOTS_PER_DAY));
  const months = dates.map((serial) => {
    const date = new Date(serialToLocalMs(serial));
    return date.getUTCFullYear() * 12 + date.getUTCMonth();
  });
  const dayIndex = new Int32Array(dates.length);
  for (let i = 1; i < dates.length; i++) {
    dayIndex[i] = dayIndex[i - 1]! + (dates[i] === dates[i - 1] ? 0 : 1);
  }
  return {
    dayIndex,
    halfHourOfDay: Int32Array.from(halfHours, (halfHour, i) => halfHour - dates[i]! * SLOTS_PER_DAY),
    monthIndex: Int32Array.from(months, (month) => month - months[0]!),
  };
}

function numberIn(cells: readonly CellScalar[], row: number): number {
  const value = cells[row];
  if (typeof value === 'number') return value;
  throw new InputError(
    `battery holds ${JSON.stringify(value)} in row ${row + 1} of the range`,
    'Give a number.',
  );
}

function yesNoIn(cells: readonly CellScalar[], row: number): boolean {
  const value = cells[row];
  const text = typeof value === 'string' ? value.trim().toLowerCase() : value;
  if (text === true || text === 'yes') return true;
  if (text === false || text === 'no') return false;
  throw new InputError(
    `battery holds ${JSON.stringify(value)} in row ${row + 1} of the range`,
    'Give yes or no.',
  );
}
