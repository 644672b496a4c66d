import type { Column } from '../book/terms.js';
import { BLOCK_ROWS, FIRST_ROW, partLetters, SEED_ROW } from '../layout.js';
import { SLOTS_A_DAY } from '../sheets/average-days.js';
import { WHERE_METERED } from '../sheets/readings.js';
import type { Book } from './book.js';
import { formula, label } from './cells.js';
import { periodRef } from './period-line.js';
import { ref } from './references.js';
import type { Cell, FormulaColumn } from './sheet-model.js';

/** Months that the maps show: the last so many of the chosen period. */
export const MAP_MONTHS = 12;
/** Three months each, so that they hold on both halves of the globe. */
export const SEASONS = ['Dec–Feb', 'Mar–May', 'Jun–Aug', 'Sep–Nov'] as const;

/** Letters of the average day's times: no rate changes them, so that no average is worked out anew with one. */
const TIMES = partLetters('profile', 1);
/** Letters of the averages: right of what the battery asks of the average day. */
export const WHEN_LABELS = partLetters('profile', 17);
const [FIRST_IMPORT, FIRST_EXPORT] = [18, 31];
const FIRST_SEASON = FIRST_EXPORT + MAP_MONTHS + 1;
const FIRST_COUNTED = FIRST_SEASON + SEASONS.length;
/** Rows of the lines above the columns, month by month. */
const LINE = { weight: 1, month: 2, first: 3, last: 4, season: SEED_ROW } as const;
/** Row of one more, below the columns. */
const CHANGE_DAY_ROW = FIRST_ROW + SLOTS_A_DAY + 1;

/** Letters of a month's averages, by its place from 0; of a season's. */
export const WHEN_LETTERS = {
  import: (month: number): string => partLetters('profile', FIRST_IMPORT + month),
  export: (month: number): string => partLetters('profile', FIRST_EXPORT + month),
  season: (season: number): string => partLetters('profile', FIRST_SEASON + season),
  counted: (month: number): string => partLetters('profile', FIRST_COUNTED + month),
} as const;
/** Row of a month's number among the months of the workbook, 0 where there is none; of its half-hours metered. */
export const WHEN_LINE_ROWS = { month: LINE.month, weight: LINE.weight } as const;

const months = Array.from({ length: MAP_MONTHS }, (_, month) => month);
const acrossMonths = (row: number, fixedRow = true): string => {
  const at = (month: number): string => `$${WHEN_LETTERS.import(month)}${fixedRow ? '$' : ''}${row}`;
  return `${at(0)}:${at(MAP_MONTHS - 1)}`;
};

/** Which months the averages are of, and where their half-hours stand. */
export function whenLineCells(book: Book): Cell[] {
  const { months: ofMonths, calendar, days } = book.workings;
  const selected = periodRef(book, ofMonths.selected);
  const firstMonth = `IFERROR(MATCH(1,${ref(ofMonths.selected)},0),0)`;
  const changesOf = (month: string): string => `${ref(calendar.month)},${month},${ref(calendar.change)},">0"`;
  const shown = `MIN(${MAP_MONTHS},${selected})`;
  return [
    label(`${WHEN_LABELS}${LINE.weight}`, 'Half-hours metered, clock changes left out', 'label'),
    label(`${WHEN_LABELS}${LINE.month}`, 'Row of Months, 0: none', 'label'),
    label(`${WHEN_LABELS}${LINE.first}`, 'First half-hour, row of Grid', 'label'),
    label(`${WHEN_LABELS}${LINE.last}`, 'Last half-hour, row of Grid', 'label'),
    label(`${WHEN_LABELS}${LINE.season}`, 'Season from 0, Dec–Feb', 'label'),
    label(`${WHEN_LABELS}${CHANGE_DAY_ROW}`, 'Clock changes on, row of Days, 0: none', 'label'),
    ...months.flatMap((month) => {
      const letters = WHEN_LETTERS.import(month);
      const at = (row: number): string => `${letters}$${row}`;
      const cell = (row: number, is: string): Cell => formula(`${letters}${row}`, is, 'integer');
      return [
        cell(
          LINE.month,
          `IF(${month}>=${shown},0,${firstMonth}+${selected}-${shown}${month === 0 ? '' : `+${month}`})`,
        ),
        cell(
          LINE.weight,
          `IF(${at(LINE.month)}=0,0,SUM(INDEX(${ref(ofMonths.metered)},MAX(1,${at(LINE.month)})))-IF(${at(CHANGE_DAY_ROW)}=0,0,SUM(INDEX(${ref(days.metered)},MAX(1,${at(CHANGE_DAY_ROW)})))))`,
        ),
        // Where the clock changes twice in a calendar month (Cairo in September 2010), no day is left out.
        cell(
          CHANGE_DAY_ROW,
          `IF(${at(LINE.month)}=0,0,IF(COUNTIFS(${changesOf(at(LINE.month))})=1,SUMIFS(${ref(calendar.number)},${changesOf(at(LINE.month))}),0))`,
        ),
        cell(
          LINE.first,
          `IF(${at(LINE.month)}=0,0,IFERROR((MATCH(${at(LINE.month)},${ref(calendar.month)},0)-1)*${BLOCK_ROWS}+1,0))`,
        ),
        cell(
          LINE.last,
          `IF(${at(LINE.first)}=0,0,${at(LINE.first)}-1+${BLOCK_ROWS}*INDEX(${ref(ofMonths.days)},${at(LINE.month)}))`,
        ),
        cell(
          LINE.season,
          `IF(${at(LINE.month)}=0,"",INT(MOD(MONTH(INDEX(${ref(ofMonths.start)},${at(LINE.month)})),12)/3))`,
        ),
      ];
    }),
  ];
}

/**
 * The average day of each month, half-hour by half-hour, and of each season; as metered. Half-hours count from midnight: days
 * on which the clock changes are left out, whose half-hours after the change are others by the clock.
 */
export function whenColumns(book: Book): FormulaColumn[] {
  const { halfHours } = book.workings;
  type Text = Pick<FormulaColumn, 'label' | 'description'>;
  const column = (letters: string, text: Text, formulaOf: (row: number) => string): FormulaColumn => ({
    letters,
    firstRow: FIRST_ROW,
    rows: SLOTS_A_DAY,
    ...text,
    unit: 'kWh',
    style: 'kwhFine',
    formula: formulaOf,
  });
  const slice = (month: number, of: Column): string => {
    const lines = WHEN_LETTERS.import(month);
    return `INDEX(${ref(of)},${lines}$${LINE.first}):INDEX(${ref(of)},${lines}$${LINE.last})`;
  };
  const atSlot = (month: number, r: number): string =>
    `${slice(month, halfHours.halfHour)},ROW($${TIMES}${r})-${FIRST_ROW},${slice(month, halfHours.day)},"<>"&${WHEN_LETTERS.import(month)}$${CHANGE_DAY_ROW}`;
  const counted = (month: number): FormulaColumn => ({
    ...column(
      WHEN_LETTERS.counted(month),
      {
        label: `Days metered, month ${month + 1}`,
        description: 'On which the half-hour was metered and the clock did not change',
      },
      (r) =>
        `IF(${WHEN_LETTERS.import(month)}$${LINE.first}=0,0,COUNTIFS(${atSlot(month, r)},${slice(month, halfHours.usedKwh)},"${WHERE_METERED}"))`,
    ),
    unit: 'count',
    style: 'integer',
  });
  const ofMonth = (letters: string, month: number, what: string, of: Column): FormulaColumn =>
    column(
      letters,
      {
        label: `${what}, month ${month + 1}`,
        description:
          'Average of the half-hour over the days of the month on which it was metered and the clock did not change',
      },
      (r) => {
        const days = `$${WHEN_LETTERS.counted(month)}${r}`;
        return `IF(${days}=0,"",SUMIFS(${slice(month, of)},${atSlot(month, r)})/${days})`;
      },
    );
  return [
    ...months.map(counted),
    ...months.map((month) =>
      ofMonth(WHEN_LETTERS.import(month), month, 'Import', halfHours.meteredImportKwh),
    ),
    ...months.map((month) =>
      ofMonth(WHEN_LETTERS.export(month), month, 'Export', halfHours.meteredExportKwh),
    ),
    ...SEASONS.map((name, season) => {
      const letters = WHEN_LETTERS.season(season);
      return column(
        letters,
        {
          label: `Import, ${name}`,
          description: 'Its months, weighed by their half-hours metered; no point where there are none',
        },
        (r) => {
          const hours = acrossMonths(r, false);
          const ofSeason = `(${acrossMonths(LINE.season)}=${season})*${acrossMonths(LINE.weight)}`;
          const weight = `SUMPRODUCT(${ofSeason},1*(${hours}<>""))`;
          return `IF(${weight}=0,NA(),SUMPRODUCT(${ofSeason},${hours})/${weight})`;
        },
      );
    }),
  ];
}
