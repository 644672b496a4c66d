import type { Node } from '../../../formula/nodes.js';
import { MONTH_DAYS, shortnessOfDays, usualCold } from '../../../outlook/calendar-year.js';
import { all, Column, cellOf, f } from '../../book/terms.js';
import { FIRST_COLUMN, FIRST_ROW, SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { heatingDays } from '../heating/heating-days.js';
import { temperatureRange } from '../heating/heating-rows.js';

/** Share of a month's half-hours that has to be metered for the month to count (common practice, no source). */
export const LEAST_METERED = 0.9;
/** Days of a month that the readings have to touch for it to count: three weeks (common practice, no source). */
export const LEAST_DAYS = 21;
/** Share of a month's days that need degree days for those of the month to be known (common practice, no source). */
const LEAST_KNOWN = 0.9;

/** Calendar months of a year, and what the fit of a year takes from them. */
export interface YearColumns {
  /** Of the months of the readings, a row a month. */
  ofMonths: { calendarMonth: Column; counts: Column; meteredDays: Column; degreeDays: Column };
  /** Of a year, twelve rows. */
  month: Column;
  days: Column;
  shortness: Column;
  shape: Column;
  /** Minutes that the clock goes back in the first half of a year, less those in the second; a row a year. */
  turned: Column;
  usualCold: Column;
  meteredDays: Column;
  isMetered: Column;
  missingDays: Column;
  degreeDays: Column;
  cold: Column;
  /** £ a day, tariff by tariff. */
  pounds: readonly Column[];
  /** £ a day that the battery saves, tariff by tariff. */
  saved: readonly Column[];
  /** Of the months metered; blank in the others. */
  coldMetered: Column;
  /** °C·day over the days not metered beyond the coldest month that was. */
  coldBeyond: Column;
  /** All of them, from the left. */
  all: readonly Column[];
  /** Constants of a column that holds no expression. */
  values: ReadonlyMap<Column, readonly number[]>;
}

/**
 * Declares the columns; `cold` and `usualCold` get their expressions with the lines that they ask.
 * Source: as for the library's `yearCost`; what months count is common practice, no source.
 *
 * @param book inputs and workings
 * @returns columns with a row a month of the readings, or one a calendar month; units stand with each
 * @example yearColumns(book).days.text.unit // 'count'
 */
export function yearColumns(book: Book): YearColumns {
  const { months, tariffs, calendar, clock } = book.workings;
  const columns: Column[] = [];
  const values = new Map<Column, readonly number[]>();
  let next: number = FIRST_COLUMN.yearAhead;
  const column = (
    rows: number,
    label: string,
    unit: string,
    description: string,
    style: StyleName,
    is?: Node | readonly number[],
  ): Column => {
    const made = new Column(SHEETS.yearAhead, next++, FIRST_ROW, rows, style, { label, unit, description });
    if (is !== undefined && 'kind' in is) made.is = is;
    else if (is !== undefined) values.set(made, is);
    columns.push(made);
    return made;
  };
  const rows = book.shape.monthRows;
  const calendarMonth = column(
    rows,
    'Calendar month',
    '1 to 12; 0: none',
    'Of every month that the readings touch',
    'integer',
    f`IF(${months.start}="",0,MONTH(${months.start}))`,
  );
  const counts = column(
    rows,
    'Counts for a year',
    '1 or 0',
    'In the period, with enough days, and nine tenths of their half-hours metered',
    'integer',
    f`IF(AND(${months.selected}=1,${months.days}>=${LEAST_DAYS},${months.metered}>=${LEAST_METERED}*${months.expected}),1,0)`,
  );
  const meteredDays = column(
    rows,
    'Days metered',
    'days',
    'Half-hours metered, as days',
    'rate',
    f`IF(${counts}=0,0,${months.days}*${months.metered}/${months.expected})`,
  );
  const ofDay = heatingDays(book).degreeDays;
  const known = f`COUNTIFS(${all(calendar.month)},${months.number},${all(ofDay)},">=0")`;
  const degreeDays = column(
    rows,
    'Degree days',
    '°C',
    'A day; blank where days of the month lack them',
    'rate',
    f`IF(OR(${months.days}=0,${known}<${LEAST_KNOWN}*${months.days}),"",SUMIFS(${all(ofDay)},${all(calendar.month)},${months.number})/MAX(1,${known}))`,
  );

  const ofYear = (
    label: string,
    unit: string,
    description: string,
    style: StyleName,
    is?: Node | readonly number[],
  ): Column => column(MONTH_DAYS.length, label, unit, description, style, is);
  const month = ofYear(
    'Month of a year',
    '1 to 12',
    'Calendar months from January',
    'integer',
    MONTH_DAYS.map((_, m) => m + 1),
  );
  const days = ofYear('Days', 'count', 'Of a year of 365', 'integer', MONTH_DAYS);
  const shortness = ofYear(
    'Shortness of the day',
    '−1 to 1',
    'A cosine of the year about the shortest day',
    'rateFine',
    shortnessOfDays(),
  );
  const shape = ofYear(
    'Shape of degree days',
    '0 to 1.4',
    'As they usually go over a year north of the equator',
    'rateFine',
    usualCold(1),
  );
  // Of years, not of the first change alone: a clock may change for other reasons than summer, and change back.
  const changes = all(clock.day);
  const firstYear = f`YEAR(MAX(366,${cellOf(clock.day, 1)}))`;
  const goesBack = (from: number, before: number): Node => {
    const first = (of: number): Node => f`DATE(${firstYear}+${month}-1,${of},1)`;
    return f`SUMIFS(${all(clock.gained)},${changes},">="&${first(from)},${changes},"<"&${first(before)})`;
  };
  const turned = ofYear(
    'Clock goes back, January to June less July to December',
    'minutes; a year a row',
    'Of twelve years: below 0 where summer time begins in the first half',
    'integer',
    f`${goesBack(1, 7)}-${goesBack(7, 13)}`,
  );
  const usual = ofYear(
    'The same where the home is',
    '0 to 1.4',
    'Half a year later south of the equator',
    'rateFine',
  );
  const sumOf = (of: Column, more: Node): Node =>
    f`SUMIFS(${all(of)},${all(calendarMonth)},${month},${all(counts)},${more})`;
  const metered = ofYear(
    'Days metered',
    'days',
    'Of that calendar month, in the period',
    'rate',
    sumOf(meteredDays, f`1`),
  );
  const isMetered = ofYear('Metered', '1 or 0', 'Counts as it is', 'integer', f`IF(${metered}>0,1,0)`);
  const missingDays = ofYear(
    'Days not metered',
    'days',
    'To be fitted',
    'integer',
    f`${days}*(1-${isMetered})`,
  );
  const [dates, table] = [temperatureRange('date'), temperatureRange('degreeDays')];
  const lastDate = f`MAX(${dates})`;
  const latest = ofYear(
    'Temperatures from',
    'first of the month',
    'The latest such month that the temperatures by day have to its end',
    'date',
    f`IF(COUNT(${dates})=0,"",DATE(YEAR(${lastDate})-IF(DATE(YEAR(${lastDate}),${month}+1,1)-1<=${lastDate},0,1),${month},1))`,
  );
  const until = f`DATE(YEAR(${latest}),MONTH(${latest})+1,1)`;
  const tableDays = ofYear(
    'Days with temperatures',
    'days',
    'Of that month',
    'integer',
    f`IF(${latest}="",0,COUNTIFS(${dates},">="&${latest},${dates},"<"&${until},${table},">=0"))`,
  );
  const seen = ofYear(
    'Months with degree days',
    'count',
    'Metered ones of that calendar month; where none is metered, other readings',
    'integer',
    f`COUNTIFS(${all(calendarMonth)},${month},${all(counts)},${isMetered},${all(degreeDays)},">=0")`,
  );
  const isSeen = ofYear(
    'Enough of them',
    '1 or 0',
    'All that are metered, or any where none is',
    'integer',
    f`IF(OR(${seen}=0,AND(${isMetered}=1,${seen}<COUNTIFS(${all(calendarMonth)},${month},${all(counts)},1))),0,1)`,
  );
  const ofTable = ofYear(
    'Degree days of other years',
    '°C',
    'A day, from the temperatures by day',
    'rate',
    f`IF(${tableDays}<${LEAST_KNOWN}*${days},"",SUMIFS(${table},${dates},">="&${latest},${dates},"<"&${until})/${tableDays})`,
  );
  const known12 = ofYear(
    'Degree days',
    '°C',
    'A day: of the metered months as they were; of others of other readings, else of other years',
    'rate',
    f`IF(${isSeen}=1,${sumOf(degreeDays, f`${isMetered}`)}/${seen},IF(${isMetered}=1,"",${ofTable}))`,
  );
  const cold = ofYear(
    'Cold',
    '°C, or 0 to 1.4',
    'Degree days where all twelve are known, else their usual shape',
    'rateFine',
  );
  const more = tariffs.map(({ latestPence }, t) =>
    column(
      rows,
      `At the latest rates more, tariff ${t + 1}`,
      '{minor}',
      'Sum of the month',
      'pence',
      f`SUMIFS(${all(latestPence)},${all(calendar.month)},${months.number})`,
    ),
  );
  const pounds = tariffs.map(({ months: bill, batteryMonths }, t) =>
    ofYear(
      `Use a day, tariff ${t + 1}`,
      '{major}/day',
      'Energy less export at the latest rates, with the battery where one is entered, without the standing charge; 0 where not metered',
      'rateFine',
      f`IF(${isMetered}=0,0,(${sumOf(batteryMonths.total, f`1`)}-${sumOf(bill.standing, f`1`)}+${sumOf(more[t] ?? isMetered, f`1`)}/100)/${metered})`,
    ),
  );
  const saved = tariffs.map(({ months: bill, batteryMonths }, t) =>
    ofYear(
      `Battery saves a day, tariff ${t + 1}`,
      '{major}/day',
      'At the rates that price the period; 0 where not metered',
      'rateFine',
      f`IF(${isMetered}=0,0,(${sumOf(bill.total, f`1`)}-${sumOf(batteryMonths.total, f`1`)})/${metered})`,
    ),
  );
  const coldMetered = ofYear(
    'Cold, where metered',
    'as cold',
    'Blank where the month is fitted',
    'rateFine',
    f`IF(OR(${isMetered}=0,${cold}=""),"",${cold})`,
  );
  const coldBeyond = ofYear(
    'Cold beyond that',
    'as cold, × days',
    'Of days not metered, beyond the coldest month that is: the fit may miss it',
    'rateFine',
    f`IF(${cold}="",0,${missingDays}*MAX(0,${cold}-MAX(${all(coldMetered)})))`,
  );
  return {
    ofMonths: { calendarMonth, counts, meteredDays, degreeDays },
    month,
    days,
    shortness,
    shape,
    turned,
    usualCold: usual,
    meteredDays: metered,
    isMetered,
    missingDays,
    degreeDays: known12,
    cold,
    pounds,
    saved,
    coldMetered,
    coldBeyond,
    all: columns,
    values,
  };
}
