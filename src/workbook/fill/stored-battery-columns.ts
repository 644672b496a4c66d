import { localMsToSerial } from '../../time/serial.js';
import { ZoneClock } from '../../time/zone-clock.js';
import { columnNumber, parseCell } from '../cell-address.js';
import type { StoredBatteryResults } from '../inputs/battery-cells.js';
import { BATTERY_RESULTS, SIZING, STORED, sizingRows } from '../model/battery/battery-rows.js';
import type { CellValue } from '../model/sheet-model.js';
import type { InputColumn } from '../package/index.js';
import type { Shape } from '../sheets/shape.js';

/** Milliseconds in a minute. */
const MINUTE_MS = 60_000;

/** The time of a clock in the home's zone, to the minute, as a serial. */
export function localNow(now: Date, timeZone: string): number {
  const utcMs = Math.floor(now.getTime() / MINUTE_MS) * MINUTE_MS;
  const clock = new ZoneClock(timeZone, utcMs, utcMs);
  return localMsToSerial(utcMs + clock.offsetMinutesAt(utcMs) * MINUTE_MS);
}

/** What the fill writes on the battery sheet. */
export function storedBatteryColumns({ tariffs, sizing }: StoredBatteryResults, shape: Shape): InputColumn[] {
  const { first, fingerprint, computedAt } = sizingRows(shape);
  const column = (letters: string, firstRow: number, values: readonly CellValue[]): InputColumn => ({
    column: columnNumber(letters),
    firstRow,
    values,
  });
  const single = (at: string, value: CellValue): InputColumn => {
    const { row, column: number } = parseCell(at);
    return { column: number, firstRow: row, values: [value] };
  };
  return [
    column(
      STORED.leastCost,
      BATTERY_RESULTS.first,
      tariffs.map((stored) => stored.leastCostPounds),
    ),
    column(
      STORED.fingerprint,
      BATTERY_RESULTS.first,
      tariffs.map((stored) => stored.fingerprint),
    ),
    column(
      STORED.computedAt,
      BATTERY_RESULTS.first,
      tariffs.map((stored) => stored.computedAt),
    ),
    single(fingerprint, sizing.fingerprint),
    single(computedAt, sizing.computedAt),
    column(
      SIZING.ruleCost,
      first,
      sizing.rows.map((row) => row.ruleCostPounds),
    ),
    column(
      SIZING.leastCost,
      first,
      sizing.rows.map((row) => row.leastCostPounds),
    ),
    column(
      SIZING.cycles,
      first,
      sizing.rows.map((row) => row.cyclesPerYear),
    ),
  ];
}
