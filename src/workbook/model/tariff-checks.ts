import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { absolute } from '../cell-address.js';
import { daysUnreadable as isUnreadable } from '../evaluate/rate-lines.js';
import { spreadsheetRound } from '../evaluate/spreadsheet-round.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { hasName, numberIn, saysYes, type TariffCells } from '../inputs/workbook-inputs.js';
import { SHEETS } from '../layout.js';
import { HALF_HOUR as H, halfHourColumn, READING as R, readingColumn } from './columns.js';
import type { CellValue } from './sheet-model.js';
import { ratePeriodRows, TARIFF_ROW as T, tariffLetters, windowRows } from './tariff-rows.js';
import { coverCountLetters, LAST_SLOT_ROW, WINDOWS } from './windows-rows.js';
import { daysUnreadable } from './windows-sheet.js';

/** What a check of one tariff looks at. */
interface Subject {
  tariff: TariffCells;
  r: WorkbookResults;
  t: number;
}

/** A self-test of each tariff; the rates sheet has a row for it, the checks sheet the sum of that row. */
export interface TariffCheck {
  name: string;
  /** Formulas whose sum counts what is wrong with a tariff (from 0), without `=`. */
  parts: (t: number) => string[];
  /** The library's count for one tariff. */
  count: (subject: Subject) => number;
  /** What to do when it is not 0. */
  advice: string;
}

/** What a check counts of one tariff, as a formula; a column without a name has no faults. */
export function tariffCheckFormula(check: TariffCheck, t: number): string {
  return `IF(${typed(t, T.name)}="",0,${check.parts(t).join('+')})`;
}

/** What {@link tariffCheckFormula} gives. */
export function tariffCheckCount(check: TariffCheck, r: WorkbookResults, t: number): number {
  const tariff = r.inputs.tariffs[t]!;
  return hasName(tariff.name) ? check.count({ tariff, r, t }) : 0;
}

const windows = Array.from({ length: MAX_WINDOWS }, (_, k) => k);
const periods = Array.from({ length: MAX_RATE_PERIODS }, (_, p) => p);
const typed = (tariff: number, row: number): string => absolute(SHEETS.tariffs, tariffLetters(tariff), row);
const whole = (text: string): string => `IF(${text},1,0)`;
const isBlank = (cell: CellValue): boolean => cell === null;
const isNumber = (cell: CellValue): cell is number => typeof cell === 'number';

/** Whether a number of days is off the half-hour by more than a second or so. */
const offHalfHour = (cell: CellValue): boolean =>
  isNumber(cell) && Math.abs(cell * 48 - spreadsheetRound(cell * 48, 0)) > 0.001;

/** Every check of a tariff. */
export const TARIFF_CHECKS: readonly TariffCheck[] = [
  {
    name: 'Tariffs without a base rate',
    parts: (t) => [whole(`NOT(ISNUMBER(${typed(t, ratePeriodRows(0).base)}))`)],
    count: ({ tariff }) => (isNumber(tariff.periods[0]!.base) ? 0 : 1),
    advice: 'Type the rate; 0 where a half-hourly price is all there is.',
  },
  {
    name: 'Rates that are not numbers',
    parts: (t) =>
      periods.map((p) => {
        const rows = ratePeriodRows(p);
        const block = `${SHEETS.tariffs}!$${tariffLetters(t)}$${p === 0 ? rows.standing : rows.validFrom}:$${tariffLetters(t)}$${rows.exportRate}`;
        return `COUNTA(${block})-COUNT(${block})`;
      }),
    count: ({ tariff }) =>
      tariff.periods.reduce((sum, period, p) => {
        const cells = [period.standing, period.base, ...period.windowRates, period.exportRate];
        if (p > 0) cells.push(period.validFrom);
        return sum + cells.filter((cell) => !isBlank(cell) && !isNumber(cell)).length;
      }, 0),
    advice: 'A rate typed as text counts as 0: type it as a number.',
  },
  {
    name: 'Windows without a rate',
    parts: (t) =>
      periods.flatMap((p) => {
        const rows = ratePeriodRows(p);
        const isOn = p === 0 ? 'TRUE' : `ISNUMBER(${typed(t, rows.validFrom)})`;
        return windows.map((k) =>
          whole(
            `AND(${isOn},ISNUMBER(${typed(t, windowRows(k).from)}),ISBLANK(${typed(t, rows.windowRates[k]!)}))`,
          ),
        );
      }),
    count: ({ tariff }) => {
      let count = 0;
      tariff.periods.forEach((period, p) => {
        if (p > 0 && !isNumber(period.validFrom)) return;
        tariff.windows.forEach((window, k) => {
          if (isNumber(window.from) && isBlank(period.windowRates[k]!)) count++;
        });
      });
      return count;
    },
    advice: 'Type a rate for every window in every set of rates.',
  },
  {
    name: 'Changes of rates without a base rate',
    parts: (t) =>
      periods
        .slice(1)
        .map((p) =>
          whole(
            `AND(ISNUMBER(${typed(t, ratePeriodRows(p).validFrom)}),ISBLANK(${typed(t, ratePeriodRows(p).base)}))`,
          ),
        ),
    count: ({ tariff }) =>
      tariff.periods.slice(1).filter((period) => isNumber(period.validFrom) && isBlank(period.base)).length,
    advice: 'A change gives all its rates anew.',
  },
  {
    name: 'Dates of change out of order',
    parts: (t) =>
      periods.slice(1).map((p) => {
        const date = typed(t, ratePeriodRows(p).validFrom);
        const before = p === 1 ? '' : typed(t, ratePeriodRows(p - 1).validFrom);
        return p === 1
          ? '0'
          : whole(`AND(ISNUMBER(${date}),SUM(${date})<=SUM(${before}))`) +
              `+${whole(`AND(ISNUMBER(${date}),ISBLANK(${before}))`)}`;
      }),
    count: ({ tariff }) => {
      let count = 0;
      for (let p = 2; p < MAX_RATE_PERIODS; p++) {
        const date = tariff.periods[p]!.validFrom;
        const before = tariff.periods[p - 1]!.validFrom;
        if (!isNumber(date)) continue;
        if (date <= numberIn(before)) count++;
        if (isBlank(before)) count++;
      }
      return count;
    },
    advice: 'List changes oldest first, without a gap.',
  },
  {
    name: 'Windows that are not two times on the half-hour',
    parts: (t) =>
      windows.flatMap((k) => {
        const rows = windowRows(k);
        const [from, to] = [typed(t, rows.from), typed(t, rows.to)];
        const off = (cell: string): string => whole(`ABS(SUM(${cell})*48-ROUND(SUM(${cell})*48,0))>0.001`);
        return [
          whole(`ISNUMBER(${from})<>ISNUMBER(${to})`),
          whole(`AND(ISNUMBER(${from}),ISNUMBER(${to}),SUM(${from})=SUM(${to}))`),
          whole(`OR(SUM(${from})<0,SUM(${from})>=1,SUM(${to})<0,SUM(${to})>1)`),
          off(from),
          off(to),
        ];
      }),
    count: ({ tariff }) =>
      tariff.windows.reduce((sum, { from, to }) => {
        const [start, end] = [numberIn(from), numberIn(to)];
        return (
          sum +
          (isNumber(from) !== isNumber(to) ? 1 : 0) +
          (isNumber(from) && isNumber(to) && start === end ? 1 : 0) +
          (start < 0 || start >= 1 || end < 0 || end > 1 ? 1 : 0) +
          (offHalfHour(from) ? 1 : 0) +
          (offHalfHour(to) ? 1 : 0)
        );
      }, 0),
    advice: 'A window has a start and an end, both on the half-hour, 00:00 to 24:00.',
  },
  {
    name: 'Windows whose days can’t be read',
    parts: (t) => windows.map((k) => whole(daysUnreadable(typed(t, windowRows(k).days)))),
    count: ({ tariff }) => tariff.windows.filter((window) => isUnreadable(window.days)).length,
    advice: 'Write Every day, Mon-Fri, Sat-Sun, or list the days: Mon, Wed, Sat.',
  },
  {
    name: 'Half-hours of the week in two windows of a tariff',
    parts: (t) => [
      `COUNTIFS(${SHEETS.windows}!$${coverCountLetters(t)}$${WINDOWS.firstSlot}:$${coverCountLetters(t)}$${LAST_SLOT_ROW},">1")`,
    ],
    count: ({ r, t }) => r.tariffs[t]!.rates.coverCount.reduce((sum, count) => sum + (count > 1 ? 1 : 0), 0),
    advice: 'Move one of the windows: they may not overlap.',
  },
  {
    name: 'Half-hours without a price, on tariffs that follow one',
    parts: (t) => [
      `IF(${typed(t, T.halfHourlyPriced)}="yes",SUM(${halfHourColumn(H.metered)})-SUMPRODUCT(${halfHourColumn(H.metered)}*(${readingColumn(R.pricePence)}<>"")),0)`,
    ],
    count: ({ tariff, r }) => {
      if (!saysYes(tariff.halfHourlyPriced)) return 0;
      let count = 0;
      r.halfHours.metered.forEach((metered, row) => {
        if (metered === 1 && Number.isNaN(r.inputs.readings.values.pricePence[row])) count++;
      });
      return count;
    },
    advice: 'Such half-hours are priced at 0: fill the price column.',
  },
];
