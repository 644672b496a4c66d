import { EARLIEST_SERIAL, LATEST_SERIAL } from '../../time/serial.js';
import type { ClockRows, ReadingRows, WorkbookInputs } from '../inputs/workbook-inputs.js';
import { DAY_ROWS, READING_ROWS } from '../layout.js';
import { monthsApart } from './calendar-parts.js';

/**
 * Half a minute, in days, added to a time before it is looked up among the clock changes: a program that stores 15
 * digits moves both by less, and without it a half-hour that starts at a change could miss it.
 */
export const LOOK_UP_MARGIN_DAYS = 1 / 2880;

/** What is wrong with a row of readings. */
export const PROBLEM = {
  none: 0,
  dateIsText: 1,
  offHalfHour: 2,
  repeatedOrOutOfOrder: 3,
  valueNotANumber: 4,
  outsideCenturies: 5,
  valuesWithoutTime: 6,
} as const;

/** The lines of the half-hours sheet that all tariffs share; one entry a row of the sheet. */
export interface HalfHourLines {
  startSerial: Float64Array;
  clockRow: Uint8Array;
  offsetHours: Float64Array;
  instantQuarters: Float64Array;
  latestQuarters: Float64Array;
  problem: Uint8Array;
  used: Uint8Array;
  dayNumber: Int32Array;
  monthNumber: Int32Array;
  weekSlotLocal: Int32Array;
  weekSlotUtc: Int32Array;
  metered: Uint8Array;
  importKwh: Float64Array;
  exportKwh: Float64Array;
  demandKwh: Float64Array;
  clampedKwh: Float64Array;
  /** Local day of the first and the last half-hour in use, serial; 0 where there is none. */
  firstDay: number;
  lastDay: number;
}

/**
 * Places each row of readings in time, judges it, and turns metered flows into flows without a battery.
 *
 * @param inputs the workbook's inputs
 * @returns one entry a row of the half-hours sheet
 */
export function halfHourLines(inputs: WorkbookInputs): HalfHourLines {
  const { readings, clock } = inputs;
  const lines = emptyLines();
  placeInTime(lines, readings, clock);
  placeInCalendar(lines);
  for (let row = 0; row < readings.count; row++) {
    if (lines.dayNumber[row] === 0) continue;
    const kwh = (channel: keyof ReadingRows['values']): number => readings.values[channel][row]! || 0;
    const batteryIn = kwh('batteryInKwh');
    const batteryOut = kwh('batteryOutKwh');
    const net = kwh('importKwh') - kwh('exportKwh') + batteryOut - batteryIn;
    const batteryRan = batteryIn !== 0 || batteryOut !== 0;
    lines.importKwh[row] = batteryRan ? Math.max(0, net) : kwh('importKwh');
    lines.exportKwh[row] = batteryRan ? Math.max(0, -net) : kwh('exportKwh');
    const demand = net + kwh('solarKwh');
    lines.demandKwh[row] = Math.max(0, demand);
    lines.clampedKwh[row] = Math.max(0, -demand);
    lines.metered[row] = Number.isNaN(readings.values.importKwh[row]) ? 0 : 1;
  }
  return lines;
}

function emptyLines(): HalfHourLines {
  const floats = (): Float64Array => new Float64Array(READING_ROWS);
  const bytes = (): Uint8Array => new Uint8Array(READING_ROWS);
  const integers = (): Int32Array => new Int32Array(READING_ROWS);
  return {
    startSerial: floats(),
    clockRow: bytes(),
    offsetHours: floats(),
    instantQuarters: floats(),
    latestQuarters: floats(),
    problem: bytes(),
    used: bytes(),
    dayNumber: integers(),
    monthNumber: integers(),
    weekSlotLocal: integers(),
    weekSlotUtc: integers(),
    metered: bytes(),
    importKwh: floats(),
    exportKwh: floats(),
    demandKwh: floats(),
    clampedKwh: floats(),
    firstDay: 0,
    lastDay: 0,
  };
}

function placeInTime(lines: HalfHourLines, readings: ReadingRows, clock: ClockRows): void {
  let latest = 0;
  for (let row = 0; row < READING_ROWS; row++) {
    const raw = readings.startSerial[row]!;
    const hasNumber = !Number.isNaN(raw);
    const inRange = hasNumber && raw >= EARLIEST_SERIAL && raw <= LATEST_SERIAL;
    const slots = Math.round(raw * 48);
    const start = inRange && Math.abs(raw * 48 - slots) < 0.01 ? slots / 48 : 0;
    const clockRow = start === 0 ? 0 : clockRowAt(clock, start);
    const offset = start === 0 ? 0 : offsetOf(readings, clock, row, clockRow, start, latest);
    const instant = start === 0 ? 0 : Math.round((start - offset / 24) * 96);
    const used = start > 0 && instant > latest + 1;
    latest = Math.max(latest, instant);

    lines.startSerial[row] = start;
    lines.clockRow[row] = clockRow;
    lines.offsetHours[row] = offset;
    lines.instantQuarters[row] = instant;
    lines.latestQuarters[row] = latest;
    lines.used[row] = used ? 1 : 0;
    lines.problem[row] = problemOf(readings, row, { hasNumber, inRange, start, used });
    if (used && lines.firstDay === 0) lines.firstDay = Math.floor(start);
    lines.lastDay = Math.max(lines.lastDay, Math.floor(start));
  }
  if (lines.firstDay === 0) lines.lastDay = 0;
}

/** Row (from 1) of the last clock change at or before a wall-clock time, give or take the last bit. */
function clockRowAt(clock: ClockRows, start: number): number {
  const latest = start + LOOK_UP_MARGIN_DAYS;
  let row = clock.fromLocalSerial.length;
  while (row > 1 && clock.fromLocalSerial[row - 1]! > latest) row--;
  return row;
}

/**
 * Offset of a row: as given, else by the clock table. A label that autumn repeats is the first of the two unless an
 * earlier row already reached that instant.
 */
function offsetOf(
  readings: ReadingRows,
  clock: ClockRows,
  row: number,
  clockRow: number,
  start: number,
  latest: number,
): number {
  const given = readings.offsetHours[row]!;
  if (!Number.isNaN(given)) return given;
  const before = clock.offsetBeforeHours[clockRow - 1]!;
  const after = clock.offsetAfterHours[clockRow - 1]!;
  const isRepeatedLabel =
    Math.round((start - clock.fromLocalSerial[clockRow - 1]!) * 96) < Math.round((before - after) * 4);
  const isFirst = Math.round((start - before / 24) * 96) > latest + 1;
  return isRepeatedLabel && isFirst ? before : after;
}

function problemOf(
  readings: ReadingRows,
  row: number,
  facts: { hasNumber: boolean; inRange: boolean; start: number; used: boolean },
): number {
  const textValues = readings.textValues[row]!;
  if (readings.startIsText[row] === 1) return PROBLEM.dateIsText;
  if (!facts.hasNumber) {
    const hasValues =
      textValues > 0 || Object.values(readings.values).some((channel) => !Number.isNaN(channel[row]));
    return hasValues ? PROBLEM.valuesWithoutTime : PROBLEM.none;
  }
  if (!facts.inRange) return PROBLEM.outsideCenturies;
  if (facts.start === 0) return PROBLEM.offHalfHour;
  if (!facts.used) return PROBLEM.repeatedOrOutOfOrder;
  return textValues > 0 ? PROBLEM.valueNotANumber : PROBLEM.none;
}

function placeInCalendar(lines: HalfHourLines): void {
  for (let row = 0; row < READING_ROWS; row++) {
    if (lines.used[row] === 0) continue;
    const start = lines.startSerial[row]!;
    const day = Math.floor(start) - lines.firstDay + 1;
    if (day < 1 || day > DAY_ROWS) continue;
    lines.dayNumber[row] = day;
    lines.monthNumber[row] = monthsApart(lines.firstDay, Math.floor(start)) + 1;
    lines.weekSlotLocal[row] = ((Math.floor(start) + 5) % 7) * 48 + Math.round((start % 1) * 48) + 1;
    const halfHour = Math.floor(lines.instantQuarters[row]! / 2);
    lines.weekSlotUtc[row] = ((Math.floor(halfHour / 48) + 5) % 7) * 48 + (halfHour % 48) + 1;
  }
}
