import type { HalfHourLines } from '../half-hour-lines.js';
import type { BatteryHomeLines } from './battery-home-lines.js';
import type { BatteryTariffLines, PricedTariff } from './battery-tariff-lines.js';

/** Half-hours of a day by the wall clock. */
export const SLOTS_A_DAY = 48;

/** The average day of the chosen period on the tariff looked at; one entry a half-hour of the day. */
export interface ProfileLines {
  counted: Int32Array;
  demandKwh: Float64Array;
  importKwh: Float64Array;
  importWithBatteryKwh: Float64Array;
  unitRatePence: Float64Array;
  /** How much more is bought with the battery than without, kWh. */
  extraKwh: Float64Array;
  /** 1 where that is a real part of the day's charging. */
  chargesFromGrid: Uint8Array;
  /** Half-hours from here on, within the day, in which it goes on. */
  runLength: Int32Array;
  /** Spells of charging that have begun so far, `00:30–05:30`. */
  hours: string[];
  /** All of them: `all day`, or empty where there is none. */
  hoursInWords: string;
}

/** A rise of less than this part of the day's largest is no charging: charging that starts late, on some days. */
export const REAL_RISE_SHARE = 0.1;
/** kWh; sums leave crumbs. */
export const LEAST_RISE_KWH = 1e-6;
export const ALL_DAY = 'all day';

/**
 * The average day.
 *
 * @param tariff the tariff looked at and its battery lines; undefined where none is chosen
 */
export function profileLines(
  halfHours: HalfHourLines,
  home: BatteryHomeLines,
  tariff: { priced: PricedTariff; lines: BatteryTariffLines } | undefined,
): ProfileLines {
  const counted = new Int32Array(SLOTS_A_DAY);
  home.slotInPeriod.forEach((slot) => {
    if (slot > 0) counted[slot - 1]!++;
  });
  const average = (values: Float64Array): Float64Array => {
    const sums = new Float64Array(SLOTS_A_DAY);
    home.slotInPeriod.forEach((slot, row) => {
      if (slot > 0) sums[slot - 1]! += values[row]!;
    });
    return sums.map((sum, slot) => (counted[slot] === 0 ? 0 : sum / counted[slot]!));
  };
  const importKwh = average(halfHours.importKwh);
  // Where no tariff is looked at, no battery works and nothing has a rate.
  const importWithBatteryKwh = average(tariff?.lines.halfHours.importKwh ?? halfHours.importKwh);
  return {
    counted,
    demandKwh: average(halfHours.demandKwh),
    importKwh,
    importWithBatteryKwh,
    unitRatePence:
      tariff === undefined ? new Float64Array(SLOTS_A_DAY) : average(tariff.priced.halfHours.unitRatePence),
    ...chargingHours(importWithBatteryKwh.map((kwh, slot) => kwh - importKwh[slot]!)),
  };
}

/**
 * When the battery charges from the grid, read off the average day.
 *
 * @param extraKwh how much more is bought with the battery than without, one entry a half-hour of the day
 * @returns lines of the profile sheet, and the times in words
 */
export function chargingHours(
  extraKwh: Float64Array,
): Pick<ProfileLines, 'extraKwh' | 'chargesFromGrid' | 'runLength' | 'hours' | 'hoursInWords'> {
  const largest = Math.max(...extraKwh);
  const chargesFromGrid = Uint8Array.from(extraKwh, (kwh) =>
    kwh > LEAST_RISE_KWH && kwh >= REAL_RISE_SHARE * largest ? 1 : 0,
  );
  const runLength = new Int32Array(SLOTS_A_DAY);
  for (let slot = SLOTS_A_DAY - 1; slot >= 0; slot--) {
    runLength[slot] = chargesFromGrid[slot] === 0 ? 0 : 1 + (runLength[slot + 1] ?? 0);
  }
  const hours: string[] = [];
  for (let slot = 0; slot < SLOTS_A_DAY; slot++) {
    const sofar = hours[slot - 1] ?? '';
    const before = chargesFromGrid[(slot + SLOTS_A_DAY - 1) % SLOTS_A_DAY];
    if (chargesFromGrid[slot] === 0 || before === 1) hours.push(sofar);
    else {
      const end = slot + runLength[slot]!;
      // A spell that reaches midnight goes on into the morning.
      const until = end === SLOTS_A_DAY && chargesFromGrid[0] === 1 ? runLength[0]! : end;
      hours.push(`${sofar}${sofar === '' ? '' : ', '}${clockTime(slot)}–${clockTime(until)}`);
    }
  }
  const isAllDay = chargesFromGrid.every((flag) => flag === 1);
  return {
    extraKwh,
    chargesFromGrid,
    runLength,
    hours,
    hoursInWords: isAllDay ? ALL_DAY : hours[SLOTS_A_DAY - 1]!,
  };
}

/** Time of day after so many half-hours, 24:00 at the end of the day. */
function clockTime(halfHours: number): string {
  return `${String(Math.floor(halfHours / 2)).padStart(2, '0')}:${halfHours % 2 === 0 ? '00' : '30'}`;
}
