import { SLOTS_PER_WEEK } from '../time/half-hour-calendar.js';
import { SLOTS_PER_DAY } from '../time/serial.js';
import type { RateWindow, Tariff } from './tariff.js';

/** Band of a half-hour outside every window. */
export const BASE_BAND = 0;

/**
 * The band of every half-hour of the week.
 *
 * @param tariff a valid tariff; its windows do not overlap
 * @returns 336 bands, weekday (Monday 0) × 48 + half-hour, by the tariff's clock: 0 base rate, 1 first window and so on
 * @example rateGrid(tariff)[0] // 1 where the first window holds on Monday at 00:00
 */
export function rateGrid(tariff: Pick<Tariff, 'windows'>): Uint8Array {
  const grid = new Uint8Array(SLOTS_PER_WEEK);
  tariff.windows.forEach((window, index) => {
    for (const slot of windowWeekSlots(window)) grid[slot] = index + 1;
  });
  return grid;
}

/**
 * The half-hours of the week that a window covers, including those after midnight of its last day.
 *
 * @param window on the half-hour
 * @returns slots of the week, 0 to 335, in the order of the days on which the window starts
 * @example windowWeekSlots({ fromMinutes: 1410, toMinutes: 30, days: sundays }) // [335, 0]
 */
export function windowWeekSlots(window: RateWindow): number[] {
  const first = window.fromMinutes / 30;
  const length = windowMinutes(window) / 30;
  const slots: number[] = [];
  window.days.forEach((starts, day) => {
    if (!starts) return;
    const start = day * SLOTS_PER_DAY + first;
    for (let slot = start; slot < start + length; slot++) slots.push(slot % SLOTS_PER_WEEK);
  });
  return slots;
}

/**
 * How long a window lasts.
 *
 * @param window times in minutes after midnight; an end at or before the start is on the next day
 * @returns minutes, up to 1440
 * @example windowMinutes({ fromMinutes: 1410, toMinutes: 30 }) // 60
 */
export function windowMinutes(window: Pick<RateWindow, 'fromMinutes' | 'toMinutes'>): number {
  const minutes = window.toMinutes - window.fromMinutes;
  return minutes > 0 ? minutes : minutes + 1440;
}
