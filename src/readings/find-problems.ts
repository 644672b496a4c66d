import { HALF_HOUR_MS } from '../time/serial.js';
import type { Findings } from './findings.js';
import type { Series } from './series.js';

/**
 * Energy in a half-hour above which a value is out of the ordinary whatever the home: 12 kWh is 24 kW, more than a single-phase
 * supply of 100 A carries at 230 V (23 kW; common practice, no source).
 */
const OUTLIER_KWH = 12;
/** Or above this many times the channel's own 99th percentile (and at least {@link OUTLIER_LEAST_KWH}). */
const OUTLIER_TIMES = 5;
const OUTLIER_LEAST_KWH = 2;
/** Outdoor temperatures outside these are out of the ordinary, °C. */
export const OUTLIER_C: readonly [number, number] = [-40, 50];
/** Prices above this, either sign, are out of the ordinary, p/kWh. */
const OUTLIER_PENCE = 100;

/**
 * Looks over the half-hours of a channel: gaps between its first and last, negative values, values out of the ordinary, estimated
 * reads. Nothing is changed.
 *
 * @param series half-hours of a channel, ascending
 * @param findings where to say what was found
 * @param localTextOf wall-clock text of an instant
 * @example findProblems(importSeries, findings, text)
 */
export function findProblems<C extends string>(
  series: Series<C>,
  findings: Findings,
  localTextOf: (utcMs: number) => string,
): void {
  const { utcMs, values, files, records, estimated, channel } = series;
  const n = utcMs.length;
  const mayBeNegative = channel === 'outdoorC' || channel === 'pricePence';
  const [low, high] = ordinaryRange(channel, values);
  for (let i = 0; i < n; i++) {
    const value = values[i]!;
    if (i > 0 && utcMs[i]! - utcMs[i - 1]! > HALF_HOUR_MS) {
      const missing = Math.round((utcMs[i]! - utcMs[i - 1]!) / HALF_HOUR_MS) - 1;
      const from = utcMs[i - 1]! + HALF_HOUR_MS;
      const text = (): string =>
        `${localTextOf(from)} to ${localTextOf(utcMs[i]!)}, ${missing} after this line`;
      findings.add(files[i - 1]!, 'gap', channel, { record: records[i - 1]!, text }, missing);
    }
    if (value < 0 && !mayBeNegative) note('negative', i);
    else if (value < low || value > high) note('outlier', i);
    if (estimated[i] === 1) note('estimated', i);
  }

  function note(kind: 'negative' | 'outlier' | 'estimated', i: number): void {
    const text = (): string => `${localTextOf(utcMs[i]!)}: ${String(Number(values[i]!.toFixed(4)))}`;
    findings.add(files[i]!, kind, channel, { record: records[i]!, text });
  }
}

/** Bounds outside which a value is reported. */
function ordinaryRange(channel: string, values: Float64Array): [number, number] {
  if (channel === 'outdoorC') return [OUTLIER_C[0], OUTLIER_C[1]];
  if (channel === 'pricePence') return [-OUTLIER_PENCE, OUTLIER_PENCE];
  let largest = 0;
  for (let i = 0; i < values.length; i++) if (values[i]! > largest) largest = values[i]!;
  if (largest <= OUTLIER_LEAST_KWH) return [0, OUTLIER_LEAST_KWH];
  const positive = values.filter((value) => value > 0).sort();
  const p99 = positive[Math.ceil(0.99 * positive.length) - 1] ?? 0;
  return [0, Math.min(OUTLIER_KWH, Math.max(OUTLIER_LEAST_KWH, OUTLIER_TIMES * p99))];
}
