import { LOOK_UP_MARGIN_DAYS } from '../../../time/serial.js';
import type { Book } from '../book.js';
import { ref } from '../references.js';

const MARGIN = `1/${Math.round(1 / LOOK_UP_MARGIN_DAYS)}`;

/**
 * What the heat pump took by the readings from one midnight on, before another, whatever their order, as a formula.
 *
 * @param book where the readings stand
 * @param from reference to the first day
 * @param before reference to the day after the last
 * @param also a further range and its criterion, if there is one
 */
export function heatPumpOfReadings({ workings }: Book, from: string, before: string, also?: string): string {
  const { start, channels } = workings.readings;
  const times = ref(start);
  const criteria = `${times},">="&${from}-${MARGIN},${times},"<"&${before}-${MARGIN}`;
  return `SUMIFS(${ref(channels.heatPumpKwh)},${criteria}${also === undefined ? '' : `,${also}`})`;
}
