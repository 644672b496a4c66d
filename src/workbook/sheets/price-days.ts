import type { Node } from '../../formula/nodes.js';
import { all, type Column, f, here, type Line, movingStretch, named, up } from '../book/terms.js';
import { type AverageDays, CURVE_ROWS, SLOTS_A_DAY } from './average-days.js';
import type { BatteryFigures } from './battery-figures.js';
import { dayBlocks } from './day-blocks.js';
import type { Calendar } from './days.js';
import { filledFromGrid, type HalfHours, nextLevel } from './half-hours.js';
import { ofAllTariffs, type RatesSheets } from './rates.js';
import { WHERE_METERED } from './readings.js';
import { BLOCK_ROWS, type Shape } from './shape.js';

/** What dear half-hours take, of the average day's mean: they are the busy ones, and days differ. */
const DEAR_DEMAND_FACTOR = 2.5;
/** Share of a half-hour's charging that is counted on where energy kept now might be bought later. */
const REFILL_SHARE = 0.5;
/** Prices that differ by less are the same, p/kWh. */
const TOLERANCE = 1e-9;

/** What the battery's rule makes of a day's half-hourly prices, for every tariff that follows them. */
export interface PriceDays {
  /** 1 where a tariff follows the half-hourly price. */
  isFollowed: Line;
  /** Lowest price of each day. */
  lowest: Column;
  /** Stored kWh at the end of each half-hour. */
  level: Column;
}

export function priceDays(
  calendar: Calendar,
  halfHours: HalfHours,
  rates: RatesSheets,
  average: AverageDays,
  battery: BatteryFigures,
  shape: Shape,
): PriceDays {
  const { date, length, month, sheet } = calendar;
  const factors = ofAllTariffs(rates, 'priceFactor');
  const isFollowed = battery.sheet.line(27, 2, {
    label: 'A tariff follows the half-hourly price',
    unit: '1 or 0',
    style: 'integer',
    name: 'price_is_followed',
    is: f`IF(COUNTIFS(${factors},">0")>0,1,0)`,
  });
  const block = dayBlocks(calendar).whole(halfHours.pricePence);
  const ofDays = (
    label: string,
    unit: string,
    description: string,
    style: 'rate' | 'kwhFine' | 'integer',
    is: Node,
    name: string,
  ): Column =>
    sheet.column({
      label: `${label}, half-hourly price`,
      unit,
      description,
      style,
      rows: shape.days,
      is: f`IF(OR(${date}="",${isFollowed}=0),0,${is})`,
      name,
    });
  const lowest = ofDays(
    'Lowest price',
    '{minor}/kWh',
    'Of the day’s half-hours',
    'rate',
    f`MIN(${named('price_within_day', f`INDEX(${block},1):INDEX(${block},${length})`)})`,
    'price_lowest',
  );
  const dearKwh = ofDays(
    'A dear half-hour takes',
    'kWh stored',
    'Two and a half times the mean of the month’s average day',
    'kwhFine',
    f`${DEAR_DEMAND_FACTOR}*INDEX(${all(average.demandKwh)},${month})/${SLOTS_A_DAY}`,
    'dear_half_hour',
  );
  const curveRow = ofDays(
    'Midnight of the average day',
    'row of the curves',
    'Of the month',
    'integer',
    f`(${month}-1)*${CURVE_ROWS}+1`,
    'day_curve_row',
  );

  const { sheet: grid, usedKwh, day, halfHour, pricePence: price, storeChangeKwh } = halfHours;
  /** Half-hours of the rest of the day that were metered, with prices that meet a criterion. */
  const later = (name: string, comparison: '>' | '<' | '<=', than: Node): Node => {
    const rest = (of: Column) => movingStretch(of, 1, BLOCK_ROWS - 1);
    return named(
      name,
      f`COUNTIFS(${rest(day)},${day},${rest(usedKwh)},${WHERE_METERED},${rest(price)},${comparison}&(${than}))`,
    );
  };
  const ofDay = (of: Column): Node => here(of, day);
  const sunAt = (halfHours: Node): Node => f`INDEX(${all(average.sunCurve)},${ofDay(curveRow)}+${halfHours})`;
  const isIdle = named('price_rule_rests', f`${isFollowed}*ISNUMBER(${usedKwh})*${battery.usableKwh}=0`);
  // By the average day, until midnight.
  const sunLeft = named(
    'sun_still_to_come',
    f`${sunAt(f`${SLOTS_A_DAY}`)}-${sunAt(f`MIN(${SLOTS_A_DAY},${halfHour}+1)`)}`,
  );
  // Hangs on its own rows above: LibreOffice works other columns out in several threads, and fell where rows that the
  // counts look at were not worked out yet.
  const level = grid.column({
    label: 'Level, by the half-hourly price',
    unit: 'kWh stored',
    description: 'At the end of the half-hour, on every tariff that follows the price',
    style: 'kwhFine',
    rows: shape.halfHourRows,
    name: 'level_by_price',
  });
  grid.seed(level, f`${battery.startLevelKwh}`);
  // As far as a half-hour’s charging reaches, for dearer half-hours of the day that repay it.
  const fillUpTo = f`${battery.chargesFromGrid}*(${battery.reserveKwh}+${ofDay(dearKwh)}*${later('dearer_later_after_losses', '>', f`${price}/${battery.roundTrip}+${battery.wearPencePerKwh}+${TOLERANCE}`)}-${sunLeft}-${battery.chargeStepKwh}*${later('no_dearer_later', '<=', f`${price}+${TOLERANCE}`)})`;
  const needed = f`${ofDay(dearKwh)}*${later('dearer_later', '>', f`${price}+${TOLERANCE}`)}-${sunLeft}-${REFILL_SHARE}*${battery.chargeStepKwh}*${later('cheaper_later_after_losses', '<', f`(${price}-${battery.wearPencePerKwh})*${battery.roundTrip}-${TOLERANCE}`)}`;
  level.is = f`IF(${isIdle},${up(level)},${nextLevel(battery, {
    before: up(level),
    filled: filledFromGrid(battery, up(level), named('price_fills_up_to', fillUpTo)),
    keep: named('price_keeps', f`${battery.reserveKwh}+MAX(0,${needed})`),
    change: storeChangeKwh,
  })})`;
  return { isFollowed, lowest, level };
}
