import type { Node } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { DAY_NAMES } from '../../tariffs/weekdays.js';
import { all, type Column, f } from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import type { Calendar, TariffDays } from './days.js';
import { type RatesSheets, SET_ROWS } from './rates.js';
import { BLOCK_ROWS, type Shape, WEEK_ROWS, WEEK_SLOTS } from './shape.js';

const DAYS = DAY_NAMES.length;
const SET_DAYS = MAX_RATE_PERIODS * DAYS;
const SLOTS = WEEK_SLOTS / DAYS;
/** Rates that differ by less are the same, p/kWh. */
const TOLERANCE = 1e-9;

/** What the battery's rule makes of a tariff's days: each weekday under each set of rates, each day with a clock change. */
export interface RateDaysOfTariff {
  lowest: Column;
  /** What the battery does in each row of the grid: 1 charges from the grid, 2 holds, 3 serves the home, 4 sells. */
  code: Column;
}

export interface RateDays {
  /** The day of each row of the grid, a row of the days beside it. */
  dayOfRow: Column;
  /** First row of each day in the grid, from 1, and its half-hours. */
  start: Column;
  length: Column;
  tariffs: readonly RateDaysOfTariff[];
}

/** The lines of such a day that tariffs share. */
interface DayTerms {
  dayOfRow: Column;
  set: Column;
  start: Column;
  length: Column;
  dayOfChange: Column;
  halfHoursToFill: Column;
}

/** Rate below which the battery charges from the grid; the lowest rate of the day where it never does. */
export function chargesBelow(
  battery: BatteryFigures,
  { cheap, dear, lowest }: { cheap: Column; dear: Column; lowest: Column },
): Node {
  const worthwhile = f`(${dear}-${battery.wearPencePerKwh})*${battery.roundTrip}-${TOLERANCE}`;
  return f`IF(${battery.chargesFromGrid}=0,${lowest},MAX(${lowest},MIN(${cheap}+${TOLERANCE},${worthwhile})))`;
}

/** Rate from which it serves the home: what repays refilling; the lowest rate on a day without charging. */
export function servesFrom(
  battery: BatteryFigures,
  { cheap, dear, lowest, chargeBelow }: Record<'cheap' | 'dear' | 'lowest' | 'chargeBelow', Column>,
): Node {
  const repaid = f`MIN(${cheap}/${battery.roundTrip}+${battery.wearPencePerKwh},${dear})-${TOLERANCE}`;
  return f`IF(${chargeBelow}<=${lowest},${lowest},MAX(${chargeBelow},${repaid}))`;
}

/** Declares the battery's choices right of the rates, on the sheet of the grid. */
export function rateDays(
  rates: RatesSheets,
  calendar: Calendar,
  days: readonly TariffDays[],
  battery: BatteryFigures,
  shape: Shape,
): RateDays {
  const terms = dayTerms(rates, calendar, battery, shape);
  return {
    dayOfRow: terms.dayOfRow,
    start: terms.start,
    length: terms.length,
    tariffs: days.map((ofTariff, t) => ofOneTariff(rates, ofTariff, battery, terms, t)),
  };
}

function dayTerms(
  { grid: sheet }: RatesSheets,
  calendar: Calendar,
  battery: BatteryFigures,
  shape: Shape,
): DayTerms {
  const gridRows = SET_ROWS + shape.changes * BLOCK_ROWS;
  const values = (
    label: string,
    unit: string,
    description: string,
    rows: number,
    of: (row: number) => number,
    name?: string,
  ): Column =>
    sheet.column({
      label,
      unit,
      description,
      style: 'integer',
      rows,
      values: Array.from({ length: rows }, (_, row) => of(row)),
      ...(name === undefined ? {} : { name }),
    });
  const dayOfRow = values(
    'Day of the rates',
    'row of the days beside',
    'Weekday under a set of rates, or day with a clock change',
    gridRows,
    (row) =>
      row < SET_ROWS
        ? Math.floor(row / WEEK_ROWS) * DAYS + Math.floor(((row % WEEK_ROWS) % WEEK_SLOTS) / SLOTS) + 1
        : SET_DAYS + Math.floor((row - SET_ROWS) / BLOCK_ROWS) + 1,
    'rate_day_of_row',
  );
  const dayRows = SET_DAYS + shape.changes;
  const set = values('Set of the day', 'from 1; 0: as of the day', 'Which rates hold', dayRows, (row) =>
    row < SET_DAYS ? Math.floor(row / DAYS) + 1 : 0,
  );
  const start = values('Begins', 'row of the grid', 'First half-hour of the day', dayRows, (row) =>
    row < SET_DAYS
      ? Math.floor(row / DAYS) * WEEK_ROWS + (row % DAYS) * SLOTS + 1
      : SET_ROWS + (row - SET_DAYS) * BLOCK_ROWS + 1,
  );
  const change = values('Clock change of the day', 'no.', '0: any week', dayRows, (row) =>
    Math.max(0, row - SET_DAYS + 1),
  );
  const dayOfChange = values('Its day', 'row of Days', '0: any week', SET_DAYS, () => 0);
  sheet.continued(dayOfChange, shape.changes, f`IFERROR(MATCH(${change},${all(calendar.change)},0),1)`);
  const length = values(
    'Half-hours of the day',
    'count',
    '48, or those of the day with a clock change',
    SET_DAYS,
    () => SLOTS,
  );
  sheet.continued(length, shape.changes, f`MAX(1,SUM(INDEX(${all(calendar.length)},${dayOfChange})))`);
  const halfHoursToFill = sheet.column({
    label: 'Half-hours to fill the battery',
    unit: 'count',
    description: 'At full power, from the reserve; at least 1, at most the day’s',
    style: 'integer',
    rows: dayRows,
    is: f`MIN(${length},MAX(1,${battery.halfHoursToFill}))`,
  });
  return { dayOfRow, set, start, length, dayOfChange, halfHoursToFill };
}

function ofOneTariff(
  { grid: sheet, tariffs }: RatesSheets,
  ofTariff: TariffDays,
  battery: BatteryFigures,
  terms: DayTerms,
  tariff: number,
): RateDaysOfTariff {
  const typed = tariffs[tariff];
  if (typed === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  const { dayOfRow, set, start, length, dayOfChange, halfHoursToFill } = terms;
  const grid = all(typed.grid);
  const ofDay = f`INDEX(${grid},${start}):INDEX(${grid},${start}+${length}-1)`;
  const column = (
    label: string,
    unit: string,
    description: string,
    style: 'rate' | 'integer',
    is: Node,
    rows = halfHoursToFill.rows,
    name?: string,
  ): Column =>
    sheet.column({
      label: `${label}, tariff ${tariff + 1}`,
      unit,
      description,
      style,
      rows,
      is,
      ...(name === undefined ? {} : { name: `${name}_${tariff + 1}` }),
    });
  const rate = (label: string, description: string, is: Node): Column =>
    column(label, '{minor}/kWh', description, 'rate', is);
  const ranked = (name: 'SMALL' | 'LARGE'): Node => ({
    kind: 'call',
    name,
    args: [ofDay, f`${halfHoursToFill}`],
  });
  const cheap = rate(
    'Charging needs rates up to',
    'Dearest of the cheapest half-hours that fill the battery',
    ranked('SMALL'),
  );
  const dear = rate('Dear rate', 'Lowest of as many dearest half-hours', ranked('LARGE'));
  const lowest = rate('Lowest rate', 'Of the day’s half-hours', f`MIN(${ofDay})`);
  const chargeBelow = rate(
    'Charges below',
    'Where the day needs it and it beats losses and wear at the dear rate; the lowest rate where it never does',
    chargesBelow(battery, { cheap, dear, lowest }),
  );
  const serveFrom = rate(
    'Serves from',
    'Rate that repays what refilling costs; the lowest rate on a day without charging',
    servesFrom(battery, { cheap, dear, lowest, chargeBelow }),
  );
  const inForce = f`MAX(1,IF(${set}>0,${set},SUM(INDEX(${all(ofTariff.set)},${dayOfChange}))))`;
  const exportRate = f`INDEX(${all(typed.exportRate)},${inForce})`;
  const sells = column(
    'Sells',
    '1 or 0',
    'It may export, and the export rate beats the refill, wear and every rate of the day',
    'integer',
    f`IF(${battery.mayExport}=0,0,IF(AND(${exportRate}-${battery.wearPencePerKwh}>${cheap}/${battery.roundTrip}+${TOLERANCE},${exportRate}>=MAX(${ofDay})),1,0))`,
  );
  const at = (of: Column): Node => f`INDEX(${all(of)},${dayOfRow})`;
  const code = column(
    'Battery',
    '1 charges, 2 holds, 3 serves, 4 sells',
    'What the rule has it do in this half-hour of the week',
    'integer',
    f`1+(${typed.grid}>=${at(chargeBelow)})+(${typed.grid}>=${at(serveFrom)})*(1+${at(sells)})`,
    dayOfRow.rows,
    'battery_code',
  );
  return { lowest, code };
}
