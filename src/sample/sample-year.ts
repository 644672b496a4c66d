import { CHANNELS } from '../readings/channels.js';
import { type SampleYear, simulateHome } from './simulate-home.js';

/**
 * The sample home's year, 1 October 2025 to 30 September 2026, Europe/London: 17,520 half-hours.
 *
 * @returns arrays of one value a half-hour; the same every time
 * @example sampleYear().importKwh.length // 17520
 */
export function sampleYear(): SampleYear {
  const { readings, halfHoursInYear } = simulateHome();
  return sliceReadings(readings, 0, halfHoursInYear);
}

/**
 * The month after the sample year, October 2026: 1,490 half-hours, as the clock goes back on the 25th.
 *
 * @returns arrays of one value a half-hour; the same every time
 * @example sampleExtraMonth().importKwh.length // 1490
 */
export function sampleExtraMonth(): SampleYear {
  const { readings, halfHoursInYear } = simulateHome();
  return sliceReadings(readings, halfHoursInYear, readings.startUtcMs.length);
}

function sliceReadings(readings: SampleYear, from: number, until: number): SampleYear {
  const slice = { ...readings };
  for (const name of [...CHANNELS, 'startUtcMs', 'householdKwh'] as const) {
    slice[name] = readings[name].slice(from, until);
  }
  return slice;
}
