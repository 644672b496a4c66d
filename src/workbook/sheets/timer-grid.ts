import type { Node } from '../../formula/nodes.js';
import { all, type Column, f } from '../book/terms.js';
import type { Calendar } from './days.js';
import type { RatesSheets } from './rates.js';
import { BLOCK_ROWS, type Shape } from './shape.js';
import type { TankFigures, TimerFigures } from './timer-figures.js';

/** Half-hour of the day, by the clock, of rows without one. */
const NO_SLOT = 48;
const NOON = 24;

/** The half-hours of a usual day, and of each day with a clock change, by the clock on the wall. */
export interface TimerGrid {
  /** Half-hours of the day by the clock; 48 where the day has no such half-hour. */
  slot: Column;
  /** Which of the days below it is: 0 a usual one, else the number of the clock change. */
  change: Column;
  halfHour: Column;
  /** Row of the grid at which each calendar day begins; 0 for a day that is not there. */
  at: Column;
}

/** A load's hours on these days. */
export interface AllowedHours {
  /** Which of the allowed half-hours of its half of the day it is, from 1; 0 where the load may not run. */
  order: Column;
  /** How many there are before and after noon: a row for each of the days. */
  before: Column;
  after: Column;
}

/** Declares the days of the timers right of the rates, on the sheet of the grid. */
export function timerGrid({ grid: sheet }: RatesSheets, calendar: Calendar, shape: Shape): TimerGrid {
  const rows = (1 + shape.changes) * BLOCK_ROWS;
  const change = sheet.numbers(
    'Day of the timers',
    'clock change no.',
    '0: a usual day',
    rows,
    (row) => Math.floor(row / BLOCK_ROWS),
    'timer_change',
  );
  const halfHour = sheet.numbers(
    'Half-hour of that day',
    'from 0',
    'As time goes by',
    rows,
    (row) => row % BLOCK_ROWS,
    'timer_half_hour',
  );
  const dayOfChange = sheet.column({
    label: 'Its day',
    unit: 'row of Days',
    description: 'Of the clock change',
    style: 'integer',
    rows,
    is: f`IF(${change}=0,1,IFERROR(MATCH(${change},${all(calendar.change)},0),1))`,
  });
  const ofDay = (column: Column): Node => f`SUM(INDEX(${all(column)},${dayOfChange}))`;
  const slot = sheet.column({
    label: 'Half-hour by the clock',
    unit: 'from midnight, from 0',
    description: '48: the day has no such half-hour',
    style: 'integer',
    rows,
    name: 'timer_slot',
    is: f`IF(${change}=0,MIN(${halfHour},${NO_SLOT}),IF(${halfHour}>=${ofDay(calendar.length)},${NO_SLOT},${halfHour}-(${halfHour}>=${ofDay(calendar.changeAt)})*${ofDay(calendar.gained)}))`,
  });
  const at = calendar.sheet.column({
    label: 'Begins among the days of the timers',
    unit: 'row on Rate grid; 0: no day',
    description: 'A usual day, or that of the clock change',
    style: 'integer',
    rows: shape.days,
    name: 'timer_at',
    is: f`IF(${calendar.date}="",0,MIN(${calendar.change},${shape.changes})*${BLOCK_ROWS}+1)`,
  });
  return { slot, change, halfHour, at };
}

/**
 * Declares a load's hours on the days of the timers.
 *
 * @param grid the days
 * @param sheet the sheet they stand on
 * @param key begins the defined names
 * @param what the load in words
 * @param timer its hours
 * @param shape how much the workbook holds
 */
export function allowedHours(
  { slot, change, halfHour }: TimerGrid,
  sheet: RatesSheets['grid'],
  key: string,
  what: string,
  { firstSlot, length }: TimerFigures,
  shape: Shape,
): AllowedHours {
  const column = (
    label: string,
    unit: string,
    description: string,
    name: string,
    is: Node,
    rows = slot.rows,
  ) =>
    sheet.column({
      label: `${label}, ${what}`,
      unit,
      description,
      style: 'integer',
      rows,
      name: `${key}_${name}`,
      is,
    });
  const allowed = column(
    'May run',
    '1 or 0',
    'By the clock',
    'may_run',
    f`IF(OR(${slot}=${NO_SLOT},MOD(${slot}-${firstSlot},48)>=${length}),0,1)`,
  );
  const soFar = (half: string): Node =>
    f`COUNTIFS(${all(change)},${change},${all(halfHour)},"<="&${halfHour},${all(allowed)},1,${all(slot)},${half})`;
  const order = column(
    'No. of the half-hour',
    'from midnight or noon; 0: may not run',
    'Among those in which it may run',
    'turn',
    f`IF(${allowed}=0,0,IF(${slot}<${NOON},${soFar(`<${NOON}`)},${soFar(`>=${NOON}`)}))`,
  );
  const blocks = 1 + shape.changes;
  const number = sheet.numbers(
    'Day of the timers',
    'clock change no.',
    '0: a usual day',
    blocks,
    (row) => row,
  );
  const count = (label: string, name: string, half: string): Column =>
    column(
      label,
      'count',
      'Half-hours of the day in which it may run',
      name,
      f`COUNTIFS(${all(change)},${number},${all(allowed)},1,${all(slot)},${half})`,
      blocks,
    );
  return {
    order,
    before: count('Before noon', 'before_noon', `<${NOON}`),
    after: count('After noon', 'after_noon', `>=${NOON}`),
  };
}

/** Declares when the hot water is heated as things are, on the days of the timers. */
export function heatedHours(
  { slot }: TimerGrid,
  sheet: RatesSheets['grid'],
  { heatedFirst, heatedLength }: TankFigures,
): Column {
  return sheet.column({
    label: 'Hot water is heated',
    unit: '1 or 0',
    description: 'As things are, by the clock',
    style: 'integer',
    rows: slot.rows,
    name: 'water_heated',
    is: f`IF(OR(${slot}=${NO_SLOT},MOD(${slot}-${heatedFirst},48)>=${heatedLength}),0,1)`,
  });
}
