import { InputError } from '../errors.js';
import type { Draft } from './draft.js';
import { headerWords } from './match-channels.js';
import type { Stamps } from './read-stamps.js';
import type { Vocabulary } from './vocabulary.js';

const MINUTE_MS = 60_000;
/** Longer than any car charges: what lasts longer is a period of a bill. */
const LONGEST_MS = 72 * 60 * MINUTE_MS;
const INTERVALS = new Set([5, 10, 15, 30, 60].map((minutes) => minutes * MINUTE_MS));
const CHARGING = /\b(sessions?|charge|charges|charging|charger|plugged|ev|evse|car|vehicle)\b/;

/**
 * Whether a file lists sessions, each with its own start, end and energy, rather than intervals of one length. A list of a charger says
 * so in its headers, a title, or its name; where nothing says whose sessions they are, that is asked.
 *
 * @param draft the file
 * @param stamps its stamps
 * @param vocabulary channels of the reader: only electricity comes in sessions
 * @returns true for a list of sessions; its one assumed channel then is the car's
 * @throws InputError where the lines are like sessions, and nothing says of what
 * @example settleSessions(draft, stamps, electricityVocabulary) // true for 22:10 to 02:40, 18.2 kWh
 */
export function settleSessions<C extends string>(
  draft: Draft<C>,
  stamps: Stamps,
  vocabulary: Vocabulary<C>,
): boolean {
  const car = vocabulary.channels.find((channel) => channel === ('carKwh' as string));
  if (car === undefined || !looksLikeSessions(draft, stamps)) return false;
  const { values, table, columns } = draft;
  if (!values.channelAssumed) return true;
  const [first] = values.values;
  if (first!.channel === car) return true;
  const { date, time, endDate, endTime } = draft.stamps;
  const headers = [date, time, endDate, endTime].map((i) => (i === undefined ? '' : columns.header[i]!));
  const titles = columns.above.map((r) => table.records[r]!.join(' '));
  const name = table.file
    .split(/[\\/]/)
    .at(-1)!
    .replace(/\.[^.]*$/, '');
  const column = columns.header[first!.column] || `column ${first!.column + 1}`;
  if (values.values.length === 1 && CHARGING.test(headerWords([...headers, ...titles, name].join(' ')))) {
    const about = values.assumptions.findIndex((text) => text.includes(` ${first!.channel}`));
    values.assumptions.splice(
      about,
      1,
      `"${column}" is ${car}, as the file lists sessions of charging (--default-channel says otherwise)`,
    );
    first!.channel = car;
    return true;
  }
  throw new InputError(
    `the lines last from ${lengthsText(stamps)}, like sessions of a charger, and nothing says of what`,
    `Say it: --default-channel ${car} spreads each evenly over its half-hours. If they are intervals of one length, say that: --interval 30.`,
    { file: table.file, line: table.lineOf(columns.rows[0]!) },
  );
}

/** Most lines last as long as no other, or all as long as no interval does; none touches the next, as periods of a bill do. */
function looksLikeSessions<C extends string>(draft: Draft<C>, { ms, endMs }: Stamps): boolean {
  const { options, values, slots, stamps } = draft;
  if (endMs === undefined || slots !== undefined || stamps.period !== undefined) return false;
  // Beside a time of the start, an end without one says no length.
  if (stamps.time !== undefined && stamps.endTime === undefined) return false;
  if (options.intervalMinutes !== undefined || values.channelColumn !== undefined) return false;
  if (!values.values.every(({ unit, register }) => unit.quantity === 'energy' && register !== true))
    return false;
  const counts = new Map<number, number>();
  for (let i = 0; i < ms.length; i++) {
    const length = endMs[i]! - ms[i]!;
    if (length > LONGEST_MS) return false;
    counts.set(length, (counts.get(length) ?? 0) + 1);
  }
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  const usual = most!;
  if (usual[1] * 2 > ms.length && INTERVALS.has(usual[0])) return false;
  const starts = new Set(ms);
  const touching = endMs.filter((end) => starts.has(end)).length;
  return touching * 2 < ms.length;
}

/**
 * The shortest and the longest session of a file.
 *
 * @param stamps starts and ends
 * @returns `100 to 270 minutes`
 * @example lengthsText(stamps)
 */
export function lengthsText({ ms, endMs }: Stamps): string {
  let shortest = Number.POSITIVE_INFINITY;
  let longest = 0;
  for (let i = 0; i < ms.length; i++) {
    const length = endMs![i]! - ms[i]!;
    shortest = Math.min(shortest, length);
    longest = Math.max(longest, length);
  }
  const minutes = (length: number): string => String(Math.round(length / MINUTE_MS));
  return shortest === longest
    ? `${minutes(longest)} minutes`
    : `${minutes(shortest)} to ${minutes(longest)} minutes`;
}
