import { halfHoursWithoutReadings } from '../readings/without-readings.js';
import { LOOK_UP_MARGIN_DAYS, serialToIsoDate } from '../time/serial.js';
import { whatGapsMean } from '../workbook/model/channel-checks.js';
import type { WorkbookValues } from '../workbook/workbook-values.js';
import { importWithout } from './count-words.js';
import { wrapped } from './format-comparison.js';

/**
 * Says of each channel whose gaps count as nothing how many half-hours lack its reading, as *Checks* counts them.
 *
 * @param values the workbook, filled
 * @returns lines for a terminal, those of a channel ending with an empty one; none where nothing is missing
 */
export function formatGaps({ inputs, book }: Pick<WorkbookValues, 'inputs' | 'book'>): string[] {
  const { startSerial, values } = inputs.readings;
  return book.workings.channelReadings.flatMap(({ channel, column }) => {
    const { since } = halfHoursWithoutReadings(startSerial, values.importKwh, [values[channel]], 'day after');
    if (since === undefined) return [];
    const { halfHours, firstSerial } = since;
    return [
      ...wrapped(
        `${column.text.label}: ${importWithout(halfHours)} its reading, the first on ${dayOf(firstSerial)}. ${whatGapsMean(channel)}`,
      ),
      '',
    ];
  });
}

/** The day of a half-hour: a midnight may be a hair less than a whole number. */
export function dayOf(serial: number): string {
  return serialToIsoDate(serial + LOOK_UP_MARGIN_DAYS);
}
