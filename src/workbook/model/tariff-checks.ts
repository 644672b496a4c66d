import { all } from '../book/terms.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import type { Book } from './book.js';
import type { Check } from './checks.js';
import { tariffOf } from './period-line.js';
import { ref } from './references.js';
import { FLAG_ROWS, flagLetters } from './tariff-flags.js';
import { TARIFF_ROW as T, tariffLetters } from './tariff-rows.js';

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);

/** Sums the flags of a tariff in some rows: neighbours as one range. */
function flagSum(tariff: number, rows: readonly number[]): string {
  const letters = `$${flagLetters(tariff)}$`;
  const stretches: { first: number; last: number }[] = [];
  for (const row of rows) {
    const stretch = stretches.at(-1);
    if (stretch !== undefined && stretch.last + 1 === row) stretch.last = row;
    else stretches.push({ first: row, last: row });
  }
  const ranges = stretches.map(
    ({ first, last }) => `${letters}${first}${first === last ? '' : `:${letters}${last}`}`,
  );
  return `SUM(${ranges.map((range) => `${SHEETS.tariffs}!${range}`).join(',')})`;
}

/** Checks of each tariff, one count a tariff; a column without a name has no faults but the missing name. */
export function tariffChecks(book: Book): Check[] {
  const flagged = (name: string, rows: readonly number[], advice: string): Check => ({
    name,
    formula: tariffs.map((t) => flagSum(t, rows)),
    advice,
    kind: 'fault',
  });
  const cell = (tariff: number, row: number): string => `${SHEETS.tariffs}!$${tariffLetters(tariff)}$${row}`;
  const { channels } = book.workings.readings;
  const withoutPrice = ref(all(channels.pricePence));
  const imported = ref(all(channels.importKwh));
  return [
    flagged(
      'Tariffs without a name of their own',
      FLAG_ROWS.name,
      'Names differ, and hold no *, ? or ~; a column with rates or windows has one. Else clear the column.',
    ),
    flagged(
      'Choices of a tariff that are none',
      FLAG_ROWS.choices,
      'The clock of the windows is local or UTC; the other two are yes or no.',
    ),
    flagged(
      'Standing charges that are missing or no numbers',
      FLAG_ROWS.standing,
      'Until it is typed, that tariff has no total. Type 0 where there is none.',
    ),
    flagged(
      'Base rates that are missing or no numbers',
      FLAG_ROWS.base,
      'Type the rate; 0 where a half-hourly price is all there is. A change gives all its rates anew.',
    ),
    flagged(
      'Windows that are not two times on the half-hour',
      FLAG_ROWS.windowTimes,
      'A window has a start and an end, both on the half-hour, 00:00 to 24:00.',
    ),
    flagged(
      'Rates of windows that are missing, no numbers, or of no window',
      FLAG_ROWS.windowRates,
      'Type a rate for every window in every set of rates; clear the rates of windows without times.',
    ),
    flagged(
      'Export rates that are no numbers',
      FLAG_ROWS.exportRate,
      'A rate typed as text counts as 0: type it as a number, or clear it.',
    ),
    flagged(
      'Exit fees that are no amounts',
      FLAG_ROWS.exitFee,
      'Type what leaving costs, once; or clear it.',
    ),
    flagged(
      'Dates of change that are missing, no dates, or out of order',
      FLAG_ROWS.dates,
      'List changes oldest first, without a gap, each with its date; clear the rates of a change without one.',
    ),
    flagged(
      'Windows whose days can’t be read',
      FLAG_ROWS.windowDays,
      'Write Every day, Mon-Fri, Sat-Sun, or list the days: Mon, Wed, Sat.',
    ),
    {
      name: 'Half-hours of the week in two windows of a tariff',
      // A window without two times lies nowhere: that alone is told.
      formula: tariffs.map(
        (t) =>
          `IF(OR(${cell(t, T.name)}="",${flagSum(t, FLAG_ROWS.windowTimes)}>0),0,${ref(tariffOf(book, t).rates.overlap)})`,
      ),
      advice: 'Move one of the windows: they may not overlap.',
      kind: 'fault',
    },
    {
      name: 'Readings without a price, on tariffs that follow one',
      formula: tariffs.map(
        (t) =>
          `IF(OR(${cell(t, T.name)}="",${cell(t, T.halfHourlyPriced)}<>"yes"),0,SUMPRODUCT((${imported}<>"")*(${withoutPrice}="")))`,
      ),
      advice: 'Until the price column is filled, that tariff has no total.',
      kind: 'fault',
    },
  ];
}
