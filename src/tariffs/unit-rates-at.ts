import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumbers } from '../functions/require-number.js';
import { weekSlotOfMs } from '../time/half-hour-calendar.js';
import { serialToLocalMs } from '../time/serial.js';
import { rateGrid } from './rate-grid.js';
import { ratePeriodIndexAt } from './rate-period-at.js';
import type { Tariff } from './tariff.js';
import { tariffFromCells } from './tariff-from-cells.js';
import { EXAMPLE_TARIFF_TABLE, TARIFF_TABLE_ARGUMENT, unitRateAt } from './unit-rate-at.js';

/**
 * What a kWh costs at each of many times.
 * Source: common practice, no source.
 *
 * @param tariff a valid tariff by the local clock, not half-hourly priced (see `rateSeries` for those)
 * @param localSerials local times, spreadsheet serials; each counts to the second
 * @returns p/kWh, one a time, with or without VAT as the tariff's own rates are
 * @throws InputError when a time is missing, or the tariff needs more than the local time
 * @example unitRatesAt(tariff, [46023, 46023.5]) // Float64Array [27.5, 27.5]
 */
export function unitRatesAt(tariff: Tariff, localSerials: ArrayLike<number>): Float64Array {
  requireNumbers(localSerials, 'localTimes');
  if (tariff.clock === 'utc' || tariff.halfHourlyPriced) {
    return Float64Array.from(localSerials, (serial) => unitRateAt(tariff, serial));
  }
  const grid = rateGrid(tariff);
  const ratesByPeriod = tariff.ratePeriods.map((period) => [
    period.baseRatePence,
    ...period.windowRatesPence,
  ]);
  return Float64Array.from(localSerials, (serial) => {
    const seconds = Math.floor(serial * 86_400 + 0.5);
    const period = ratePeriodIndexAt(tariff.ratePeriods, seconds / 86_400);
    return ratesByPeriod[period]![grid[weekSlotOfMs(serialToLocalMs(seconds / 86_400))]!]!;
  });
}

/** A column of times as a cell function is given it. */
export const LOCAL_TIMES_ARGUMENT: ArgumentDescription = {
  name: 'localTimes',
  unit: 'date and time',
  kind: 'dateTime',
  shape: 'column',
  description: 'Start of each interval, by the clock of the windows.',
};

export const unitRatesAtFunction: DescribedFunction = {
  name: 'unitRatesAt',
  cellName: 'UNIT_RATES',
  category: 'rates',
  summary: 'Says what a kWh costs at each of many times.',
  arguments: [LOCAL_TIMES_ARGUMENT, TARIFF_TABLE_ARGUMENT],
  result: { unit: 'p/kWh', shape: 'column', description: 'One rate a time, as the table gives them.' },
  source: 'common practice, no source',
  example: { arguments: [[[46023.0208333], [46023.5]], EXAMPLE_TARIFF_TABLE], result: [[13.5], [27.5]] },
  compute: (args) => {
    const read = cellReader(args, [LOCAL_TIMES_ARGUMENT, TARIFF_TABLE_ARGUMENT]);
    const tariff = tariffFromCells(read);
    return Array.from(unitRatesAt(tariff, read.numbers('localTimes')), (rate) => [rate]);
  },
};
