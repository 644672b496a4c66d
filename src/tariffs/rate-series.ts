import { InputError } from '../errors.js';
import type { HalfHourCalendar } from '../time/half-hour-calendar.js';
import { rateGrid } from './rate-grid.js';
import { ratePeriodIndexAt } from './rate-period-at.js';
import type { Tariff } from './tariff.js';

/** A stretch of half-hours within one set of rates and one local month. */
interface Stretch {
  first: number;
  /** One past the last. */
  end: number;
  monthIndex: number;
  /** p/kWh with VAT for each slot of the week. */
  weekRates: Float64Array;
}

/**
 * What a kWh costs in each half-hour.
 *
 * @param tariff a valid tariff
 * @param calendar the half-hours
 * @param vatShare VAT as a share, 0.05 for 5 %; added where the tariff's rates are without
 * @param pricePence half-hourly price, p/kWh, one a half-hour (NaN unknown), with or without VAT as the tariff says of
 *   it; needed where the tariff is half-hourly priced
 * @returns p/kWh with VAT, one a half-hour; NaN where the price is unknown
 * @throws InputError when the tariff is half-hourly priced and no price is given, or of another length
 * @example rateSeries(tariff, halfHourCalendar(starts, 'Europe/London'), 0.05)[0] // 26.46
 */
export function rateSeries(
  tariff: Tariff,
  calendar: HalfHourCalendar,
  vatShare: number,
  pricePence?: Float64Array,
): Float64Array {
  const weekSlot = weekSlotsFor(tariff, calendar);
  const price = priceFor(tariff, calendar, pricePence);
  const vat = vatFactor(tariff.includesVat, vatShare);
  const priceVat = vatFactor(tariff.priceIncludesVat, vatShare);
  const rates = new Float64Array(weekSlot.length);
  for (const { first, end, weekRates } of stretchesOf(tariff, calendar, vat)) {
    for (let i = first; i < end; i++) rates[i] = weekRates[weekSlot[i]!]!;
  }
  if (price !== undefined) {
    for (let i = 0; i < rates.length; i++) rates[i]! += price[i]! * priceVat;
  }
  return rates;
}

/** Energy of a series of half-hours on one tariff, by local month. */
export interface PricedEnergy {
  /** Pence with VAT, one a month of the calendar, not rounded. */
  energyPenceByMonth: Float64Array;
  /** Sum of the months, pence with VAT, not rounded. */
  energyPence: number;
  /** Half-hours that have a kWh reading but no price: not in the cost, so the cost is too low while this is not 0. */
  halfHoursWithoutPrice: number;
}

/**
 * What the energy of a whole series costs, without making the series of rates: quick enough for hundreds of tariffs.
 *
 * @param tariff a valid tariff
 * @param calendar the half-hours
 * @param kwh energy of each half-hour, NaN where missing (costs nothing, is counted elsewhere)
 * @param vatShare VAT as a share, 0.05 for 5 %
 * @param pricePence half-hourly price as for {@link rateSeries}
 * @returns energy cost with VAT by month and in all; standing charge and export are not in it
 * @throws InputError as {@link rateSeries}, and when there are not as many readings as half-hours
 * @example priceYear(tariff, calendar, kwh, 0.05).energyPence // 81234.5
 */
export function priceYear(
  tariff: Tariff,
  calendar: HalfHourCalendar,
  kwh: Float64Array,
  vatShare: number,
  pricePence?: Float64Array,
): PricedEnergy {
  assertLength('readings', kwh, calendar);
  const weekSlot = weekSlotsFor(tariff, calendar);
  const price = priceFor(tariff, calendar, pricePence);
  const vat = vatFactor(tariff.includesVat, vatShare);
  const priceVat = vatFactor(tariff.priceIncludesVat, vatShare);
  const energyPenceByMonth = new Float64Array(calendar.monthStartSerials.length);
  let halfHoursWithoutPrice = 0;
  for (const { first, end, monthIndex, weekRates } of stretchesOf(tariff, calendar, vat)) {
    let pence = 0;
    if (price === undefined) {
      for (let i = first; i < end; i++) {
        const reading = kwh[i]!;
        if (!Number.isNaN(reading)) pence += reading * weekRates[weekSlot[i]!]!;
      }
    } else {
      for (let i = first; i < end; i++) {
        const reading = kwh[i]!;
        if (Number.isNaN(reading)) continue;
        const rate = weekRates[weekSlot[i]!]! + price[i]! * priceVat;
        if (!Number.isNaN(rate)) pence += reading * rate;
        else halfHoursWithoutPrice++;
      }
    }
    energyPenceByMonth[monthIndex]! += pence;
  }
  const energyPence = energyPenceByMonth.reduce((sum, month) => sum + month, 0);
  return { energyPenceByMonth, energyPence, halfHoursWithoutPrice };
}

/**
 * The slots of the week by the tariff's own clock.
 *
 * @param tariff whose clock is local or UTC
 * @param calendar the half-hours
 * @returns weekday (Monday 0) × 48 + half-hour, one a half-hour
 * @example weekSlotsFor({ clock: 'utc' }, calendar) === calendar.weekSlotUtc
 */
export function weekSlotsFor(tariff: Pick<Tariff, 'clock'>, calendar: HalfHourCalendar): Uint16Array {
  return tariff.clock === 'utc' ? calendar.weekSlotUtc : calendar.weekSlotLocal;
}

function vatFactor(includesVat: boolean, vatShare: number): number {
  return includesVat ? 1 : 1 + vatShare;
}

function stretchesOf(tariff: Tariff, calendar: HalfHourCalendar, vat: number): Stretch[] {
  const grid = rateGrid(tariff);
  const ratesByPeriod = tariff.ratePeriods.map((period) => {
    const bandRates = [period.baseRatePence, ...period.windowRatesPence].map((rate) => rate * vat);
    return Float64Array.from(grid, (band) => bandRates[band]!);
  });
  const { localSerial } = calendar;
  const starts = new Set(tariff.ratePeriods.slice(1).map((period) => period.validFromSerial));
  for (const month of calendar.monthStartSerials.slice(1)) starts.add(month);
  const firsts = [...starts]
    .map((serial) => firstAtOrAfter(localSerial, serial))
    .filter((first) => first > 0 && first < localSerial.length);
  const bounds = [...new Set([0, ...firsts])].sort((a, b) => a - b);
  return localSerial.length === 0
    ? []
    : bounds.map((first, k) => ({
        first,
        end: bounds[k + 1] ?? localSerial.length,
        monthIndex: calendar.monthIndex[first]!,
        weekRates: ratesByPeriod[ratePeriodIndexAt(tariff.ratePeriods, localSerial[first]!)]!,
      }));
}

/** First half-hour at or after a local midnight. Days ascend, even where a clock goes back within one. */
function firstAtOrAfter(localSerial: Float64Array, daySerial: number): number {
  let low = 0;
  let high = localSerial.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (localSerial[middle]! < daySerial) low = middle + 1;
    else high = middle;
  }
  return low;
}

function priceFor(
  tariff: Tariff,
  calendar: HalfHourCalendar,
  pricePence: Float64Array | undefined,
): Float64Array | undefined {
  if (!tariff.halfHourlyPriced) return undefined;
  if (pricePence === undefined) {
    throw new InputError(
      `the tariff "${tariff.name}" takes its rate from half-hourly prices and there are none`,
      'Add a file with a price column, or give the tariff rates of its own.',
    );
  }
  assertLength('prices', pricePence, calendar);
  return pricePence;
}

function assertLength(what: string, series: Float64Array, calendar: HalfHourCalendar): void {
  if (series.length === calendar.localSerial.length) return;
  throw new InputError(
    `there are ${series.length} ${what} for ${calendar.localSerial.length} half-hours`,
    'Give one for each half-hour.',
  );
}
