import type { Node } from '../../formula/nodes.js';
import { all, type Column, f, named, namedOf, type Term } from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import { dayBlocks } from './day-blocks.js';
import type { Calendar, TariffDays } from './days.js';
import type { HalfHours } from './half-hours.js';
import type { PriceDays } from './price-days.js';
import type { RateDays } from './rate-days.js';
import type { TariffRates } from './rates.js';
import { BLOCK_ROWS, type Shape } from './shape.js';

/** What the lines of a tariff’s days are made of. */
export interface DayContext {
  tariff: number;
  calendar: Calendar;
  halfHours: HalfHours;
  rates: TariffRates;
  days: TariffDays;
  battery: BatteryFigures;
  /** The same for every tariff that follows the half-hourly price. */
  atPrice: AtPrice;
  shape: Shape;
}

/** A day at the half-hourly price alone, pence: use, and what the battery that follows it buys and gives. */
export interface AtPrice {
  importPence: Column;
  boughtPence: Column;
  givenPence: Column;
}

export function columnMaker({ tariff, calendar, shape }: DayContext) {
  return (
    label: string,
    unit: string,
    description: string,
    style: 'pence' | 'rate' | 'kwhFine' | 'integer',
    is: Node,
    name?: string,
  ): Column =>
    calendar.sheet.column({
      label: `${label}, tariff ${tariff + 1}`,
      unit,
      description,
      style,
      rows: shape.days,
      is,
      ...(name === undefined ? {} : { name: `${name}_${tariff + 1}` }),
    });
}

/** The day's rates in the grid. */
export function ratesOfDay(context: DayContext): Node {
  return ratesBetween(context, 'rates_of_day', undefined, f`${BLOCK_ROWS - 1}`);
}

/**
 * Rates of a tariff’s grid, under a name.
 *
 * @param from half-hours after the midnight of the day of the row, of the first; without one, that midnight
 * @param to the same of the last
 */
export function ratesBetween(
  { tariff, rates, days }: DayContext,
  name: string,
  from: Node | undefined,
  to: Node,
  at: Node = f`${days.at}`,
): Node {
  const grid = all(rates.grid);
  const first = from === undefined ? at : f`${at}+${from}`;
  return named(`${name}_${tariff + 1}`, f`INDEX(${grid},${first}):INDEX(${grid},${at}+${to})`);
}

/** The day's rates × something, and the price × it where the tariff follows one. */
export function pricedMaker(context: DayContext) {
  const slice = ratesOfDay(context);
  const { priceFactor } = context.rates;
  return (what: Term | Node, atPrice: Column): Node =>
    f`SUMPRODUCT(${slice},${what})+IF(${priceFactor}=0,0,${priceFactor}*${atPrice})`;
}

/** Makes columns of a load among the days, whatever the tariff. */
export function loadColumnMaker(
  { calendar, shape }: Pick<DayContext, 'calendar' | 'shape'>,
  key: string,
  labelled: (label: string) => string,
) {
  return (
    label: string,
    unit: string,
    description: string,
    style: 'pence' | 'rate' | 'kwhFine' | 'integer',
    name: string,
    is: Node,
  ): Column =>
    calendar.sheet.column({
      label: labelled(label),
      unit,
      description,
      style,
      rows: shape.days,
      name: `${key}_${name}`,
      is,
    });
}

/** Half-hours of the day: what the battery buys beyond the sun, AC kWh above 0, and how far its level falls. */
function flowsOfDay(
  level: Column,
  { calendar, halfHours, battery }: Pick<DayContext, 'calendar' | 'halfHours' | 'battery'>,
) {
  const blocks = dayBlocks(calendar);
  const [now, earlier] = [blocks.whole(level), blocks.earlier(level)];
  const sun = blocks.whole(halfHours.exportKwh);
  const { chargeEfficiency } = battery;
  return {
    now,
    earlier,
    bought: namedOf(
      level,
      'bought_of_day',
      f`(${now}-${earlier}>${chargeEfficiency}*${sun})*((${now}-${earlier})/${chargeEfficiency}-${sun})`,
    ),
    fallen: namedOf(level, 'fallen_of_day', f`(${earlier}>${now})*(${earlier}-${now})`),
  };
}

/** Declares what tariffs that follow the half-hourly price have in common: the battery runs alike on all of them. */
export function atPrice(
  { calendar, halfHours, battery, shape }: Pick<DayContext, 'calendar' | 'halfHours' | 'battery' | 'shape'>,
  price: PriceDays,
): AtPrice {
  const ofDay = dayBlocks(calendar).whole;
  const block = ofDay(halfHours.pricePence);
  const { bought, fallen } = flowsOfDay(price.level, { calendar, halfHours, battery });
  const day = (label: string, description: string, what: Node, name: string): Column =>
    calendar.sheet.column({
      label: `${label}, half-hourly price`,
      unit: '{minor}',
      description,
      style: 'pence',
      rows: shape.days,
      is: f`IF(${price.isFollowed}=0,0,SUMPRODUCT(${block},${what}))`,
      name,
    });
  return {
    importPence: day(
      'Energy without battery',
      'Price × import',
      ofDay(halfHours.importKwh),
      'price_energy_pence',
    ),
    boughtPence: day(
      'Battery’s purchases',
      'Price × what it takes from the grid beyond the sun',
      bought,
      'price_bought_pence',
    ),
    givenPence: day('Worth of what it gives', 'Price × what its level falls by', fallen, 'price_given_pence'),
  };
}

/** What the home's use without a battery costs on a day. */
export interface EnergyDays {
  energyPence: Column;
  offPeakKwh: Column;
}

export function energyDays(context: DayContext): EnergyDays {
  const column = columnMaker(context);
  const { calendar, halfHours, rates, days, atPrice } = context;
  const imported = dayBlocks(calendar).whole(halfHours.importKwh);
  const slice = ratesOfDay(context);
  const lowest = f`INDEX(${all(rates.offPeak)},${days.set})`;
  return {
    energyPence: column(
      'Energy without battery',
      '{minor}',
      'Unit rates × import, with VAT',
      'pence',
      f`SUMPRODUCT(${imported},${slice})+IF(${rates.priceFactor}=0,0,${rates.priceFactor}*${atPrice.importPence})`,
      'energy_pence',
    ),
    offPeakKwh: column(
      'Off-peak',
      'kWh',
      'Import without battery at the tariff’s lowest rate',
      'kwhFine',
      f`IF(${days.set}=0,0,IF(ISNUMBER(${lowest}),SUMPRODUCT(${imported},(${slice}=${lowest})*1),0))`,
      'off_peak_kWh',
    ),
  };
}

/** Lowest rate of a day: of the tariff's own rates, and the lowest price where it follows one. */
export function lowestOfDay(
  context: DayContext,
  { dayOfRow, lowest: ofRates }: RateDays,
  price: PriceDays,
): Column {
  const { tariff, calendar, rates, days } = context;
  const lowest = ofRates[tariff];
  if (lowest === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  const own = f`INDEX(${all(lowest)},INDEX(${all(dayOfRow)},${days.at}))`;
  return columnMaker(context)(
    'Lowest rate',
    '{minor}/kWh',
    'Of the day’s half-hours',
    'rate',
    f`IF(${calendar.date}="","",${own}+IF(${rates.priceFactor}=0,0,${rates.priceFactor}*${price.lowest}))`,
    'lowest_rate',
  );
}

/** What the battery changes on a day. */
export interface BatteryDays {
  boughtPence: Column;
  boughtKwh: Column;
  chargedKwh: Column;
  givenPence: Column;
  soldKwh: Column;
  soldPence: Column;
}

export function batteryDays(context: DayContext, level: Column): BatteryDays {
  const column = columnMaker(context);
  const { calendar, halfHours, rates, battery, atPrice } = context;
  const stored = dayBlocks(calendar).whole(halfHours.storeChangeKwh);
  const { now, earlier, bought, fallen } = flowsOfDay(level, context);
  const rate = ratesOfDay(context);
  const priced = pricedMaker(context);
  const beyondUse = f`(${earlier}-${now}+${stored})`;
  const sold = namedOf(level, 'sold_of_day', f`(${stored}<=0)*(${beyondUse}>0)*${beyondUse}`);
  const withBattery = (is: Node): Node => f`IF(${battery.usableKwh}=0,0,${is})`;
  // It sells by the tariff's own rates only.
  const whereSold = (is: Node): Node =>
    f`IF(OR(${battery.mayExport}=0,${rates.priceFactor}<>0),0,${is})*${battery.dischargeEfficiency}`;
  const kwh = 'kWh';
  const pence = '{minor}';
  return {
    boughtPence: column(
      'Battery’s purchases',
      pence,
      'What it takes from the grid beyond the sun, at the unit rates',
      'pence',
      withBattery(priced(bought, atPrice.boughtPence)),
      'bought_pence',
    ),
    boughtKwh: column(
      'Battery buys',
      kwh,
      'From the grid, beyond the sun',
      'kwhFine',
      withBattery(f`SUMPRODUCT(${bought})`),
      'bought_kWh',
    ),
    chargedKwh: column(
      'Battery takes',
      'kWh AC',
      'From grid and sun',
      'kwhFine',
      withBattery(f`SUMPRODUCT((${now}>${earlier})*(${now}-${earlier}))/${battery.chargeEfficiency}`),
      'charged_kWh',
    ),
    givenPence: column(
      'Worth of what it gives',
      pence,
      'At the unit rates',
      'pence',
      withBattery(f`${battery.dischargeEfficiency}*(${priced(fallen, atPrice.givenPence)})`),
      'given_pence',
    ),
    soldKwh: column(
      'Battery sells',
      kwh,
      'Beyond what the home takes',
      'kwhFine',
      whereSold(f`SUMPRODUCT(${sold})`),
      'sold_kWh',
    ),
    soldPence: column(
      'The same at the unit rates',
      pence,
      'Given, but not used in place of import',
      'pence',
      whereSold(f`SUMPRODUCT(${rate},${sold})`),
      'sold_pence',
    ),
  };
}
