import { EARLIEST_SERIAL, LATEST_SERIAL, LOOK_UP_MARGIN_DAYS } from '../../time/serial.js';
import type { ClockRows, ReadingRows } from '../inputs/workbook-inputs.js';

/** What is wrong with a row of readings. */
export const PROBLEM = {
  none: 0,
  dateIsText: 1,
  offHalfHour: 2,
  repeated: 3,
  valueNotANumber: 4,
  outsideCenturies: 5,
  valuesWithoutTime: 6,
} as const;

/** Where rows of readings stand in time; one entry a row. */
export interface PlacedReadings {
  /** Start in quarter-hours of UTC since serial 0, a whole number; 0 where the row has no usable time. */
  instantQuarters: Float64Array;
  problem: Uint8Array;
}

/**
 * Places rows of readings in time, in whatever order they stand.
 *
 * @param readings rows of the readings sheet
 * @param clock clock changes of the home's zone
 * @returns one entry a row. A label that autumn repeats and that stands in one row is its first occurrence unless an
 *   earlier row already reached it; of two rows the upper is the first, except where rows go back in time
 */
export function placeReadings(readings: ReadingRows, clock: ClockRows): PlacedReadings {
  const { count } = readings;
  const placed: PlacedReadings = {
    instantQuarters: new Float64Array(count),
    problem: new Uint8Array(count),
  };
  const seen = new Set<number>();
  const passes = passesOfTwins(readings, clock);
  let latest = 0;
  for (let row = 0; row < count; row++) {
    const start = startOf(readings.startSerial[row] ?? Number.NaN);
    const instant = start === 0 ? 0 : instantOf(readings, clock, row, start, latest, passes.get(row));
    const isNew = instant > 0 && !seen.has(instant);
    seen.add(instant);
    latest = Math.max(latest, instant);
    placed.instantQuarters[row] = instant;
    placed.problem[row] = problemOf(readings, row, start, isNew);
  }
  return placed;
}

/** Wall-clock start on the half-hour, serial; 0 where it is none. */
function startOf(raw: number): number {
  if (!(raw >= EARLIEST_SERIAL && raw <= LATEST_SERIAL + 1)) return 0;
  const slots = Math.round(raw * 48);
  return Math.abs(raw * 48 - slots) < 0.01 ? slots / 48 : 0;
}

function instantOf(
  readings: ReadingRows,
  clock: ClockRows,
  row: number,
  start: number,
  latest: number,
  pass: 'first' | 'second' | undefined,
): number {
  const quarters = (offset: number): number => Math.round((start - offset / 24) * 96);
  const given = readings.offsetHours[row] ?? Number.NaN;
  if (!Number.isNaN(given)) return quarters(given);
  const { before, after, isRepeated } = offsetsAt(clock, start);
  const isFirst = pass === undefined ? quarters(before) > latest + 1 : pass === 'first';
  return quarters(isRepeated && isFirst ? before : after);
}

/** Offsets in hours before and after the last clock change, and whether the label is one that the change repeats. */
function offsetsAt(clock: ClockRows, start: number): { before: number; after: number; isRepeated: boolean } {
  const change = lastChangeBefore(clock, start);
  const before = clock.offsetBeforeHours[change] ?? 0;
  const after = clock.offsetAfterHours[change] ?? 0;
  const sinceChange = Math.round((start - (clock.fromLocalSerial[change] ?? 0)) * 96);
  return { before, after, isRepeated: sinceChange < Math.round((before - after) * 4) };
}

/**
 * Which pass of a repeated hour rows belong to whose label stands twice without offsets. Sorted by the label, twins stand
 * in neighbouring rows and keep their order; apart from each other, they follow time, or go back in it where the rows do.
 */
function passesOfTwins(readings: ReadingRows, clock: ClockRows): Map<number, 'first' | 'second'> {
  const rowsOfLabel = new Map<number, number[]>();
  const startAt = (row: number): number => startOf(readings.startSerial[row] ?? Number.NaN);
  for (let row = 0; row < readings.count; row++) {
    const start = startAt(row);
    if (start === 0 || !Number.isNaN(readings.offsetHours[row] ?? Number.NaN)) continue;
    if (!offsetsAt(clock, start).isRepeated) continue;
    const label = Math.round(start * 48);
    rowsOfLabel.set(label, [...(rowsOfLabel.get(label) ?? []), row]);
  }
  const passes = new Map<number, 'first' | 'second'>();
  for (const [upper, lower, ...more] of rowsOfLabel.values()) {
    if (upper === undefined || lower === undefined || more.length > 0) continue;
    const goesBack = startAt(upper - 1) > startAt(upper);
    const isUpperSecond = goesBack && lower > upper + 1;
    passes.set(upper, isUpperSecond ? 'second' : 'first');
    passes.set(lower, isUpperSecond ? 'first' : 'second');
  }
  return passes;
}

/** Place of the last clock change at or before a wall-clock time, give or take the last bit. */
function lastChangeBefore(clock: ClockRows, start: number): number {
  let change = clock.fromLocalSerial.length - 1;
  while (change > 0 && (clock.fromLocalSerial[change] ?? 0) > start + LOOK_UP_MARGIN_DAYS) change--;
  return change;
}

function problemOf(readings: ReadingRows, row: number, start: number, isNew: boolean): number {
  if (readings.startIsText[row] === 1) return PROBLEM.dateIsText;
  const raw = readings.startSerial[row] ?? Number.NaN;
  const textValues = readings.textValues[row] ?? 0;
  if (Number.isNaN(raw)) {
    const hasValues =
      textValues > 0 || Object.values(readings.values).some((channel) => !Number.isNaN(channel[row]));
    return hasValues ? PROBLEM.valuesWithoutTime : PROBLEM.none;
  }
  if (!(raw >= EARLIEST_SERIAL && raw <= LATEST_SERIAL + 1)) return PROBLEM.outsideCenturies;
  if (start === 0) return PROBLEM.offHalfHour;
  if (!isNew) return PROBLEM.repeated;
  return textValues > 0 ? PROBLEM.valueNotANumber : PROBLEM.none;
}
