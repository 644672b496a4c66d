import type { RatePeriod } from './tariff.js';

/**
 * Which set of rates holds on a day.
 *
 * @param ratePeriods at least one, ascending by date
 * @param localSerial local time or day, spreadsheet serial
 * @returns place in `ratePeriods` of the last one valid by then; the first counts from the beginning
 * @example ratePeriodIndexAt([{ validFromSerial: 0 }, { validFromSerial: 46113 }], 46112.99) // 0
 */
export function ratePeriodIndexAt(
  ratePeriods: readonly Pick<RatePeriod, 'validFromSerial'>[],
  localSerial: number,
): number {
  return ratePeriods.findLastIndex(
    ({ validFromSerial }, index) => index === 0 || !(validFromSerial > localSerial),
  );
}
