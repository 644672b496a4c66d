import { InputError } from '../errors.js';
import { rateGrid } from '../tariffs/rate-grid.js';
import { ratePeriodIndexAt } from '../tariffs/rate-period-at.js';
import { weekSlotsFor } from '../tariffs/rate-series.js';
import type { Tariff } from '../tariffs/tariff.js';
import type { HalfHourCalendar } from '../time/half-hour-calendar.js';

/** Lines of a bill by rate: the base rate, that of the first window and of windows at the same rate, every other. */
export type ByRate<T> = readonly [base: T, window: T, other: T];

/** What was metered, one entry a half-hour of the calendar, kWh; NaN where it was not metered. */
export interface MeteredSeries {
  importKwh: Float64Array;
  exportKwh: Float64Array;
  /** Half-hourly price, p/kWh; needed where the tariff follows one. */
  pricePence?: Float64Array;
}

/** What the days of a bill come to by the readings, on a tariff; money with VAT. */
export interface BillFigures {
  kwh: ByRate<number>;
  /** The same by the other clock: UTC where the windows run by the home's, the home's where they run by UTC. */
  otherClockKwh: ByRate<number>;
  /** Cost of each rate's kWh, pence with VAT, not rounded. */
  energyPence: ByRate<number>;
  /** p/kWh with VAT, weighed by kWh (by days without use); undefined where the tariff has no such rate. */
  ratePence: ByRate<number | undefined>;
  days: number;
  /** Average over the days, p/day with VAT. */
  standingChargePencePerDay: number;
  exportKwh: number;
  /** Weighed by kWh; 0 without export. Carries no VAT. */
  exportRatePence: number;
  /** Half-hours of these days without an import reading. */
  missingHalfHours: number;
  /** Largest import of a half-hour of these days, kWh. */
  largestHalfHourKwh: number;
}

/**
 * What the days of a bill come to: energy by the rates that bills print, as metered, at the rates as they were.
 * Source: common practice, no source; the rest is arithmetic.
 *
 * @param tariff a valid tariff
 * @param calendar the half-hours, of which those of the bill's days count
 * @param series what was metered, one entry a half-hour
 * @param firstDay first day charged, spreadsheet serial day
 * @param lastDay last day charged, spreadsheet serial day; counts too
 * @param vatShare VAT as a share, 0.05 for 5 %; added where the tariff's rates are without
 * @returns kWh, pence and half-hours of those days
 * @throws InputError when the last day is before the first, none of the days is in the calendar, or the tariff follows a
 *   price and none is given
 * @example billFigures(tariff, calendar, { importKwh, exportKwh }, 46023, 46053, 0.05).days // 31: January 2026
 */
export function billFigures(
  tariff: Tariff,
  calendar: HalfHourCalendar,
  series: MeteredSeries,
  firstDay: number,
  lastDay: number,
  vatShare: number,
): BillFigures {
  if (lastDay < firstDay) throw new InputError('the bill ends before it begins', 'Correct one of its dates.');
  const { pricePence } = series;
  if (tariff.halfHourlyPriced && pricePence === undefined) {
    throw new InputError(
      `"${tariff.name}" follows a half-hourly price and there is none`,
      'Give the prices.',
    );
  }
  const isBilled = (day: number): boolean => day >= firstDay && day <= lastDay;
  const days = [...calendar.daySerials].filter(isBilled);
  if (days.length === 0)
    throw new InputError('there are no readings of these days', 'Give those of the bill.');
  const vat = tariff.includesVat ? 1 : 1 + vatShare;
  const periodOf = (day: number) => {
    const period = tariff.ratePeriods[ratePeriodIndexAt(tariff.ratePeriods, day)];
    if (period === undefined)
      throw new InputError(`"${tariff.name}" has no rates`, 'Give it a set of rates.');
    return period;
  };
  const grid = rateGrid(tariff);
  const rateAt = (slot: number, day: number): number => {
    const { baseRatePence, windowRatesPence } = periodOf(day);
    return [baseRatePence, ...windowRatesPence][grid[slot] ?? 0] ?? 0;
  };
  const lineOf = (slot: number, day: number): 0 | 1 | 2 => {
    // By a half-hourly price there are no rates to tell apart.
    if (tariff.halfHourlyPriced) return 0;
    const { baseRatePence, windowRatesPence } = periodOf(day);
    const rate = rateAt(slot, day);
    return rate === baseRatePence ? 0 : rate === windowRatesPence[0] ? 1 : 2;
  };
  const own = weekSlotsFor(tariff, calendar);
  const other = weekSlotsFor({ clock: tariff.clock === 'utc' ? 'local' : 'utc' }, calendar);
  const kwh: [number, number, number] = [0, 0, 0];
  const otherClockKwh: [number, number, number] = [0, 0, 0];
  const energyPence: [number, number, number] = [0, 0, 0];
  let [exportKwh, exportPence, metered, largestHalfHourKwh] = [0, 0, 0, 0];
  const priceVat = tariff.priceIncludesVat ? 1 : 1 + vatShare;
  calendar.dayIndex.forEach((d, i) => {
    const day = calendar.daySerials[d] ?? Number.NaN;
    if (!isBilled(day)) return;
    const imported = series.importKwh[i] ?? Number.NaN;
    if (!Number.isNaN(imported)) {
      const [slot, otherSlot] = [own[i] ?? 0, other[i] ?? 0];
      const line = lineOf(slot, day);
      const price = tariff.halfHourlyPriced ? (pricePence?.[i] ?? Number.NaN) * priceVat : 0;
      metered++;
      kwh[line] += imported;
      otherClockKwh[lineOf(otherSlot, day)] += imported;
      energyPence[line] += imported * (rateAt(slot, day) * vat + price);
      largestHalfHourKwh = Math.max(largestHalfHourKwh, imported);
    }
    const exported = series.exportKwh[i] ?? Number.NaN;
    if (Number.isNaN(exported)) return;
    exportKwh += exported;
    exportPence += exported * periodOf(day).exportRatePence;
  });
  const average = (of: (day: number) => number): number =>
    days.reduce((sum, day) => sum + of(day), 0) / days.length;
  const base = average((day) => periodOf(day).baseRatePence) * vat;
  const window = average((day) => periodOf(day).windowRatesPence[0] ?? periodOf(day).baseRatePence) * vat;
  const withoutUse = [base, window === base ? undefined : window, undefined] as const;
  const weighed = (line: 0 | 1 | 2): number | undefined =>
    kwh[line] > 0 ? energyPence[line] / kwh[line] : withoutUse[line];
  const expected = days.reduce(
    (sum, day) => sum + (calendar.expectedHalfHoursOfDay[calendar.daySerials.indexOf(day)] ?? 0),
    0,
  );
  const allDays = lastDay - firstDay + 1;
  return {
    kwh,
    otherClockKwh,
    energyPence,
    ratePence: [weighed(0), weighed(1), weighed(2)],
    days: allDays,
    standingChargePencePerDay: average((day) => periodOf(day).standingChargePencePerDay) * vat,
    exportKwh,
    exportRatePence: exportKwh > 0 ? exportPence / exportKwh : 0,
    // Days that are not in the readings are taken for plain ones.
    missingHalfHours: expected + 48 * (allDays - days.length) - metered,
    largestHalfHourKwh,
  };
}
