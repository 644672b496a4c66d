import type { Node } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { f, joined } from '../book/terms.js';
import { columnLetters } from '../cell-address.js';
import { TARIFF_FIELDS } from '../fields/tariff-fields.js';
import { FIRST_TARIFF_COLUMN } from '../fields/tariff-places.js';
import { TARIFF_RULES } from '../fields/tariff-rules.js';
import { TARIFF_COUNT } from '../layout.js';
import type { Book } from './book.js';
import { formula, label } from './cells.js';
import { tariffOf } from './period-line.js';
import type { Cell } from './sheet-model.js';
import { ratePeriodRows, TARIFF_ROW as T, windowRows } from './tariff-rows.js';

/** Column letters of a tariff's flags: right of all tariffs, one column of air between. */
export function flagLetters(tariff: number): string {
  return columnLetters(FIRST_TARIFF_COLUMN + TARIFF_COUNT + 1 + tariff);
}

const windows = Array.from({ length: MAX_WINDOWS }, (_, k) => windowRows(k));
const periods = Array.from({ length: MAX_RATE_PERIODS }, (_, p) => ratePeriodRows(p));

/** How often the input in the same row and in the tariff's column can't be used, by row. */
function flagFormulas(book: Book, tariff: number): Map<number, Node> {
  const broken = new Map<number, Node[]>();
  const add = (row: number, is: Node): void => {
    broken.set(row, [...(broken.get(row) ?? []), is]);
  };
  for (const { at, is } of TARIFF_RULES[tariff] ?? []) add(at.row, is);
  const fields = TARIFF_FIELDS[tariff];
  tariffOf(book, tariff).rates.unreadableDays.forEach((unreadable, k) => {
    const window = fields?.windows[k];
    if (fields === undefined || window === undefined) return;
    // Days beside no times are of no window.
    const isUsed = f`COUNTA(${window.from.cell},${window.to.cell})>0`;
    add(window.days.cell.place.row, f`IF(AND(${fields.name.cell}<>"",${isUsed}),${unreadable},0)`);
  });
  return new Map([...broken].sort(([a], [b]) => a - b).map(([row, parts]) => [row, joined('+', parts)]));
}

/** The flags of every tariff's inputs. */
export function flagCells(book: Book): Cell[] {
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
  return [
    label(
      `${flagLetters(0)}${T.todays}`,
      'Flags: above 0 where the input of that tariff in the same row can’t be used.',
      'hint',
    ),
    ...tariffs.flatMap((t) => [
      label(`${flagLetters(t)}${T.name - 1}`, t + 1, 'header'),
      ...[...flagFormulas(book, t)].map(([row, text]) => formula(`${flagLetters(t)}${row}`, text, 'integer')),
    ]),
  ];
}

/** Rows of the flags by what they are about. */
export const FLAG_ROWS = {
  name: [T.name],
  choices: [T.clock, T.includesVat, T.halfHourlyPriced, T.priceIncludesVat],
  exitFee: [T.exitFee],
  windowTimes: windows.flatMap(({ from, to }) => [from, to]),
  windowDays: windows.map(({ days }) => days),
  dates: periods.slice(1).map(({ validFrom }) => validFrom),
  standing: periods.map(({ standing }) => standing),
  base: periods.map(({ base }) => base),
  windowRates: periods.flatMap(({ windowRates }) => windowRates),
  exportRate: periods.map(({ exportRate }) => exportRate),
} as const;
