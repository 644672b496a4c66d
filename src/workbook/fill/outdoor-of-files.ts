import type { DailyTemperature, ImportedTemperature, SourcedReadings } from '../../readings/index.js';
import type { ReadingRows } from '../inputs/workbook-inputs.js';

/** Half-hours of the shortest day there is, when the clocks go forward. */
const SHORTEST_DAY = 46;

/**
 * Half-hourly temperatures of files, for the half-hours that the readings have: others belong to no row.
 *
 * @param temperature what the files hold
 * @param timeZone the home's
 * @param starts starts of the readings' half-hours, epoch ms
 * @returns readings of outdoor temperature; undefined where there are none
 */
export function outdoorOfFiles(
  temperature: ImportedTemperature | undefined,
  timeZone: string,
  starts: ReadonlySet<number>,
): SourcedReadings | undefined {
  const { halfHourly } = temperature ?? {};
  if (halfHourly === undefined) return undefined;
  const kept: number[] = [];
  halfHourly.startUtcMs.forEach((start, i) => {
    if (starts.has(start)) kept.push(i);
  });
  if (kept.length === 0) return undefined;
  return {
    readings: {
      timeZone,
      startUtcMs: Float64Array.from(kept, (i) => halfHourly.startUtcMs[i]!),
      channels: { outdoorC: Float64Array.from(kept, (i) => halfHourly.outdoorC[i]!) },
    },
    placeOf: () => ({ file: 'the temperature files' }),
  };
}

/**
 * Days of the files whose half-hours do not stand beside the readings already.
 *
 * @param temperature what the files hold
 * @param readings rows of the readings sheet, with the files' half-hours
 */
export function daysWithoutHalfHours(
  { halfHourly, daily }: ImportedTemperature,
  readings: ReadingRows,
): readonly DailyTemperature[] {
  if (halfHourly === undefined) return daily;
  const known = new Map<number, number>();
  for (let row = 0; row < readings.count; row++) {
    if (Number.isNaN(readings.values.outdoorC[row])) continue;
    const day = Math.floor(readings.startSerial[row]!);
    known.set(day, (known.get(day) ?? 0) + 1);
  }
  return daily.filter(({ serialDay }) => (known.get(serialDay) ?? 0) < SHORTEST_DAY);
}
