/** Half-hours that lack the readings of a battery which ran in them. */
export interface WithoutChannels {
  /** How many. */
  halfHours: number;
  /** Start of the earliest, spreadsheet serial of local time. */
  firstSerial: number;
}

/**
 * Counts the half-hours since a battery's first reading that have import and lack what it took or gave: their import
 * already holds its shifting, so that a total without it is off.
 *
 * Before its first reading it may not have been there yet; a battery without any reading is told elsewhere.
 * Source of the method: the workbook's own rule that a blank battery channel moves nothing.
 *
 * @param startSerial local starts of half-hours, spreadsheet serials in any order; NaN where there is none
 * @param importKwh import of each half-hour, kWh; NaN where there is none
 * @param batteryInKwh what the battery took in each, kWh; NaN where there is no reading
 * @param batteryOutKwh what it gave in each, kWh; NaN where there is no reading
 * @returns how many, and the first; undefined where there is none
 * @example
 * halfHoursWithoutChannels([46296, 46296.0208], [0.4, 0.5], [0, NaN], [0, NaN]); // { halfHours: 1, firstSerial: 46296.0208 }
 */
export function halfHoursWithoutChannels(
  startSerial: ArrayLike<number>,
  importKwh: ArrayLike<number>,
  batteryInKwh: ArrayLike<number>,
  batteryOutKwh: ArrayLike<number>,
): WithoutChannels | undefined {
  const at = (values: ArrayLike<number>, i: number): number => values[i] ?? Number.NaN;
  let firstReading = Number.POSITIVE_INFINITY;
  for (let i = 0; i < startSerial.length; i++) {
    const isRead = !Number.isNaN(at(batteryInKwh, i)) || !Number.isNaN(at(batteryOutKwh, i));
    if (isRead && at(startSerial, i) < firstReading) firstReading = at(startSerial, i);
  }
  let halfHours = 0;
  let firstSerial = Number.POSITIVE_INFINITY;
  for (let i = 0; i < startSerial.length; i++) {
    const start = at(startSerial, i);
    if (!(start >= firstReading) || Number.isNaN(at(importKwh, i))) continue;
    if (!Number.isNaN(at(batteryInKwh, i)) && !Number.isNaN(at(batteryOutKwh, i))) continue;
    halfHours++;
    if (start < firstSerial) firstSerial = start;
  }
  return halfHours === 0 ? undefined : { halfHours, firstSerial };
}
