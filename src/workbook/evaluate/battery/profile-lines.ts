import type { HalfHourLines } from '../half-hour-lines.js';
import type { BatteryHomeLines } from './battery-home-lines.js';
import type { LookedAtLines } from './looked-at-lines.js';

/** Half-hours of a day by the wall clock. */
export const SLOTS_A_DAY = 48;

/** The average day of the chosen period on the tariff looked at; one entry a half-hour of the day. */
export interface ProfileLines {
  counted: Int32Array;
  demandKwh: Float64Array;
  importKwh: Float64Array;
  importWithBatteryKwh: Float64Array;
  unitRatePence: Float64Array;
}

export function profileLines(
  halfHours: HalfHourLines,
  home: BatteryHomeLines,
  looked: LookedAtLines,
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
  return {
    counted,
    demandKwh: average(halfHours.demandKwh),
    importKwh: average(halfHours.importKwh),
    importWithBatteryKwh: average(looked.importKwh),
    unitRatePence: average(looked.unitRatePence),
  };
}
