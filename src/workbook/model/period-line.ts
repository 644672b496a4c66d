import type { Column, Line } from '../book/terms.js';
import type { Book } from './book.js';
import { ref } from './references.js';

/** The sum of a column of months over the chosen period. */
export function periodLine({ workings }: Book, column: Column): Line {
  const line = workings.months.period.get(column);
  if (line === undefined) throw new RangeError(`"${column.text.label}" has no sum over the period`);
  return line;
}

/** How that sum reads in a formula. */
export function periodRef(book: Book, column: Column): string {
  return ref(periodLine(book, column));
}

/** Lines of a tariff, from 0. */
export function tariffOf({ workings }: Book, tariff: number): Book['workings']['tariffs'][number] {
  const lines = workings.tariffs[tariff];
  if (lines === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  return lines;
}
