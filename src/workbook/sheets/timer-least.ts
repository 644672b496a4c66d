import type { Node } from '../../formula/nodes.js';
import { all, type Column, down, f, type Line, named } from '../book/terms.js';
import { type DayBlocks, dayBlocks } from './day-blocks.js';
import type { MonthColumns, Months } from './months.js';
import type { PriceDays } from './price-days.js';
import { BLOCK_ROWS, WEEK_ROWS, WEEK_SLOTS } from './shape.js';
import { columnMaker, type DayContext, loadColumnMaker, ratesBetween } from './tariff-days.js';
import type { TimedLoad } from './timers.js';

const SLOTS = 48;
const NOON = 24;

/** What a load takes in the two halves of a session, as arrays: after the noon of the day of the row, and in the morning after it. */
export interface SessionHalves {
  afterNoon: Node;
  nextMorning: Node;
}

/** A load whose least is asked for, and what it takes in a session. */
export interface LeastLoad {
  load: TimedLoad;
  halves: SessionHalves;
}

/** A session’s half-hours of a column of half-hours. */
export function halvesOf({ afterNoon, nextMorning }: DayBlocks, column: Column): SessionHalves {
  return { afterNoon: afterNoon(column), nextMorning: nextMorning(column) };
}

/** What all tariffs share of the least that a load can cost. */
export interface LeastDays {
  /** 1 where the session of the day’s noon is one that can be told: moved as a whole, and no clock changes in it. */
  counts: Column;
  /** Cheapest half-hours of its hours that the session’s kWh fill, the last one in part. */
  neededHalfHours: Column;
  /** Of the session, by the half-hourly price alone, pence: what it costs beyond the least. */
  beyondAtPrice: Column;
  of: LeastLoad;
}

type Shared = Pick<DayContext, 'calendar' | 'halfHours' | 'shape'>;

/** All kWh of a session at the rate of the last half-hour needed, less what each cheaper one saves against it. */
function leastCost(fitsKwh: Column, stepKwh: Line, rates: Node, last: Column): Node {
  return f`(${fitsKwh}*${last}-${stepKwh}*SUMPRODUCT((${rates}<${last})*(${last}-${rates})))`;
}

/**
 * Declares what is the same for all tariffs: which sessions can be told, and the least by the half-hourly price.
 * Source of the method: the fractional knapsack, as `leastCostOfSession`.
 */
export function leastDays(context: Shared, of: LeastLoad, price: PriceDays): LeastDays {
  const { load, halves } = of;
  const { figures, grid, sessions } = load;
  const { calendar, halfHours } = context;
  const column = loadColumnMaker(context, load.key, (label) => `${label}, ${load.what}`);
  const counts = column(
    'Least cost can be told',
    '1 or 0',
    'The session fits into its hours, which do not take in noon, and no clock changes in it',
    'integer',
    'least_counts',
    f`IF(AND(${sessions.canMove}=1,${sessions.staysKwh}=0,${figures.spansNoon}=0,SUM(${grid.at})=1,SUM(${down(grid.at)})=1),1,0)`,
  );
  const neededHalfHours = column(
    'Half-hours needed',
    'count',
    'The cheapest of its hours that the session’s kWh fill, the last one in part',
    'integer',
    'needed_half_hours',
    f`IF(${counts}=0,0,MIN(${figures.length},INT(${sessions.fitsKwh}/${figures.stepKwh})+1))`,
  );
  // Between the two days of a session stand the rows that autumn needs: of their prices, which are 0, none counts.
  const gap = BLOCK_ROWS - SLOTS;
  const gapBetween = f`${gap}*(${figures.fromNoon}<${NOON})*(${figures.stretchTo}>${NOON})`;
  const noonRow = f`(${calendar.number}-1)*${BLOCK_ROWS}+${NOON}`;
  const row = (label: string, description: string, name: string, is: Node): Column =>
    column(
      label,
      'row of Grid, from 1',
      description,
      'integer',
      name,
      f`IF(${price.isFollowed}*${counts}=0,0,${is})`,
    );
  const from = row(
    'Hours begin',
    'Of the session, where a tariff follows the half-hourly price',
    'hours_from_row',
    f`${noonRow}+1+${figures.fromNoon}+(${figures.fromNoon}>=${NOON})*${gap}`,
  );
  const to = row(
    'Hours end',
    'Their last half-hour',
    'hours_to_row',
    f`${noonRow}+${figures.stretchTo}+(${figures.stretchTo}>${NOON})*${gap}`,
  );
  const prices = all(halfHours.pricePence);
  const slice = named(`price_of_${load.key}_hours`, f`INDEX(${prices},${from}):INDEX(${prices},${to})`);
  const last = column(
    'Dearest price needed',
    '{minor}/kWh',
    'Of the cheapest half-hours of the session that its kWh fill',
    'rate',
    'last_price',
    f`IF(${price.isFollowed}*${counts}=0,"",SMALL(${slice},${neededHalfHours}+IF(${neededHalfHours}<=COUNTIFS(${slice},"<0"),0,${gapBetween})))`,
  );
  const priceOf = halvesOf(dayBlocks(calendar), halfHours.pricePence);
  const now = column(
    'Session costs, half-hourly price',
    '{minor}',
    'At the price, as it is with its timer',
    'pence',
    'price_session_pence',
    f`IF(${last}="",0,SUMPRODUCT(${priceOf.afterNoon},${halves.afterNoon})+SUMPRODUCT(${priceOf.nextMorning},${halves.nextMorning}))`,
  );
  const beyondAtPrice = column(
    'Session beyond its least, half-hourly price',
    '{minor}',
    'What it costs more at the price than in the cheapest half-hours of its hours',
    'pence',
    'price_beyond_least',
    f`IF(${last}="",0,${now}-${leastCost(sessions.fitsKwh, figures.stepKwh, slice, last)}-${figures.stepKwh}*${gapBetween}*MAX(0,${last}))`,
  );
  return { counts, neededHalfHours, beyondAtPrice, of };
}

/** What a load costs beyond the least on a tariff, a session. */
export interface BeyondLeast {
  /** Rate of the last half-hour needed; blank where the session’s least can’t be told. */
  lastRate: Column;
  /** Pence. */
  beyondLeast: Column;
}

/**
 * What a load costs beyond the least on a tariff, session by session: as it is with its timer, or as it was metered
 * where that is off. A session whose rates change in it counts 0, so that the saving is never said too large.
 */
export function beyondLeast(
  context: DayContext,
  { counts, neededHalfHours, beyondAtPrice, of }: LeastDays,
): BeyondLeast {
  const { rates, days: tariffDays } = context;
  const { figures, sessions, key, what } = of.load;
  const column = columnMaker(context);
  const { at } = tariffDays;
  // A session ends a day and a half after the midnight of its day. Where the home's clock is ahead of UTC, a week by UTC begins
  // late on its last day: the same hours stand at its beginning too.
  const sessionAt = named(
    `session_at_${context.tariff + 1}`,
    f`${at}-${WEEK_SLOTS}*(MOD(${at}-1,${WEEK_ROWS})>=${WEEK_SLOTS - NOON})`,
  );
  const ratesOf = (name: string, from: Node, to: Node): Node =>
    ratesBetween(context, name, from, to, sessionAt);
  const between = (name: string, from: number, to: number): Node => ratesOf(name, f`${from}`, f`${to}`);
  const slice = ratesOf(`rates_of_${key}_hours`, f`${figures.firstRow}`, f`${figures.lastRow}`);
  const session = between('rates_of_session', NOON, NOON + SLOTS - 1);
  const goesOn = f`MOD(${down(at)}-${at}-${SLOTS},${WEEK_SLOTS})=0`;
  const last = column(
    `Dearest rate needed, ${what}`,
    '{minor}/kWh',
    'Of the cheapest half-hours of the session that its kWh fill; blank where it can’t be told',
    'rate',
    f`IF(${counts}=0,"",IF(${goesOn},IF(${rates.priceFactor}=0,SMALL(${slice},${neededHalfHours}),IF(MIN(${session})=MAX(${session}),0,"")),""))`,
    `${key}_last_rate`,
  );
  const afterNoon = between('rates_after_noon', NOON, SLOTS - 1);
  const nextMorning = between('rates_next_morning', SLOTS, SLOTS + NOON - 1);
  const now = column(
    `Session costs, ${what}`,
    '{minor}',
    'At the unit rates, as it is with its timer; 0 where the tariff follows the half-hourly price',
    'pence',
    f`IF(OR(${last}="",${rates.priceFactor}<>0),0,SUMPRODUCT(${of.halves.afterNoon},${afterNoon})+SUMPRODUCT(${of.halves.nextMorning},${nextMorning}))`,
  );
  const beyond = column(
    `Session beyond its least, ${what}`,
    '{minor}',
    'What it costs more at the unit rates than in the cheapest half-hours of its hours; below 0 where these are dearer',
    'pence',
    f`IF(${last}="",0,IF(${rates.priceFactor}<>0,${rates.priceFactor}*${beyondAtPrice},${now}-${leastCost(sessions.fitsKwh, figures.stepKwh, slice, last)}))`,
    `${key}_beyond_least`,
  );
  return { lastRate: last, beyondLeast: beyond };
}

/** Sum over the period of what a load costs beyond its least on a tariff, pence. */
export function beyondLeastOfPeriod(
  { columns, selected }: Months & { columns: MonthColumns },
  tariff: number,
  beyond: Column,
  { key, what }: { key: string; what: string },
): Line {
  const column = columns.column(
    `Beyond the least, ${what}, tariff ${tariff + 1}`,
    '{minor}',
    'Sum of the sessions that begin in the month',
    'pence',
    columns.ofDays(beyond),
  );
  return columns.sum(column, selected, 'pence', `period_${key}_beyond_least_${tariff + 1}`);
}
