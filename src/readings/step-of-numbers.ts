import { InputError } from '../errors.js';
import type { Draft } from './draft.js';
import { headerWords } from './match-channels.js';
import type { TablePlace } from './place-text.js';
import { MIN_SLOTS, stepOfCount } from './step-of-count.js';

const MINUTE_MS = 60_000;
const USUAL_MINUTES = 30;
/** Hours of the longest day. */
const MOST_HOURS = 25;
/** Half-hours of the longest day. */
const MOST_HALF_HOURS = 50;
/** Lines that may be slips, as a part of all. */
const FEW = 0.01;
const HALF_HOUR = /\b(half ?hours?|half ?hourly|hh)\b/;

/**
 * Length of the intervals of a file that numbers them in each day: half-hours where the header says so, else from the highest
 * number, over all files of the same export. The shortest length that one of them shows holds, as a file with lower numbers is merely
 * cut. Hours have to be shown by several days of 23 to 25, since half-hours cut at noon go up to 24 as well. Numbers that show nothing
 * and are no hours of a whole day are half-hours, said as assumed. A highest number that stands nearly alone may be a slip and shows
 * none.
 *
 * @param siblings the files of one export, which all have a column of such numbers
 * @returns the length in ms, and what to say where a length other than half-hours was taken, or half-hours were assumed
 * @throws InputError where the numbers could be of more than one length
 * @example stepOfNumbers([draft]).stepMs // 3_600_000, where they run from 1 to 24 on several days
 */
export function stepOfNumbers<C extends string>(
  siblings: readonly Draft<C>[],
): { stepMs: number; assumption?: string } {
  const { columns, stamps } = siblings[0]!;
  const usual = { stepMs: USUAL_MINUTES * MINUTE_MS };
  if (HALF_HOUR.test(headerWords(columns.header[stamps.period!]!))) return usual;
  const name = columns.header[stamps.period!] || `column ${stamps.period! + 1}`;
  const highest = siblings.map(highestNumber).reduce((a, b) => (b.number > a.number ? b : a));
  const shown = siblings.map(shownStep).filter((step) => step !== undefined);
  if (shown.length > 0 || showHours(siblings, highest.number)) {
    const minutes = shown.length > 0 ? Math.min(...shown) : 60;
    if (minutes === USUAL_MINUTES) return usual;
    return {
      stepMs: minutes * MINUTE_MS,
      assumption: `the interval is ${minutes} minutes, as "${name}" goes up to ${highest.number} (--interval says otherwise)`,
    };
  }
  if (!siblings.every(mayBeHalfHours)) {
    throw new InputError(
      `${highest.number} is the highest number in "${name}", which does not show how long an interval is`,
      'Say it in minutes: --interval 30 where a day has 48, 60 where it has 24, 15 where it has 96.',
      { file: highest.file, line: highest.line },
    );
  }
  return {
    ...usual,
    assumption: `the interval is 30 minutes, as the numbers in "${name}", up to ${highest.number}, do not show it (--interval says otherwise)`,
  };
}

/** Minutes, half an hour at most, where some day has more than half of the numbers up to the highest. */
function shownStep<C extends string>(draft: Draft<C>): number | undefined {
  const highest = highestNumber(draft).number;
  if (highest <= MOST_HOURS) return undefined;
  const isFull = [...numbersByDay([draft]).values()].some((numbers) => numbers.size > highest / 2);
  return isFull ? stepOfCount(highest) : undefined;
}

/** Whether several days have the numbers of as many hours, and no day more. */
function showHours<C extends string>(siblings: readonly Draft<C>[], highest: number): boolean {
  if (highest < MIN_SLOTS || highest > MOST_HOURS) return false;
  return [...numbersByDay(siblings).values()].filter((numbers) => numbers.size >= MIN_SLOTS).length > 1;
}

/** Whether the numbers of a file, none of which shows a length, are what half-hours that were left out or cut leave. */
function mayBeHalfHours<C extends string>(draft: Draft<C>): boolean {
  const all = numbersOf(draft);
  const highest = highestNumber(draft).number;
  // The same number in each line counts no intervals.
  if (highest > MOST_HALF_HOURS || (all.length > 1 && new Set(all).size === 1)) return false;
  if (highest < MIN_SLOTS) return true;
  if (highest <= MOST_HOURS) return false;
  const beyondHours = all.filter((number) => number > MOST_HOURS).length;
  const restHighest = Math.max(0, ...new Set(all.filter((number) => number <= MOST_HOURS)));
  return restHighest < MIN_SLOTS || (beyondHours > 1 && beyondHours > FEW * all.length);
}

function numbersOf<C extends string>({ table, columns, stamps }: Draft<C>): number[] {
  return columns.rows.map((record) => Number(table.records[record]![stamps.period!]));
}

function numbersByDay<C extends string>(drafts: readonly Draft<C>[]): Map<string, Set<number>> {
  const byDay = new Map<string, Set<number>>();
  for (const draft of drafts) {
    const { table, columns, stamps } = draft;
    const numbers = numbersOf(draft);
    columns.rows.forEach((record, i) => {
      const day = table.records[record]![stamps.date] ?? '';
      const ofDay = byDay.get(day) ?? new Set();
      byDay.set(day, ofDay.add(numbers[i]!));
    });
  }
  return byDay;
}

function highestNumber<C extends string>(
  draft: Draft<C>,
): { number: number; file: string; line: TablePlace } {
  const { table, columns } = draft;
  let number = 0;
  let record = columns.rows[0]!;
  numbersOf(draft).forEach((one, i) => {
    if (!(one > number)) return;
    number = one;
    record = columns.rows[i]!;
  });
  return { number, file: table.file, line: table.lineOf(record, draft.stamps.period) };
}
