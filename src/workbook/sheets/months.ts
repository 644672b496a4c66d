import type { Node, Reference } from '../../formula/nodes.js';
import { SheetBuilder } from '../book/sheet-builder.js';
import { all, type Column, f, type Line, stretch } from '../book/terms.js';
import type { Calendar } from './days.js';
import type { InputTerms } from './input-terms.js';
import { type ReadingsSheet, WHERE_METERED } from './readings.js';
import type { Shape } from './shape.js';
import { WORKING_SHEETS } from './sheet-names.js';

/** Months that the default period takes where there are more. */
const USUAL_MONTHS = 12;
/** A bill rounds half up on its line; a figure this little under half a penny is half a penny. */
const BINARY_NOISE = 0.000000001;

/** Days of a month are summed for the column they stand in. */
export interface Months {
  sheet: SheetBuilder;
  number: Column;
  start: Column;
  selected: Column;
  days: Column;
  expected: Column;
  metered: Column;
  importKwh: Column;
  exportKwh: Column;
  usedKwh: Column;
  /** Half-hours with an import reading and no half-hourly price. */
  unpriced: Column;
  periodFrom: Line;
  periodTo: Line;
  /** Sum over the chosen period of each column that has one. */
  period: ReadonlyMap<Column, Line>;
  readings: ReadingsSheet;
  /** Rows of the readings in the month of the row that meet criteria, pairs of range and criterion. */
  rowsOfMonth: (...also: readonly (Reference | string)[]) => Node;
}

/** Day columns that every tariff shares. */
export interface SharedDays {
  metered: Column;
  importKwh: Column;
  exportKwh: Column;
  usedKwh: Column;
}

/** Makes the columns of the months sheet, each with its sum over the chosen period below. */
export class MonthColumns {
  readonly period = new Map<Column, Line>();

  constructor(
    readonly sheet: SheetBuilder,
    private readonly calendar: Calendar,
    private readonly shape: Shape,
    private readonly number: Column,
    /** Days of the month of each row. */
    private readonly days: Column,
  ) {}

  column(
    label: string,
    unit: string,
    description: string,
    style: Column['style'],
    is: Node,
    name?: string,
  ): Column {
    return this.sheet.column({
      label,
      unit,
      description,
      style,
      rows: this.shape.monthRows,
      is,
      ...(name === undefined ? {} : { name }),
    });
  }

  /** Sum over the days of the month of the row; a row without a month costs nothing. */
  ofDays(column: Column): Node {
    return this.whereDays(this.sumOfDays(column));
  }

  /** The same where it is a part of a formula that looks first whether there is a month. */
  sumOfDays(column: Column): Node {
    return f`SUMIFS(${all(column)},${all(this.calendar.month)},${this.number})`;
  }

  /** 0 in a row without a month. */
  whereDays(is: Node): Node {
    return f`IF(${this.days}=0,0,${is})`;
  }

  /** Adds the sum over the chosen months, two rows below the last; money is rounded to the penny. */
  sum(column: Column, selected: Column, style: Column['style'], name?: string, isMoney = false): Line {
    const chosen = f`SUMIFS(${all(column)},${all(selected)},1)`;
    const line = this.sheet.line(column.lastRow + 2, column.column, {
      label: '',
      unit: '',
      style,
      is: isMoney ? f`ROUND(${chosen},2)` : chosen,
      ...(name === undefined ? {} : { name }),
    });
    this.period.set(column, line);
    return line;
  }
}

/** Money of a bill's line from pence. */
export const billed = (pence: Node): Node => f`ROUND((${pence})/100+${BINARY_NOISE},2)`;

export function months(
  inputs: InputTerms,
  readings: ReadingsSheet,
  calendar: Calendar,
  days: SharedDays,
  shape: Shape,
): Months & { columns: MonthColumns } {
  const sheet = new SheetBuilder(WORKING_SHEETS.months);
  const number = sheet.numbers('No.', 'month from 1', 'Counts the months', shape.monthRows, (row) => row + 1);
  const { firstDay, lastDay } = calendar;
  const monthStart = f`DATE(YEAR(${firstDay}),MONTH(${firstDay})+${number}-1,1)`;
  const start = sheet.column({
    label: 'Month',
    unit: 'first day',
    description: 'Every calendar month that the readings touch',
    style: 'month',
    rows: shape.monthRows,
    is: f`IF(SUM(${firstDay})=0,"",IF(${monthStart}<=${lastDay},${monthStart},""))`,
    name: 'month_start',
  });
  const daysCount = sheet.column({
    label: 'Days',
    unit: 'count',
    description: 'Calendar days of the readings in the month',
    style: 'count',
    rows: shape.monthRows,
    is: f`COUNTIFS(${all(calendar.month)},${number})`,
  });
  const columns = new MonthColumns(sheet, calendar, shape, number, daysCount);
  const isWhole = columns.column(
    'Whole month',
    '1 or 0',
    'Whether the readings take in all of its days',
    'integer',
    f`IF(${start}="",0,IF(${daysCount}=DATE(YEAR(${start}),MONTH(${start})+1,1)-${start},1,0))`,
    'month_is_whole',
  );
  const wholeFromHere = columns.column(
    'Whole months from here on',
    'count',
    'The usual period is the last twelve whole months, where there are more',
    'integer',
    f`0`,
  );
  wholeFromHere.is = f`SUM(${stretchFromHere(isWhole)})`;
  const chosenFrom = f`DATE(YEAR(${inputs.fromMonth}),MONTH(${inputs.fromMonth}),1)`;
  const chosenTo = f`DATE(YEAR(${inputs.toMonth}),MONTH(${inputs.toMonth}),1)`;
  const wholeMonths = f`SUM(${all(isWhole)})`;
  const choice = f`OR(ISNUMBER(${inputs.fromMonth}),ISNUMBER(${inputs.toMonth}))`;
  const periodFrom = sheet.line(3, 2, {
    label: 'Period from',
    unit: 'month',
    style: 'month',
    name: 'period_from',
    is: f`IF(SUM(${firstDay})=0,"",IF(ISNUMBER(${inputs.fromMonth}),${chosenFrom},IF(OR(${choice},${wholeMonths}<=${USUAL_MONTHS}),${stretch(start, 0, 0)},INDEX(${all(start)},MATCH(${USUAL_MONTHS},${all(wholeFromHere)},0)+COUNTIFS(${all(wholeFromHere)},${USUAL_MONTHS})-1))))`,
  });
  const periodTo = sheet.line(4, 2, {
    label: 'Period to',
    unit: 'month',
    style: 'month',
    name: 'period_to',
    is: f`IF(SUM(${firstDay})=0,"",IF(ISNUMBER(${inputs.toMonth}),${chosenTo},IF(OR(${choice},${wholeMonths}<=${USUAL_MONTHS}),MAX(${all(start)}),INDEX(${all(start)},MATCH(1,${all(wholeFromHere)},0)+COUNTIFS(${all(wholeFromHere)},1)-1))))`,
  });
  const selected = columns.column(
    'In the period',
    '1 or 0',
    'Whether the chosen period takes the month in',
    'integer',
    f`IF(${start}="",0,IF(AND(${start}>=${periodFrom},${start}<=${periodTo}),1,0))`,
    'month_selected',
  );
  const shared = (label: string, style: 'kwh' | 'count', unit: string, from: Column): Column =>
    columns.column(label, unit, 'Sum of the month', style, columns.ofDays(from));
  const expected = shared('Half-hours expected', 'count', 'count', calendar.length);
  const metered = shared('Half-hours metered', 'count', 'count', days.metered);
  const importKwh = shared('Import without battery', 'kwh', 'kWh', days.importKwh);
  const exportKwh = shared('Export without battery', 'kwh', 'kWh', days.exportKwh);
  const usedKwh = shared('Used by the home', 'kwh', 'kWh', days.usedKwh);
  // A hundredth of a day before midnight: far from every half-hour, and a number of few digits.
  const begins = f`">="&(${start}-0.01)`;
  const ends = f`"<"&(DATE(YEAR(${start}),MONTH(${start})+1,1)-0.01)`;
  const imported = [all(readings.channels.importKwh), WHERE_METERED] as const;
  const rowsOfMonth = (...also: readonly (Reference | string)[]): Node => ({
    kind: 'call',
    name: 'COUNTIFS',
    args: [all(readings.start), begins, all(readings.start), ends, ...also].map((arg) => f`${arg}`),
  });
  const unpriced = columns.column(
    'Half-hours without a price',
    'count',
    'With an import reading and no half-hourly price',
    'count',
    f`IF(${start}="",0,${rowsOfMonth(...imported)}-${rowsOfMonth(...imported, all(readings.channels.pricePence), WHERE_METERED)})`,
  );
  columns.sum(unpriced, selected, 'count', 'period_unpriced');
  columns.sum(selected, selected, 'integer', 'period_months');
  columns.sum(daysCount, selected, 'count', 'period_days');
  columns.sum(expected, selected, 'count', 'period_half_hours');
  columns.sum(metered, selected, 'count', 'period_metered');
  columns.sum(importKwh, selected, 'kwh', 'period_import_kWh');
  columns.sum(exportKwh, selected, 'kwh', 'period_export_kWh');
  columns.sum(usedKwh, selected, 'kwh', 'period_used_kWh');
  return {
    sheet,
    columns,
    number,
    start,
    selected,
    days: daysCount,
    expected,
    metered,
    importKwh,
    exportKwh,
    usedKwh,
    unpriced,
    periodFrom,
    periodTo,
    period: columns.period,
    readings,
    rowsOfMonth,
  };
}

/** From the row of the formula down to the last row of a column. */
function stretchFromHere(column: Column) {
  const whole = all(column);
  return {
    print: (home: { row: number }) => `$${column.letters}${home.row}:$${column.letters}$${column.lastRow}`,
    area: (home: { sheet: string; row: number; column: number }) => ({
      ...whole.area(home),
      firstRow: home.row,
    }),
    moves: { first: 1, last: 0 },
  };
}
