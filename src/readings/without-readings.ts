import { LOOK_UP_MARGIN_DAYS } from '../time/serial.js';

/** Half-hours that lack the readings of some channels. */
export interface WithoutReadings {
  /** How many. */
  halfHours: number;
  /** Start of the earliest, spreadsheet serial of local time. */
  firstSerial: number;
}

/**
 * Counts the half-hours that have import and lack a reading of some channels, such as what a battery took and gave, or the
 * export: what they lack counts as nothing, so that totals may be off.
 *
 * Those before the first reading of any of the channels are counted apart: there may have been nothing to meter. Where one
 * of the channels has no reading at all, that is told elsewhere, and nothing here. Source of the method: the workbook's own
 * rule that a blank reading beside one of import counts as 0 kWh.
 *
 * @param startSerial local starts of half-hours, spreadsheet serials in any order; NaN where there is none
 * @param importKwh import of each half-hour, kWh; NaN where there is none
 * @param channels readings of each half-hour, a series a channel, kWh; NaN where there is none
 * @param countedFrom whether those since the first reading are counted from it on, or from the day after
 * @returns how many, and the first, since the first reading and before; undefined where there is none
 * @example
 * halfHoursWithoutReadings([46296, 46297], [0.4, 0.5], [[0, NaN]]); // { since: { halfHours: 1, firstSerial: 46297 } }
 */
export function halfHoursWithoutReadings(
  startSerial: ArrayLike<number>,
  importKwh: ArrayLike<number>,
  channels: readonly ArrayLike<number>[],
  countedFrom: 'first reading' | 'day after' = 'first reading',
): { since?: WithoutReadings; before?: WithoutReadings } {
  const isRead = (values: ArrayLike<number>, i: number): boolean => !Number.isNaN(values[i] ?? Number.NaN);
  const rows = Array.from(startSerial, (start, row) => ({ start, row })).filter(
    ({ start }) => !Number.isNaN(start),
  );
  const firsts = channels.map((values) =>
    rows.reduce(
      (first, { start, row }) => (isRead(values, row) ? Math.min(first, start) : first),
      Number.POSITIVE_INFINITY,
    ),
  );
  if (firsts.includes(Number.POSITIVE_INFINITY)) return {};
  const first = Math.min(...firsts);
  const from =
    countedFrom === 'first reading'
      ? first
      : Math.floor(first + LOOK_UP_MARGIN_DAYS) + 1 - LOOK_UP_MARGIN_DAYS;
  const lacking = rows.filter(
    ({ row }) => isRead(importKwh, row) && !channels.every((values) => isRead(values, row)),
  );
  const told = (of: typeof rows): WithoutReadings => ({
    halfHours: of.length,
    firstSerial: of.reduce((earliest, { start }) => Math.min(earliest, start), Number.POSITIVE_INFINITY),
  });
  const [since, before] = [
    lacking.filter(({ start }) => start >= from),
    lacking.filter(({ start }) => start < first),
  ];
  return {
    ...(since.length === 0 ? {} : { since: told(since) }),
    ...(before.length === 0 ? {} : { before: told(before) }),
  };
}
