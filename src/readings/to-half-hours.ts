import { HALF_HOUR_MS } from '../time/serial.js';
import type { Series } from './series.js';

/** A half-hour of which only some parts are there. */
interface IncompleteHalfHour {
  utcMs: number;
  have: number;
  need: number;
  file: number;
  record: number;
}

/**
 * Brings a series to half-hours: shorter intervals are summed (averaged for temperature and price), hours are split into two equal
 * halves. A half-hour that lacks a part is left out and told.
 *
 * @param series interval values, ascending in time, on the grid of their interval
 * @param averaged whether values are averaged rather than summed
 * @param phaseMs what a half-hour's start leaves when divided by 30 minutes: nought but in zones on a quarter-hour
 * @returns the half-hours, and those left out
 * @example toHalfHours(quarters, false, 0).series.values[0] // sum of two quarters
 */
export function toHalfHours<C extends string>(
  series: Series<C>,
  averaged: boolean,
  phaseMs: number,
): { series: Series<C>; incomplete: IncompleteHalfHour[] } {
  const { stepMs, utcMs, values, records, files, estimated } = series;
  if (stepMs === HALF_HOUR_MS) return { series, incomplete: [] };
  const n = utcMs.length;
  if (stepMs > HALF_HOUR_MS) {
    const parts = stepMs / HALF_HOUR_MS;
    const share = averaged ? 1 : 1 / parts;
    const out = emptySeries(series, n * parts);
    for (let i = 0; i < n; i++) {
      for (let p = 0; p < parts; p++) {
        const k = i * parts + p;
        out.utcMs[k] = utcMs[i]! + p * HALF_HOUR_MS;
        out.values[k] = values[i]! * share;
        out.records[k] = records[i]!;
        out.files[k] = files[i]!;
        out.estimated[k] = estimated[i]!;
      }
    }
    return { series: out, incomplete: [] };
  }
  const need = HALF_HOUR_MS / stepMs;
  const out = emptySeries(series, n);
  const incomplete: IncompleteHalfHour[] = [];
  let count = 0;
  for (let i = 0; i < n; ) {
    const start = Math.floor((utcMs[i]! - phaseMs) / HALF_HOUR_MS) * HALF_HOUR_MS + phaseMs;
    let sum = 0;
    let mark = 0;
    let end = i;
    while (end < n && utcMs[end]! < start + HALF_HOUR_MS) {
      sum += values[end]!;
      mark |= estimated[end]!;
      end++;
    }
    const have = end - i;
    if (have < need) {
      incomplete.push({ utcMs: start, have, need, file: files[i]!, record: records[i]! });
    } else {
      out.utcMs[count] = start;
      out.values[count] = averaged ? sum / need : sum;
      out.records[count] = records[i]!;
      out.files[count] = files[i]!;
      out.estimated[count] = mark;
      count++;
    }
    i = end;
  }
  return {
    series: {
      ...out,
      utcMs: out.utcMs.subarray(0, count),
      values: out.values.subarray(0, count),
      records: out.records.subarray(0, count),
      files: out.files.subarray(0, count),
      estimated: out.estimated.subarray(0, count),
    },
    incomplete,
  };
}

function emptySeries<C extends string>(like: Series<C>, n: number): Series<C> {
  return {
    ...like,
    stepMs: HALF_HOUR_MS,
    utcMs: new Float64Array(n),
    values: new Float64Array(n),
    records: new Int32Array(n),
    files: new Int16Array(n),
    estimated: new Uint8Array(n),
  };
}
