import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { columnLetters } from '../cell-address.js';
import { TARIFF_COUNT } from '../layout.js';
import type { Book } from './book.js';
import { formula, label } from './cells.js';
import { tariffOf } from './period-line.js';
import { ref } from './references.js';
import type { Cell } from './sheet-model.js';
import {
  FIRST_TARIFF_COLUMN,
  ratePeriodRows,
  TARIFF_ROW as T,
  tariffLetters,
  windowRows,
} from './tariff-rows.js';

/** Column letters of a tariff's flags: right of all tariffs, one column of air between. */
export function flagLetters(tariff: number): string {
  return columnLetters(FIRST_TARIFF_COLUMN + TARIFF_COUNT + 1 + tariff);
}

const windows = Array.from({ length: MAX_WINDOWS }, (_, k) => windowRows(k));
const periods = Array.from({ length: MAX_RATE_PERIODS }, (_, p) => ratePeriodRows(p));
const SECONDS_A_DAY = 86_400;
const SECONDS_A_HALF_HOUR = 1800;

/** 1 where the input in the same row and in the tariff's column can't be used, as formulas by row. */
function flagFormulas(book: Book, tariff: number): Map<number, string> {
  const at = (row: number): string => `$${tariffLetters(tariff)}$${row}`;
  const name = at(T.name);
  const flags = new Map<number, string>();
  const flag = (row: number, text: string): void => {
    flags.set(row, `IF(${name}="",0,${text})`);
  };
  const wellIf = (text: string): string => `IF(${text},0,1)`;
  const oneOf = (row: number, choices: readonly string[]): void =>
    flag(row, wellIf(`OR(${choices.map((choice) => `${at(row)}="${choice}"`).join(',')})`));
  /** Seconds after midnight, as the library counts them. */
  const seconds = (cell: string): string => `ROUND(${cell}*${SECONDS_A_DAY},0)`;

  flags.set(T.name, nameFlag(tariff, at));
  oneOf(T.clock, ['local', 'UTC']);
  oneOf(T.includesVat, ['yes', 'no']);
  oneOf(T.halfHourlyPriced, ['yes', 'no']);
  const fee = at(T.exitFee);
  flag(T.exitFee, `IF(ISBLANK(${fee}),0,IF(ISNUMBER(${fee}),${wellIf(`${fee}>=0`)},1))`);
  windows.forEach((rows, k) => {
    const [from, to] = [at(rows.from), at(rows.to)];
    const time = (cell: string, other: string, limits: string): string =>
      `IF(ISBLANK(${cell}),IF(ISBLANK(${other}),0,1),IF(ISNUMBER(${cell}),${wellIf(`AND(${limits},MOD(${seconds(cell)},${SECONDS_A_HALF_HOUR})=0)`)},1))`;
    flag(rows.from, time(from, to, `${from}>=0,${seconds(from)}<${SECONDS_A_DAY}`));
    flag(rows.to, time(to, from, `${to}>=0,${seconds(to)}<=${SECONDS_A_DAY},${to}<>SUM(${from})`));
    const unreadable = tariffOf(book, tariff).rates.unreadableDays[k];
    if (unreadable !== undefined) flag(rows.days, ref(unreadable));
  });
  periods.forEach((rows, p) => {
    const [date, rates] = [at(rows.validFrom), `${at(rows.standing)}:${at(rows.exportRate)}`];
    // A later set of rates counts where it has a date.
    const whereDated = (text: string): string => (p === 0 ? text : `IF(ISBLANK(${date}),0,${text})`);
    const number = (row: number): string => wellIf(`ISNUMBER(${at(row)})`);
    if (p > 0) {
      const before = at(periods[p - 1]?.validFrom ?? 0);
      const follows = p === 1 ? `${date}>0` : `${date}>SUM(${before}),ISNUMBER(${before})`;
      flag(
        rows.validFrom,
        `IF(ISBLANK(${date}),IF(COUNTA(${rates})>0,1,0),IF(ISNUMBER(${date}),${wellIf(`AND(${date}=INT(${date}),${follows})`)},1))`,
      );
    }
    flag(rows.standing, whereDated(number(rows.standing)));
    flag(rows.base, whereDated(number(rows.base)));
    rows.windowRates.forEach((row, k) => {
      const window = windows[k];
      if (window === undefined) return;
      const isUnused = `AND(ISBLANK(${at(window.from)}),ISBLANK(${at(window.to)}))`;
      flag(row, whereDated(`IF(${isUnused},${wellIf(`ISBLANK(${at(row)})`)},${number(row)})`));
    });
    const exported = at(rows.exportRate);
    flag(rows.exportRate, whereDated(wellIf(`OR(ISBLANK(${exported}),ISNUMBER(${exported}))`)));
  });
  return flags;
}

/** A name of its own, without the characters that look-ups take for others; none only where nothing is typed. */
function nameFlag(tariff: number, at: (row: number) => string): string {
  const name = at(T.name);
  const typed = [
    at(T.exitFee),
    `${at(T.firstWindow)}:${at(windowRows(MAX_WINDOWS - 1).days)}`,
    ...periods.map((rows, p) => `${at(p === 0 ? rows.standing : rows.validFrom)}:${at(rows.exportRate)}`),
  ].join(',');
  const first = `$${tariffLetters(0)}$${T.name}`;
  const isShared =
    tariff === 0 ? '' : `,SUMPRODUCT((${first}:$${tariffLetters(tariff - 1)}$${T.name}=${name})*1)>0`;
  const bare = ['*', '?', '~'].reduce((text, sign) => `SUBSTITUTE(${text},"${sign}","")`, name);
  return `IF(${name}="",IF(COUNTA(${typed})>0,1,0),IF(OR(LEN(${name})<>LEN(${bare})${isShared}),1,0))`;
}

/** The flags of every tariff's inputs. */
export function flagCells(book: Book): Cell[] {
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
  return [
    label(
      `${flagLetters(0)}${T.todays}`,
      'Flags: 1 where the input of that tariff in the same row can’t be used.',
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
  choices: [T.clock, T.includesVat, T.halfHourlyPriced],
  exitFee: [T.exitFee],
  windowTimes: windows.flatMap(({ from, to }) => [from, to]),
  windowDays: windows.map(({ days }) => days),
  dates: periods.slice(1).map(({ validFrom }) => validFrom),
  standing: periods.map(({ standing }) => standing),
  base: periods.map(({ base }) => base),
  windowRates: periods.flatMap(({ windowRates }) => windowRates),
  exportRate: periods.map(({ exportRate }) => exportRate),
} as const;
