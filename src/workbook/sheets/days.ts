import type { Node, Reference } from '../../formula/nodes.js';
import { EARLIEST_SERIAL, LATEST_SERIAL, LOOK_UP_MARGIN_DAYS } from '../../time/serial.js';
import { SheetBuilder } from '../book/sheet-builder.js';
import { across, all, type Column, f, type Line, named, stretch } from '../book/terms.js';
import type { ClockSheet } from './clock.js';
import type { InputTerms } from './input-terms.js';
import { BANDS, type RatesSheets, SET_ROWS } from './rates.js';
import { RATES_USED } from './rates-used.js';
import type { ReadingsSheet } from './readings.js';
import { BLOCK_ROWS, type Shape, WEEK_ROWS, WEEK_RUNS, WEEK_SLOTS } from './shape.js';
import { WORKING_SHEETS } from './sheet-names.js';

/** The calendar of the days sheet: known from the first reading and the clock alone. */
export interface Calendar {
  sheet: SheetBuilder;
  firstDay: Line;
  lastDay: Line;
  /** Where rates are to be as they are now, a day after all changes; else 0. */
  ratesAsOf: Line;
  /** Counts the days from 1. */
  number: Column;
  date: Column;
  month: Column;
  /** Half-hours of the day: 48, or 46 and 50 where the clock changes by an hour. */
  length: Column;
  /** Half-hours that the day gains: 2 in autumn, -2 in spring, else 0. */
  gained: Column;
  /** Half-hours from midnight to the change of the clock; the day's length where there is none. */
  changeAt: Column;
  /** Number of the change among those of the readings, 0 on other days. */
  change: Column;
  /** Row of the rate grid within a set: by the home's clock, and by UTC. */
  slotLocal: Column;
  slotUtc: Column;
  /** Second rows of the half-hours that the clock shows twice on the day, side by side; 0 where there is none. */
  repeated: Reference;
}

/** Half-hours that a change of the clock repeats at most. */
const REPEATED = 2;

/** A value on days that there are, nothing on the rows below them. */
const onDays = (date: Column, is: Node): Node => f`IF(${date}="","",${is})`;

export function calendar(
  { ratesUsed }: Pick<InputTerms, 'ratesUsed'>,
  readings: ReadingsSheet,
  clock: ClockSheet,
  shape: Shape,
): Calendar {
  const sheet = new SheetBuilder(WORKING_SHEETS.days);
  const starts = all(readings.start);
  const firstDay = sheet.line(3, 2, {
    label: 'First day',
    unit: 'local date',
    style: 'date',
    name: 'first_day',
    // What is earlier than any reading can be is a slip.
    is: f`IFERROR(INT(SMALL(${starts},1+COUNTIFS(${starts},${`<${EARLIEST_SERIAL}`}))+${LOOK_UP_MARGIN_DAYS}),"")`,
  });
  const lastDay = sheet.line(4, 2, {
    label: 'Last day',
    unit: 'local date',
    style: 'date',
    name: 'last_day',
    is: f`IFERROR(INT(LARGE(${starts},1+COUNTIFS(${starts},${`>${LATEST_SERIAL + 1}`}))+${LOOK_UP_MARGIN_DAYS}),"")`,
  });
  sheet.label(3, 3, 'Rates as on', 'label');
  const ratesAsOf = sheet.line(3, 4, {
    label: 'Rates as on, where that is after the day',
    unit: 'serial; 0: rates as they were',
    style: 'integer',
    name: 'rates_as_of',
    is: f`IF(${ratesUsed}=${RATES_USED.asTheyAreNow},${LATEST_SERIAL + 1},0)`,
  });
  const { days: rows } = shape;
  const column = (
    label: string,
    unit: string,
    description: string,
    style: 'date' | 'dateTime' | 'integer',
    name?: string,
  ): Column =>
    sheet.column({ label, unit, description, style, rows, ...(name === undefined ? {} : { name }) });

  const number = sheet.numbers('No.', 'day from 1', 'Counts the days', rows, (row) => row + 1, 'day_numbers');
  const date = column(
    'Day',
    'local date',
    'Every day from the first reading to the last',
    'date',
    'day_date',
  );
  date.is = f`IF(${firstDay}="","",IF(${firstDay}+${number}-1<=${lastDay},${firstDay}+${number}-1,""))`;
  const month = column(
    'Month',
    'row of Months',
    'Calendar month counted from the first',
    'integer',
    'day_month',
  );
  month.is = onDays(date, f`(YEAR(${date})-YEAR(${firstDay}))*12+MONTH(${date})-MONTH(${firstDay})+1`);
  const clockRow = column('Clock row', 'row of Clock; 0: none', 'Change of the clock on the day', 'integer');
  clockRow.is = onDays(date, f`IFERROR(MATCH(${date},${all(clock.day)},0),0)`);
  const gained = column('Half-hours gained', 'count', '2 in autumn, −2 in spring', 'integer', 'day_gained');
  gained.is = f`IF(SUM(${clockRow})=0,0,INDEX(${all(clock.gained)},${clockRow})/30)`;
  const length = column(
    'Half-hours expected',
    'count',
    '48, or 46 and 50 where the clock changes by an hour',
    'integer',
    'day_length',
  );
  length.is = f`IF(${date}="",0,48+${gained})`;
  const changeAt = column(
    'Clock changes after',
    'half-hours from midnight',
    'The day’s length where it does not',
    'integer',
    'day_change_at',
  );
  changeAt.is = f`IF(SUM(${clockRow})=0,${length},ROUND((INDEX(${all(clock.from)},${clockRow})-(INDEX(${all(clock.after)},${clockRow})-INDEX(${all(clock.before)},${clockRow}))/24-${date})*48,0))`;
  const change = column(
    'Change no.',
    'among those of the readings',
    '0 on other days',
    'integer',
    'day_change',
  );
  change.is = f`IF(SUM(${clockRow})=0,0,COUNTIFS(${stretchToHere(clockRow)},">0"))`;
  const slotLocal = column(
    'Slot, local',
    'row of a set in the grid',
    'Where the day begins among the half-hours of the week, by the home’s clock',
    'integer',
    'day_slot',
  );
  slotLocal.is = onDays(date, f`MOD(INT(${date})+5,7)*48+1`);
  const slotUtc = column(
    'Slot, UTC',
    'row of a set in the grid',
    'The same by UTC, for meters whose clock does not move with summer time',
    'integer',
  );
  const utc = f`(${date}-INDEX(${all(clock.after)},MATCH(${date}+${LOOK_UP_MARGIN_DAYS},${all(clock.from)},1))/24)`;
  slotUtc.is = onDays(date, f`INT(MOD(${utc}+5,7)*48+0.01)+1`);
  // Readings may be sorted by what the clock shows: then the twins of autumn stand together, not an hour apart.
  const shownTwice = Array.from({ length: REPEATED }, (_, k): Column => {
    const near = f`(${date}*48+${changeAt}-${gained}+${k})/48`;
    const [above, below] = [f`">"&(${near}-0.001)`, f`"<"&(${near}+0.001)`];
    const shown = column(
      `Shown twice ${k + 1}`,
      'local time',
      'The very number that readings have for it: some programs compare to the last bit',
      'dateTime',
    );
    shown.is = f`IF(${gained}<${k + 1},0,SUMIFS(${starts},${starts},${above},${starts},${below})/MAX(1,COUNTIFS(${starts},${above},${starts},${below})))`;
    return shown;
  });
  const repeated = shownTwice.map((shown, k): Column => {
    const first = f`MATCH(${shown},${starts},0)`;
    const second = column(
      `Repeated half-hour ${k + 1}`,
      'row of Readings, second',
      'Where autumn shows a half-hour twice: the second row that has it, 0 where there is none',
      'integer',
    );
    const after = named(
      `read_start_after_repeated_${k + 1}`,
      f`INDEX(${starts},${first}+1):INDEX(${starts},${readings.start.rows})`,
    );
    second.is = f`IF(${gained}<${k + 1},0,IFERROR(${first}+MATCH(${shown},${after},0),0))`;
    return second;
  });
  return {
    sheet,
    firstDay,
    lastDay,
    ratesAsOf,
    number,
    date,
    month,
    length,
    gained,
    changeAt,
    change,
    slotLocal,
    slotUtc,
    repeated: across(repeated, 'day_repeated'),
  };
}

/** From the first row of a column down to the row of the formula. */
function stretchToHere(column: Column): Reference {
  const whole = all(column);
  return {
    print: (home) => `$${column.letters}$${column.firstRow}:$${column.letters}${home.row}`,
    area: (home) => ({ ...whole.area(home), lastRow: home.row }),
    moves: { first: 0, last: 1 },
  };
}

/** A tariff's place in the rate grid on each day. */
export interface TariffDays {
  set: Column;
  /** Row of the grid, from 1, on which the day begins. */
  at: Column;
  /** Number of the stretch of days in one month at one set of rates. */
  stretch: Column;
  /** Rows of the battery’s levels before those of the stretch. */
  runsBefore: Column;
}

export function tariffDays(calendar: Calendar, rates: RatesSheets, tariff: number, shape: Shape): TariffDays {
  const { sheet, date, ratesAsOf, change, slotLocal, slotUtc } = calendar;
  const typed = rates.tariffs[tariff];
  if (typed === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  const later = stretch(typed.validFrom, 1, typed.validFrom.rows - 1, `later_rates_from_${tariff + 1}`);
  const set = sheet.column({
    label: `Rates in force, tariff ${tariff + 1}`,
    unit: 'set, from 1',
    description: 'Which set of rates holds on the day; the last one where rates are to be as they are now',
    style: 'integer',
    rows: shape.days,
    name: `set_${tariff + 1}`,
    is: f`IF(${date}="",0,1+COUNTIFS(${later},">0",${later},"<="&MAX(${date},${ratesAsOf})))`,
  });
  const at = sheet.column({
    label: `Begins in the grid, tariff ${tariff + 1}`,
    unit: 'row of Rate grid',
    description:
      'The day’s first half-hour among the rates; a day with a clock change has a stretch of its own',
    style: 'integer',
    rows: shape.days,
    name: `at_${tariff + 1}`,
    is: f`IF(${date}="",1,IF(AND(${change}>0,${typed.byUtc}=0),${SET_ROWS + 1}+(MIN(${change},${shape.changes})-1)*${BLOCK_ROWS},(${set}-1)*${WEEK_ROWS}+IF(${typed.byUtc}=1,${slotUtc},${slotLocal})))`,
  });
  // Months and sets both only go up: their sum is another number for every pair of them that there is.
  const ofStretch = sheet.column({
    label: `Stretch, tariff ${tariff + 1}`,
    unit: 'from 1; 0: no day',
    description: 'Days of one month at one set of rates, on which the battery’s levels are the same',
    style: 'integer',
    rows: shape.days,
    name: `stretch_${tariff + 1}`,
    is: f`IF(${date}="",0,${calendar.month}+${set}-1)`,
  });
  const runsBefore = sheet.column({
    label: `Runs before, tariff ${tariff + 1}`,
    unit: 'row of Battery levels',
    description: 'Of the stretches before that of the day',
    style: 'integer',
    rows: shape.days,
    name: `runs_before_${tariff + 1}`,
    is: f`MAX(0,${ofStretch}-1)*${WEEK_RUNS}`,
  });
  return { set, at, stretch: ofStretch, runsBefore };
}

/** Fills the rate grid: what a row's rate is, and which half-hours the rows of days with a clock change are. */
export function fillRateGrid(
  rates: RatesSheets,
  calendar: Calendar,
  days: readonly TariffDays[],
  shape: Shape,
): void {
  const { grid, slot, setOf, changeNumber, halfHour, day } = rates;
  const changeRows = shape.changes * BLOCK_ROWS;
  grid.continued(day, changeRows, f`IFERROR(MATCH(${changeNumber},${all(calendar.change)},0),1)`);
  const ofDay = (column: Column): Node => f`SUM(INDEX(${all(column)},${day}))`;
  const wall = f`${halfHour}-(${halfHour}>=${ofDay(calendar.changeAt)})*${ofDay(calendar.gained)}`;
  grid.continued(slot, changeRows, f`MOD(${ofDay(calendar.slotLocal)}-1+${wall},${WEEK_SLOTS})+1`);
  rates.tariffs.forEach((tariff, t) => {
    const { set } = days[t] ?? {};
    if (set === undefined) throw new RangeError(`there are no days of tariff ${t + 1}`);
    const inForce = f`MAX(1,IF(${setOf}>0,${setOf},INDEX(${all(set)},${day})))`;
    tariff.grid.is = f`INDEX(${all(tariff.bandRates)},(${inForce}-1)*${BANDS}+1+INDEX(${all(tariff.band)},${slot}))`;
  });
}
