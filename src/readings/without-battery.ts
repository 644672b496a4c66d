/** Half-hours that lack the readings of a battery. */
export interface WithoutReadings {
  /** How many. */
  halfHours: number;
  /** Start of the earliest, spreadsheet serial of local time. */
  firstSerial: number;
}

/**
 * Counts the half-hours that have import and lack what a battery took or gave: their import already holds what it moved, so
 * that a total without it is off.
 *
 * Those before its first reading are counted apart: it may not have been there yet. A channel without any reading is told
 * elsewhere, and nothing here. Source of the method: the workbook's own rule that a blank battery channel moves nothing.
 *
 * @param startSerial local starts of half-hours, spreadsheet serials in any order; NaN where there is none
 * @param importKwh import of each half-hour, kWh; NaN where there is none
 * @param batteryInKwh what the battery took in each, kWh; NaN where there is no reading
 * @param batteryOutKwh what it gave in each, kWh; NaN where there is no reading
 * @returns how many, and the first, since its first reading and before; undefined where there is none
 * @example
 * halfHoursWithoutBattery([46296, 46297], [0.4, 0.5], [0, NaN], [0, NaN]); // { since: { halfHours: 1, firstSerial: 46297 } }
 */
export function halfHoursWithoutBattery(
  startSerial: ArrayLike<number>,
  importKwh: ArrayLike<number>,
  batteryInKwh: ArrayLike<number>,
  batteryOutKwh: ArrayLike<number>,
): { since?: WithoutReadings; before?: WithoutReadings } {
  const isRead = (values: ArrayLike<number>, i: number): boolean => !Number.isNaN(values[i] ?? Number.NaN);
  const rows = Array.from(startSerial, (start, row) => ({ start, row })).filter(
    ({ start }) => !Number.isNaN(start),
  );
  const firstOf = (values: ArrayLike<number>): number =>
    rows.reduce(
      (first, { start, row }) => (isRead(values, row) ? Math.min(first, start) : first),
      Number.POSITIVE_INFINITY,
    );
  const [firstIn, firstOut] = [firstOf(batteryInKwh), firstOf(batteryOutKwh)];
  if (firstIn === Number.POSITIVE_INFINITY || firstOut === Number.POSITIVE_INFINITY) return {};
  const first = Math.min(firstIn, firstOut);
  const lacking = rows.filter(
    ({ row }) => isRead(importKwh, row) && !(isRead(batteryInKwh, row) && isRead(batteryOutKwh, row)),
  );
  const told = (of: typeof rows): WithoutReadings => ({
    halfHours: of.length,
    firstSerial: of.reduce((earliest, { start }) => Math.min(earliest, start), Number.POSITIVE_INFINITY),
  });
  const [since, before] = [
    lacking.filter(({ start }) => start >= first),
    lacking.filter(({ start }) => start < first),
  ];
  return {
    ...(since.length === 0 ? {} : { since: told(since) }),
    ...(before.length === 0 ? {} : { before: told(before) }),
  };
}
