import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumbers, requireSameLength } from '../functions/require-number.js';
import { rateGrid } from '../tariffs/rate-grid.js';
import { ratePeriodIndexAt } from '../tariffs/rate-period-at.js';
import type { Tariff } from '../tariffs/tariff.js';
import { parseTariffTable } from '../tariffs/tariff-table.js';
import { EXAMPLE_TARIFF_TABLE, TARIFF_TABLE_ARGUMENT, unitRateAt } from '../tariffs/unit-rate-at.js';
import { weekSlotOfMs } from '../time/half-hour-calendar.js';
import { serialToLocalMs } from '../time/serial.js';
import { energyCost } from './energy-cost.js';

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
    return ratesByPeriod[period][grid[weekSlotOfMs(serialToLocalMs(seconds / 86_400))]];
  });
}

/**
 * What energy costs on a tariff.
 * Source: common practice, no source.
 *
 * @param tariff as for {@link unitRatesAt}
 * @param localStartSerials start of each interval, local time, spreadsheet serial
 * @param kwh energy of each interval, kWh
 * @returns £, not rounded, with or without VAT as the tariff's own rates are; standing charge is not in it
 * @throws InputError when the lengths differ, a value is missing, or as {@link unitRatesAt}
 * @example energyCostOnTariff(tariff, [46023, 46023.5], [0.4, 0.6]) // 0.275
 */
export function energyCostOnTariff(
  tariff: Tariff,
  localStartSerials: ArrayLike<number>,
  kwh: ArrayLike<number>,
): number {
  requireSameLength(localStartSerials, 'localTimes', kwh, 'kwh');
  return energyCost(kwh, unitRatesAt(tariff, localStartSerials));
}

const TIMES: ArgumentDescription = {
  name: 'localTimes',
  unit: 'date and time',
  kind: 'dateTime',
  shape: 'column',
  description: 'Start of each interval, by the clock of the windows.',
};
const KWH: ArgumentDescription = {
  name: 'kwh',
  unit: 'kWh',
  kind: 'number',
  shape: 'column',
  description: 'Energy of each interval, as many rows.',
};
const EXAMPLE_TIMES = [[46023.0208333], [46023.5]] as const;
const EXAMPLE_KWH = [[0.4], [0.6]] as const;

export const unitRatesAtFunction: DescribedFunction = {
  name: 'unitRatesAt',
  cellName: 'UNIT_RATES',
  category: 'rates',
  summary: 'Says what a kWh costs at each of many times.',
  arguments: [TIMES, TARIFF_TABLE_ARGUMENT],
  result: { unit: 'p/kWh', shape: 'column', description: 'One rate a time, as the table gives them.' },
  source: 'common practice, no source',
  example: { arguments: [EXAMPLE_TIMES, EXAMPLE_TARIFF_TABLE], result: [[13.5], [27.5]] },
  compute: (args) => {
    const read = cellReader(args, [TIMES, TARIFF_TABLE_ARGUMENT]);
    const tariff = parseTariffTable(read.rows('tariffTable'));
    return Array.from(unitRatesAt(tariff, read.numbers('localTimes')), (rate) => [rate]);
  },
};

const COST_ARGUMENTS: readonly ArgumentDescription[] = [TIMES, KWH, TARIFF_TABLE_ARGUMENT];

export const energyCostOnTariffFunction: DescribedFunction = {
  name: 'energyCostOnTariff',
  cellName: 'TARIFF_ENERGY_COST',
  category: 'charges',
  summary: 'Adds up what energy costs on a tariff, without its standing charge.',
  arguments: COST_ARGUMENTS,
  result: { unit: '£', shape: 'cell', description: 'Not rounded; with or without VAT as the table is.' },
  source: 'common practice, no source',
  example: { arguments: [EXAMPLE_TIMES, EXAMPLE_KWH, EXAMPLE_TARIFF_TABLE], result: 0.219 },
  compute: (args) => {
    const read = cellReader(args, COST_ARGUMENTS);
    const tariff = parseTariffTable(read.rows('tariffTable'));
    return energyCostOnTariff(tariff, read.numbers('localTimes'), read.numbers('kwh'));
  },
};
