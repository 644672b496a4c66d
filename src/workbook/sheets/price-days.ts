import type { Node } from '../../formula/nodes.js';
import { across, all, type Column, f, type Line } from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import type { Calendar } from './days.js';
import type { HalfHours } from './half-hours.js';
import { chargesBelow, servesFrom } from './rate-days.js';
import type { RatesSheets } from './rates.js';
import type { Shape } from './shape.js';
import { ofDay } from './tariff-days.js';

/** What the battery's rule makes of a day's half-hourly prices, for every tariff that follows them. */
export interface PriceDays {
  /** 1 where a tariff follows the half-hourly price. */
  isFollowed: Line;
  lowest: Column;
  /** What the battery does in each half-hour: 1 charges from the grid, 2 holds, 3 serves the home. */
  code: Column;
}

export function priceDays(
  calendar: Calendar,
  halfHours: HalfHours,
  rates: RatesSheets,
  battery: BatteryFigures,
  halfHoursToFill: Column,
  shape: Shape,
): PriceDays {
  const { date, length, sheet } = calendar;
  const factors = across(rates.tariffs.map(({ priceFactor }) => priceFactor));
  const isFollowed = battery.sheet.line(27, 2, {
    label: 'A tariff follows the half-hourly price',
    unit: '1 or 0',
    style: 'integer',
    name: 'price_is_followed',
    is: f`IF(COUNTIFS(${factors},">0")>0,1,0)`,
  });
  const block = ofDay(halfHours.pricePence);
  const prices = f`INDEX(${block},1):INDEX(${block},${length})`;
  const ofPrices = (label: string, description: string, is: Node, name: string): Column =>
    sheet.column({
      label: `${label}, half-hourly price`,
      unit: '{minor}/kWh',
      description,
      style: 'rate',
      rows: shape.days,
      is: f`IF(OR(${date}="",${isFollowed}=0),0,${is})`,
      name,
    });
  const ranked = (name: 'SMALL' | 'LARGE'): Node => ({
    kind: 'call',
    name,
    args: [prices, f`${halfHoursToFill}`],
  });
  const cheap = ofPrices(
    'Charging needs prices up to',
    'Dearest of the cheapest half-hours that fill the battery',
    ranked('SMALL'),
    'price_cheap',
  );
  const dear = ofPrices('Dear price', 'Lowest of as many dearest half-hours', ranked('LARGE'), 'price_dear');
  const lowest = ofPrices('Lowest price', 'Of the day’s half-hours', f`MIN(${prices})`, 'price_lowest');
  const chargeBelow = ofPrices(
    'Charges below',
    'Where the day needs it and it beats losses and wear at the dear price; the lowest price where it never does',
    chargesBelow(battery, { cheap, dear, lowest }),
    'price_charge_below',
  );
  const serveFrom = ofPrices(
    'Serves from',
    'Price that repays what refilling costs; the lowest price on a day without charging',
    servesFrom(battery, { cheap, dear, lowest, chargeBelow }),
    'price_serve_from',
  );
  const { start, pricePence, day } = halfHours;
  const reached = (of: Column): Node => f`(${pricePence}>=INDEX(${all(of)},${day}))`;
  const code = halfHours.sheet.column({
    label: 'Battery, by the half-hourly price',
    unit: '1 charges, 2 holds, 3 serves',
    description: 'What the rule has it do on tariffs that follow the price',
    style: 'integer',
    rows: shape.halfHourRows,
    is: f`IF(OR(${start}="",${isFollowed}=0),2,1+${reached(chargeBelow)}+${reached(serveFrom)})`,
  });
  return { isFollowed, lowest, code };
}
