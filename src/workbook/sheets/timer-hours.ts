import type { Node } from '../../formula/nodes.js';
import { all, type Column, call, down, f, type Line } from '../book/terms.js';
import type { Calendar, TariffDays } from './days.js';
import type { HalfHours } from './half-hours.js';
import type { PriceDays } from './price-days.js';
import type { RatesSheets } from './rates.js';
import { WHERE_METERED } from './readings.js';
import { type Shape, WEEK_ROWS } from './shape.js';
import type { TimedLoad } from './timers.js';

const SLOTS = 48;
const NOON = 24;
/** Rates closer than this are one, p/kWh. */
const SAME_RATE = 1e-9;
/** Stretches that cost the same but for what programs sum in orders of their own are one: then the first is told. */
const SAME_DIGITS = 9;

/** The hours of a usual day at which a load is cheapest on a tariff, by the clock. */
export interface CheapestHoursOfTariff {
  /** Half-hours from noon to their beginning, and how many they are; 0 where nothing is known. */
  fromNoon: Line;
  length: Line;
}

interface Shared {
  rates: RatesSheets;
  calendar: Calendar;
  halfHours: HalfHours;
  price: PriceDays;
  shape: Shape;
}

/**
 * Declares the cheapest hours on every tariff, by the rates of the last day: of a tariff with rates of its own the
 * longest stretch at its lowest mean rate of the week, of one that follows the half-hourly price the stretch that a usual
 * session needs at the lowest mean price. Within the hours that are allowed; they never span noon.
 */
export function cheapestHours(
  { rates, calendar, halfHours, price }: Shared,
  load: TimedLoad,
  tariffs: readonly TariffDays[],
): CheapestHoursOfTariff[] {
  const { figures, sessions, key, what } = load;
  const sheet = rates.grid;
  const fromNoon = sheet.numbers(
    `Half-hours from noon, ${what}`,
    'from 0',
    'A usual day from noon to noon',
    SLOTS,
    (slot) => slot,
  );
  const halfHour = f`MOD(${NOON}+${fromNoon},${SLOTS})`;
  const ofHalfHour = [all(halfHours.halfHour), halfHour, all(halfHours.usedKwh), WHERE_METERED] as const;
  const meanPrice = sheet.column({
    label: `Mean half-hourly price, ${what}`,
    unit: '{minor}/kWh',
    description: 'Of the half-hour of the day, over all that was metered',
    style: 'rate',
    rows: SLOTS,
    is: f`IF(${price.isFollowed}*${figures.isKnown}=0,0,${call('SUMIFS', [all(halfHours.pricePence), ...ofHalfHour])}/MAX(1,${call('COUNTIFS', ofHalfHour)}))`,
  });
  const needed = sheet.line(4, fromNoon.column, {
    label: `Half-hours that a usual session needs, ${what}`,
    unit: 'count',
    style: 'integer',
    name: `${key}_usual_half_hours`,
    is: f`IF(${figures.isKnown}*SUM(${all(sessions.kwh)})=0,1,INT(SUM(${all(sessions.kwh)})/COUNTIFS(${all(sessions.kwh)},">0")/${figures.stepKwh}-${SAME_RATE})+1)`,
  });
  const lastDay = f`MAX(1,COUNT(${all(calendar.date)}))`;
  return tariffs.map((days, t): CheapestHoursOfTariff => {
    const typed = rates.tariffs[t];
    if (typed === undefined) throw new RangeError(`there is no tariff ${t + 1}`);
    const column = (label: string, unit: string, style: 'integer' | 'rate', description: string): Column =>
      sheet.column({
        label: `${label}, ${what}, tariff ${t + 1}`,
        unit,
        description,
        style,
        rows: SLOTS,
      });
    const at = column(
      'Rows before it',
      'rows of the grid',
      'integer',
      'On the week’s first day, by the rates of the last day; blank where the load may not run',
    );
    const mean = column(
      'Mean rate',
      '{minor}/kWh',
      'rate',
      'Of the week, by the rates of the last day; blank where the load may not run',
    );
    const score = column(
      'Good for',
      'half-hours, or {minor} below 0',
      'rate',
      'From here on: half-hours at the lowest rate; by the half-hourly price, what a usual session costs',
    );
    const line = (row: number, column: Column, name: string, is: Node): Line =>
      sheet.line(row, column.column, {
        label: '',
        unit: '',
        style: 'integer',
        name: `${key}_${name}_${t + 1}`,
        is,
      });
    // By UTC, the clock's half-hours are others: as on the last day.
    const shift = f`IF(${typed.byUtc}=1,SUM(INDEX(${all(calendar.slotUtc)},${lastDay}))-SUM(INDEX(${all(calendar.slotLocal)},${lastDay})),0)`;
    const first = line(
      3,
      mean,
      'week_at',
      f`(MAX(1,SUM(INDEX(${all(days.set)},${lastDay})))-1)*${WEEK_ROWS}`,
    );
    const shifted = line(4, mean, 'week_shift', f`MOD(${shift},${SLOTS})`);
    const grid = all(typed.grid);
    at.is = f`IF(OR(${figures.isKnown}=0,MOD(${fromNoon}-${figures.fromNoon},${SLOTS})>=${figures.length}),"",${first}+MOD(${NOON}+${fromNoon}+${shifted},${SLOTS}))`;
    const week = call(
      'SUM',
      Array.from({ length: 7 }, (_, day) => f`INDEX(${grid},${at}+${day * SLOTS + 1})`),
    );
    mean.is = f`IF(${at}="","",${week}/7+${typed.priceFactor}*${meanPrice})`;
    const stretch = f`INDEX(${all(mean)},${fromNoon}+1):INDEX(${all(mean)},MIN(${SLOTS},${fromNoon}+${needed}))`;
    const run = f`IF(${mean}>MIN(${all(mean)})+${SAME_RATE},0,1+SUM(${down(score)}))`;
    score.is = f`IF(${mean}="","",IF(${typed.priceFactor}=0,${run},IF(COUNT(${stretch})<${needed},"",-ROUND(SUM(${stretch}),${SAME_DIGITS}))))`;
    const best = f`MAX(${all(score)})`;
    const length = line(
      4,
      score,
      'cheapest_length',
      f`IF(COUNT(${all(score)})=0,0,IF(${typed.priceFactor}=0,${best},${needed}))`,
    );
    return {
      fromNoon: line(3, score, 'cheapest_from_noon', f`IF(${length}=0,0,MATCH(${best},${all(score)},0)-1)`),
      length,
    };
  });
}
