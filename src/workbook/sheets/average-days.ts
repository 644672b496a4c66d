import type { Node } from '../../formula/nodes.js';
import { FIRST_ROW, SheetBuilder } from '../book/sheet-builder.js';
import { all, type Column, f, namedOf, up } from '../book/terms.js';
import type { Calendar } from './days.js';
import type { HalfHours } from './half-hours.js';
import { WHERE_METERED } from './readings.js';
import { BLOCK_ROWS, type Shape } from './shape.js';
import { FIRST_COLUMN, WORKING_SHEETS } from './sheet-names.js';

/** Half-hours of the average day; the two that autumn adds are left out. */
export const SLOTS_A_DAY = 48;
/** Days that a curve goes on for: two to look ahead, one more for a clock that is behind, and what is between. */
const CURVE_DAYS = 4;
/** Rows of a month's curve: its beginning, and the end of each half-hour. */
export const CURVE_ROWS = CURVE_DAYS * SLOTS_A_DAY;

/** The average day of each month, as the battery meets it. */
export interface AverageDays {
  sheet: SheetBuilder;
  /** By month: half-hours by which the home's clock is ahead of UTC, as its first day begins. */
  aheadOfUtc: Column;
  /** By month: stored kWh that serving the home takes on the average day. */
  demandKwh: Column;
  /** Sums from the average day's midnight on, month after month, stored kWh: what serving takes less the sun; and the sun. */
  needCurve: Column;
  sunCurve: Column;
}

export function averageDays(calendar: Calendar, halfHours: HalfHours, shape: Shape): AverageDays {
  const sheet = new SheetBuilder(
    WORKING_SHEETS.averageDays,
    FIRST_ROW,
    FIRST_COLUMN.averageDays,
    'Average days',
  );
  const months = shape.monthRows;
  const values = (label: string, unit: string, rows: number, of: (row: number) => number): Column =>
    sheet.numbers(label, unit, 'Counts', rows, of);
  const column = (
    label: string,
    unit: string,
    description: string,
    style: 'integer' | 'kwhFine',
    rows: number,
    is: Node,
    name?: string,
  ): Column =>
    sheet.column({ label, unit, description, style, rows, is, ...(name === undefined ? {} : { name }) });

  const number = values('No.', 'month from 1', months, (row) => row + 1);
  const firstDay = column(
    'First day',
    'row of Days; 0: none',
    'Of the month',
    'integer',
    months,
    f`IFERROR(MATCH(${number},${all(calendar.month)},0),0)`,
  );
  const firstRow = column(
    'First half-hour',
    'row of Grid, from 1',
    'Of the month',
    'integer',
    months,
    f`MAX(0,${firstDay}-1)*${BLOCK_ROWS}+1`,
  );
  const lastRow = column(
    'Last half-hour',
    'row of Grid, from 1',
    'Of the month',
    'integer',
    months,
    f`${firstRow}-1+${BLOCK_ROWS}*MAX(1,COUNTIFS(${all(calendar.month)},${number}))`,
  );
  const ofFirstDay = (of: Column): Node => f`INDEX(${all(of)},MAX(1,${firstDay}))`;
  const aheadOfUtc = column(
    'Ahead of UTC',
    'half-hours, of a day',
    'The home’s clock, as the month’s first day begins',
    'integer',
    months,
    f`IF(${firstDay}=0,0,MOD(${ofFirstDay(calendar.slotLocal)}-${ofFirstDay(calendar.slotUtc)},${SLOTS_A_DAY}))`,
    'month_ahead_of_UTC',
  );

  const slots = months * SLOTS_A_DAY;
  const month = values('Month', 'from 1', slots, (row) => Math.floor(row / SLOTS_A_DAY) + 1);
  const halfHour = values('Half-hour', 'from midnight, from 0', slots, (row) => row % SLOTS_A_DAY);
  const ofItsMonth = (text: string, of: Column): Column =>
    column(text, 'row of Grid, from 1', 'Of the month', 'integer', slots, f`INDEX(${all(of)},${month})`);
  const from = ofItsMonth('First half-hour of its month', firstRow);
  const to = ofItsMonth('Last half-hour of its month', lastRow);
  const ofMonth = (of: Column): Node =>
    namedOf(of, 'of_month', f`INDEX(${all(of)},${from}):INDEX(${all(of)},${to})`);
  const counted = column(
    'Half-hours counted',
    'count',
    'Metered ones of the month at this half-hour of the day',
    'integer',
    slots,
    f`IF(INDEX(${all(firstDay)},${month})=0,0,COUNTIFS(${ofMonth(halfHours.halfHour)},${halfHour},${ofMonth(halfHours.usedKwh)},${WHERE_METERED}))`,
  );
  const mean = (sum: Node): Node => f`IF(${counted}=0,0,${sum}/${counted})`;
  const stored = ofMonth(halfHours.storeChangeKwh);
  const need = column(
    'Likely use less sun',
    'kWh stored',
    'What serving the home takes less what the sun adds',
    'kwhFine',
    slots,
    mean(f`-SUMIFS(${stored},${ofMonth(halfHours.halfHour)},${halfHour})`),
  );
  const sun = column(
    'Likely sun',
    'kWh stored',
    'What the sun adds',
    'kwhFine',
    slots,
    mean(f`SUMIFS(${stored},${ofMonth(halfHours.halfHour)},${halfHour},${stored},">0")`),
  );

  const points = months * CURVE_ROWS;
  const curveMonth = values(
    'Month of the curve',
    'from 1',
    points,
    (row) => Math.floor(row / CURVE_ROWS) + 1,
  );
  const point = values('Half-hours after midnight', 'count', points, (row) => row % CURVE_ROWS);
  const curve = (label: string, description: string, of: Column, name: string): Column => {
    const sums = column(label, 'kWh stored', description, 'kwhFine', points, f`0`, name);
    const slot = f`(${curveMonth}-1)*${SLOTS_A_DAY}+MOD(${point}-1,${SLOTS_A_DAY})+1`;
    sums.is = f`IF(${point}=0,0,${up(sums)}+INDEX(${all(of)},${slot}))`;
    return sums;
  };
  const needCurve = curve(
    'Likely use less sun so far',
    'Since midnight, day after day the same',
    need,
    'need_so_far',
  );
  const sunCurve = curve('Likely sun so far', 'Since midnight, day after day the same', sun, 'sun_so_far');
  const dayEnd = (of: Column): Node => f`INDEX(${all(of)},(${number}-1)*${CURVE_ROWS}+1+${SLOTS_A_DAY})`;
  const demandKwh = column(
    'Likely use of a day',
    'kWh stored',
    'What serving the home takes',
    'kwhFine',
    months,
    f`${dayEnd(needCurve)}+${dayEnd(sunCurve)}`,
    'month_likely_use',
  );
  return { sheet, aheadOfUtc, demandKwh, needCurve, sunCurve };
}
