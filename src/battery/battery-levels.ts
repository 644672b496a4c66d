import { SLOTS_PER_WEEK } from '../time/half-hour-calendar.js';
import { SLOTS_PER_DAY } from '../time/serial.js';
import { type AverageDay, averageDays, halfHoursOfDay } from './average-day.js';
import type { Battery, BatteryInput, RateWeeks } from './battery.js';
import { levelsOfPriceDay } from './levels-of-price-day.js';
import { levelsOfWeek, type WeekLevels } from './levels-of-week.js';

const DAYS_PER_WEEK = SLOTS_PER_WEEK / SLOTS_PER_DAY;

/** The rule's two levels of each half-hour, stored kWh. */
export interface BatteryLevels {
  /** It charges from the grid up to this; 0: it doesn't. */
  fillUpToKwh: Float64Array;
  /** It serves the home down to this. */
  keepKwh: Float64Array;
  /** 1 where it gives all that it can. */
  sells: Uint8Array;
}

/**
 * The levels that the rule sets beforehand: by the week of rates that holds ({@link levelsOfWeek}), or day by day of a half-hourly
 * price ({@link levelsOfPriceDay}).
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param changes stored kWh of each half-hour, from `storeChanges`
 * @param battery units as in {@link Battery}
 * @returns one entry a half-hour
 * @example batteryLevels(input, storeChanges(input, battery), battery).fillUpToKwh[0] // 7.4
 */
export function batteryLevels(input: BatteryInput, changes: Float64Array, battery: Battery): BatteryLevels {
  const days = averageDays(input, changes);
  const levels: BatteryLevels = {
    fillUpToKwh: new Float64Array(changes.length),
    keepKwh: new Float64Array(changes.length),
    sells: new Uint8Array(changes.length),
  };
  if (input.ruleRatePence === undefined) byWeek(input, battery, days, levels);
  else byPrice(input, input.ruleRatePence, battery, days, levels);
  return levels;
}

function byWeek(input: BatteryInput, battery: Battery, days: AverageDay[], levels: BatteryLevels): void {
  const weeks = input.weeks ?? weeksAhead(input);
  const known = new Map<number, WeekLevels>();
  for (let i = 0; i < levels.keepKwh.length; i++) {
    const [month, week] = [input.monthIndex?.[i] ?? 0, weeks.index[i]!];
    const key = month * weeks.ratesPence.length + week;
    let ofWeek = known.get(key);
    if (ofWeek === undefined) {
      ofWeek = levelsOfWeek(weeks.ratesPence[week]!, days[month]!, {
        battery,
        exportRatePence: weeks.exportRatePence[week]!,
        aheadHalfHours: weeks.aheadHalfHours?.[month] ?? 0,
      });
      known.set(key, ofWeek);
    }
    const slot = weeks.slot[i]!;
    levels.fillUpToKwh[i] = ofWeek.fillUpToKwh[slot]!;
    levels.keepKwh[i] = ofWeek.keepKwh[slot]!;
    levels.sells[i] = ofWeek.sells ? 1 : 0;
  }
}

function byPrice(
  input: BatteryInput,
  pricesPence: Float64Array,
  battery: Battery,
  days: AverageDay[],
  levels: BatteryLevels,
): void {
  const halfHours = halfHoursOfDay(input);
  const { dayIndex } = input;
  for (let first = 0; first < dayIndex.length; ) {
    let end = first + 1;
    while (end < dayIndex.length && dayIndex[end] === dayIndex[first]) end++;
    const ofDay = levelsOfPriceDay(
      pricesPence.subarray(first, end),
      halfHours.subarray(first, end),
      days[input.monthIndex?.[first] ?? 0]!,
      battery,
    );
    levels.fillUpToKwh.set(ofDay.fillUpToKwh, first);
    levels.keepKwh.set(ofDay.keepKwh, first);
    first = end;
  }
}

/**
 * For half-hours of which no week of rates is told: each day and the six after it are taken as its week. Beyond the end, the same
 * weekday of the last seven days stands for a day, or else the day itself; a half-hour that a day lacks has the rate of the one
 * before it.
 */
function weeksAhead(input: BatteryInput): RateWeeks {
  const count = input.dayIndex.length;
  const halfHours = halfHoursOfDay(input);
  const slotOf = (i: number): number => Math.min(halfHours[i]!, SLOTS_PER_DAY - 1);
  const days: { rates: Float64Array; exportRatePence: number }[] = [];
  for (let first = 0; first < count; ) {
    const rates = new Float64Array(SLOTS_PER_DAY).fill(Number.NaN);
    let [end, exportSum] = [first, 0];
    for (; end < count && input.dayIndex[end] === input.dayIndex[first]; end++) {
      rates[slotOf(end)] = input.unitRatePence[end]!;
      exportSum += input.exportRatePence[end]!;
    }
    let before = input.unitRatePence[first]!;
    days.push({
      rates: rates.map((rate) => {
        if (!Number.isNaN(rate)) before = rate;
        return before;
      }),
      exportRatePence: exportSum / (end - first),
    });
    first = end;
  }
  const ahead = (day: number, k: number): number => {
    if (day + k < days.length) return day + k;
    return day + k >= DAYS_PER_WEEK ? day + k - DAYS_PER_WEEK : day;
  };
  const ratesPence: Float64Array[] = [];
  const exportRates: number[] = [];
  const numbers = new Map<string, number>();
  const weekOfDay = days.map(({ exportRatePence }, day) => {
    const week = new Float64Array(SLOTS_PER_WEEK);
    for (let k = 0; k < DAYS_PER_WEEK; k++) week.set(days[ahead(day, k)]!.rates, k * SLOTS_PER_DAY);
    const key = `${exportRatePence} ${week.join(' ')}`;
    let number = numbers.get(key);
    if (number === undefined) {
      number = ratesPence.push(week) - 1;
      exportRates.push(exportRatePence);
      numbers.set(key, number);
    }
    return number;
  });
  return {
    ratesPence,
    exportRatePence: Float64Array.from(exportRates),
    index: input.dayIndex.map((day) => weekOfDay[day]!),
    slot: Int32Array.from(halfHours, (_, i) => slotOf(i)),
  };
}
