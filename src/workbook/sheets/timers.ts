import type { Node } from '../../formula/nodes.js';
import type { SheetBuilder } from '../book/sheet-builder.js';
import { all, type Column, f, here, type Line, named } from '../book/terms.js';
import type { Calendar } from './days.js';
import type { TimersTerms } from './input-terms.js';
import type { RatesSheets } from './rates.js';
import type { ReadingsSheet } from './readings.js';
import type { Shape } from './shape.js';
import { type TankFigures, type TimerFigures, timersFigures } from './timer-figures.js';
import { type AllowedHours, allowedHours, heatedHours, type TimerGrid, timerGrid } from './timer-grid.js';
import { sessionNoons, type TimerSessions, timerSessions } from './timer-sessions.js';

/** A load with a timer: what it is worked with, its hours, and its sessions. */
export interface TimedLoad {
  /** Begins its defined names. */
  key: string;
  /** In words. */
  what: string;
  figures: TimerFigures;
  grid: TimerGrid;
  hours: AllowedHours;
  sessions: TimerSessions;
}

/** What all tariffs share of a load on a day. */
export interface LoadDays {
  load: TimedLoad;
  usedKwh: Column;
  changeKwh: Column;
  /** kWh of the day, as they are with the timer. */
  kwh: Column;
  /** What the timer adds to it: what it moves from one day into another. */
  changeOfDayKwh: Column;
  /** At the half-hourly price alone, pence: as it is with the timer, and what the timer changes. */
  atPrice: Column;
  changeAtPrice: Column;
}

/** The timers, up to what moves half-hours. */
export interface Timers {
  car: TimedLoad;
  /** 1 where the timer of a load is on. */
  isOn: Node;
  /** Flag of each half-hour of the days of the timers: 1 where the hot water is heated as things are. */
  heated: Column;
  waterIsKnown: Line;
  tank: TankFigures;
  /** The hot water, once it is known what could have been it in each half-hour. */
  hotWater: (start: Column, couldBeKwh: Column) => TimedLoad;
}

/**
 * Declares timers, their hours and their sessions: on the sheets of figures, of the rate grid and of the days.
 *
 * @param inputs the input cells of the timers
 * @param readings where loads were metered
 * @param calendar the days
 * @param rates the sheet of the rate grid
 * @param figures the sheet of figures
 * @param shape how much the workbook holds
 */
export function timersWorkings(
  inputs: TimersTerms,
  readings: ReadingsSheet,
  calendar: Calendar,
  rates: RatesSheets,
  figures: SheetBuilder,
  shape: Shape,
): Timers {
  const { car, water, tank, rowsWithoutImport } = timersFigures(inputs, readings, figures);
  const grid = timerGrid(rates, calendar, shape);
  const noon = sessionNoons(calendar, shape);
  const hours = allowedHours(grid, rates.grid, 'car', 'car', car, shape);
  const { carKwh } = readings.channels;
  const sessions = timerSessions(
    calendar,
    noon,
    grid,
    hours,
    car,
    { ...readings, rowsWithoutImport },
    { start: readings.start, kwh: carKwh, isRead: true },
    'car',
    'car',
    shape,
  );
  const waterHours = allowedHours(grid, rates.grid, 'water', 'hot water', water, shape);
  return {
    car: { key: 'car', what: 'car', figures: car, grid, hours, sessions },
    isOn: f`(${car.isOn}+${water.isOn})`,
    heated: heatedHours(grid, rates.grid, tank),
    waterIsKnown: water.isKnown,
    tank,
    hotWater: (start, kwh) => ({
      key: 'water',
      what: 'hot water',
      figures: water,
      grid,
      hours: waterHours,
      sessions: timerSessions(
        calendar,
        noon,
        grid,
        waterHours,
        water,
        { ...readings, rowsWithoutImport },
        { start, kwh, mostKwh: tank.kwhPerDay },
        'water',
        'hot water',
        shape,
      ),
    }),
  };
}

/**
 * What a load takes more in a half-hour with its timer than it took, below 0 less: it fills its hours in order of time,
 * each up to its power; what does not fit stays where it was.
 *
 * @param load the load
 * @param at the half-hour
 * @param metered what it took in it, kWh
 */
export function changeByTimer(
  { key, figures, grid, hours, sessions }: TimedLoad,
  {
    day,
    halfHour,
    readingRow,
    session,
    isMetered,
  }: Record<'day' | 'halfHour' | 'readingRow', Column> & Record<'session' | 'isMetered', Node>,
  metered: Node,
): Node {
  const { stepKwh, isOn } = figures;
  const ofSession = (column: Column): Node => here(column, session);
  const order = named(
    `${key}_turn_of_half_hour`,
    f`INDEX(${all(hours.order)},INDEX(${all(grid.at)},${day})+${halfHour})`,
  );
  const left = named(`${key}_left_of_session`, f`INDEX(${sessions.left},${day},1+${session}-${day})`);
  const filled = f`MAX(0,MIN(${stepKwh},${left}-${stepKwh}*(${order}-1)))`;
  const moved = f`IF(${order}=0,${metered}*${ofSession(sessions.share)},${filled})`;
  return f`IF(${readingRow}*${isOn}=0,0,IF(${ofSession(sessions.canMove)}*${isMetered}=0,0,${moved}-${metered}))`;
}

/** What a load without a meter took in a half-hour: its session’s share of what could have been it. */
export function shareOf({ sessions: { part } }: TimedLoad, session: Node, couldBeKwh: Column): Node {
  if (part === undefined) return f`${couldBeKwh}`;
  return f`${couldBeKwh}*${here(part, session)}`;
}
