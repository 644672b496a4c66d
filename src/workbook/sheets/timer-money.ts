import type { Node } from '../../formula/nodes.js';
import { type Column, f, type Line, named, type Term, up } from '../book/terms.js';
import { dayBlocks } from './day-blocks.js';
import type { Calendar } from './days.js';
import type { HalfHours } from './half-hours.js';
import { billed } from './months.js';
import type { PriceDays } from './price-days.js';
import { columnMaker, type DayContext, loadColumnMaker, pricedMaker } from './tariff-days.js';
import { bySet, inMonth, type MonthContext, type TariffMonths } from './tariff-months.js';
import {
  type BeyondLeast,
  beyondLeast,
  beyondLeastOfPeriod,
  halvesOf,
  type LeastDays,
  type SessionHalves,
} from './timer-least.js';
import type { LoadDays, TimedLoad, Timers } from './timers.js';

/** Noon, in days. */
const NOON = 0.5;

/** What all tariffs share of what the timers change on a day. */
export interface TimerDays {
  importChangeKwh: Column;
  exportChangeKwh: Column;
  /** The same at the half-hourly price alone, pence. */
  changeAtPrice: Column;
  /** 1 where a timer is on. */
  isOn: Node;
  car: LoadDays;
  water: WaterDays;
}

/** What all tariffs share of the hot water on a day. */
export interface WaterDays {
  load: TimedLoad;
  /** kWh of each half-hour of the day as it was, as an array. */
  shares: Node;
  kwh: Column;
  changeOfDayKwh: Column;
  /** At the half-hourly price alone, pence: as it was, and what the timer changes. */
  asMeteredAtPrice: Column;
  changeAtPrice: Column;
}

/** Use of a load in the chosen period, kWh. */
export interface LoadPeriod {
  kwh: Line;
  changeKwh: Line;
}

type Shared = Pick<DayContext, 'calendar' | 'halfHours' | 'shape'>;

/**
 * Half-hours of a day: what the timers add to the import without battery, as an array. What was counted both ways is so
 * still: the rest tells import before from import after.
 */
function importChangeByTimers(
  calendar: Pick<Calendar, 'number'>,
  { importKwh, exportKwh, carChangeKwh, waterChangeKwh }: HalfHours,
): Node {
  const ofDay = dayBlocks(calendar).whole;
  const after = f`(${ofDay(importKwh)}-${ofDay(exportKwh)})`;
  const before = f`(${ofDay(importKwh)}-${ofDay(exportKwh)}-${ofDay(carChangeKwh)}-${ofDay(waterChangeKwh)})`;
  return named('timers_add_to_import_of_day', f`(${after}>0)*${after}-(${before}>0)*${before}`);
}

/** Declares what the timers change on each day, whatever the tariff. */
export function timerDays(context: Shared, timers: Timers, price: PriceDays): TimerDays {
  const { calendar, halfHours } = context;
  const ofDay = dayBlocks(calendar).whole;
  const day = loadColumnMaker(context, 'timer', (label) => label);
  const { isOn } = timers;
  const [carChange, waterChange] = [ofDay(halfHours.carChangeKwh), ofDay(halfHours.waterChangeKwh)];
  const importChange = importChangeByTimers(calendar, halfHours);
  const whereOn = (is: Node): Node => f`IF(${isOn}=0,0,${is})`;
  const importChangeKwh = day(
    'Import, change by timers',
    'kWh',
    'What the timers add to the import',
    'kwhFine',
    'import_change',
    whereOn(f`SUMPRODUCT(${importChange})`),
  );
  const exportChangeKwh = day(
    'Export, change by timers',
    'kWh',
    'What the timers add to the export',
    'kwhFine',
    'export_change',
    whereOn(f`${importChangeKwh}-SUM(${carChange})-SUM(${waterChange})`),
  );
  const changeAtPrice = day(
    'Energy, change by timers, half-hourly price',
    '{minor}',
    'Price × what the timers add to the import',
    'pence',
    'price_change',
    whereOn(f`IF(${price.isFollowed}=0,0,SUMPRODUCT(${ofDay(halfHours.pricePence)},${importChange}))`),
  );
  const car = loadDays(context, timers.car, price, halfHours.carKwh, halfHours.carChangeKwh, 'car', 'Car');
  const water = waterDays(context, halfHours.hotWater, price);
  return { importChangeKwh, exportChangeKwh, changeAtPrice, isOn, car, water };
}

function loadDays(
  context: Shared,
  load: TimedLoad,
  price: PriceDays,
  usedKwh: Column,
  changeKwh: Column,
  key: string,
  what: string,
): LoadDays {
  const { calendar, halfHours } = context;
  const ofDay = dayBlocks(calendar).whole;
  const day = loadColumnMaker(context, key, (label) => `${what}, ${label}`);
  const kwh = day(
    'use of the day',
    'kWh',
    'With its timer where that is on',
    'kwhFine',
    'day_kWh',
    f`SUM(${ofDay(usedKwh)})`,
  );
  const changeOfDayKwh = day(
    'change of the day by its timer',
    'kWh',
    'What it moves from one day into another',
    'kwhFine',
    'day_change_kWh',
    f`IF(${load.figures.isOn}=0,0,SUM(${ofDay(changeKwh)}))`,
  );
  const atPrice = day(
    'use at the half-hourly price',
    '{minor}',
    'With its timer where that is on',
    'pence',
    'price_pence',
    f`IF(${price.isFollowed}*${kwh}=0,0,SUMPRODUCT(${ofDay(halfHours.pricePence)},${ofDay(usedKwh)}))`,
  );
  const changeAtPrice = day(
    'change by its timer at the half-hourly price',
    '{minor}',
    'What the timer adds',
    'pence',
    'price_change_pence',
    f`IF(${price.isFollowed}*${load.figures.isOn}=0,0,SUMPRODUCT(${ofDay(halfHours.pricePence)},${ofDay(changeKwh)}))`,
  );
  return { load, usedKwh, changeKwh, kwh, changeOfDayKwh, atPrice, changeAtPrice };
}

/** Declares the use of a load in the months and in the period. */
export function loadPeriod(
  { columns, selected }: MonthContext['months'],
  { load: { key, what }, kwh, changeOfDayKwh }: Pick<LoadDays, 'load' | 'kwh' | 'changeOfDayKwh'>,
): LoadPeriod {
  const sum = (label: string, of: Column, name: string): Line => {
    const column = columns.column(`${label}, ${what}`, 'kWh', 'Sum of the month', 'kwh', columns.ofDays(of));
    return columns.sum(column, selected, 'kwh', `period_${key}_${name}`);
  };
  return {
    kwh: sum('Use', kwh, 'kWh'),
    changeKwh: sum('Change by its timer', changeOfDayKwh, 'change_kWh'),
  };
}

/** What the hot water takes in the halves of a session: its share of what could have been it, and what its timer changes. */
export function waterOfSession(
  calendar: Pick<Calendar, 'number'>,
  { couldBeWaterKwh, waterChangeKwh }: Pick<HalfHours, 'couldBeWaterKwh' | 'waterChangeKwh'>,
  { sessions: { part } }: TimedLoad,
): SessionHalves {
  const blocks = dayBlocks(calendar);
  const [couldBe, change] = [halvesOf(blocks, couldBeWaterKwh), halvesOf(blocks, waterChangeKwh)];
  if (part === undefined) throw new RangeError('hot water has no meter of its own');
  const taken = (half: keyof SessionHalves): Node => f`${part}*${couldBe[half]}+${change[half]}`;
  return { afterNoon: taken('afterNoon'), nextMorning: taken('nextMorning') };
}

/** Declares the hot water on each day, whatever the tariff. */
function waterDays(context: Shared, load: TimedLoad, price: PriceDays): WaterDays {
  const { calendar, halfHours } = context;
  const { part } = load.sessions;
  if (part === undefined) throw new RangeError('hot water has no meter of its own');
  const day = loadColumnMaker(context, load.key, (label) => `Hot water, ${label}`);
  const ofDay = dayBlocks(calendar).whole;
  const couldBe = ofDay(halfHours.couldBeWaterKwh);
  const change = ofDay(halfHours.waterChangeKwh);
  const prices = ofDay(halfHours.pricePence);
  // Rows that the day has no half-hour for have no use, whatever their blank start compares to.
  const afterNoonFlags = f`(${ofDay(halfHours.start)}>=SUM(${calendar.date})+${NOON})`;
  const shares = f`${couldBe}*(${up(part)}+(${part}-${up(part)})*${afterNoonFlags})`;
  const whereKnown = (is: Node): Node => f`IF(${load.figures.isKnown}=0,0,${is})`;
  return {
    load,
    shares,
    changeOfDayKwh: day(
      'change of the day by its timer',
      'kWh',
      'What it moves from one day into another',
      'kwhFine',
      'day_change_kWh',
      f`IF(${load.figures.isOn}=0,0,SUM(${change}))`,
    ),
    kwh: day(
      'use of the day',
      'kWh',
      'An assumption, as it was without its timer',
      'kwhFine',
      'day_kWh',
      whereKnown(f`SUMPRODUCT(${shares})`),
    ),
    asMeteredAtPrice: day(
      'use at the half-hourly price',
      '{minor}',
      'As it was without its timer',
      'pence',
      'price_pence',
      whereKnown(f`IF(${price.isFollowed}=0,0,SUMPRODUCT(${prices},${shares}))`),
    ),
    changeAtPrice: day(
      'change by its timer at the half-hourly price',
      '{minor}',
      'What the timer adds',
      'pence',
      'price_change_pence',
      f`IF(${price.isFollowed}*${load.figures.isOn}=0,0,SUMPRODUCT(${prices},${change}))`,
    ),
  };
}

/** What the timers change on a tariff, a day. */
export interface TariffTimerDays {
  energyChangePence: Column;
  car: LoadCostDays;
  /** The hot water as it was, and what its timer changes. */
  water: { asMeteredPence: Column; changePence: Column } & BeyondLeast;
}

/** What a load costs at a tariff's unit rates, a day: as it is with its timer, and what the timer changes. */
export interface LoadCostDays extends BeyondLeast {
  pence: Column;
  changePence: Column;
}

/** Declares what the timers change on each day on a tariff. */
export function tariffTimerDays(
  context: DayContext,
  shared: TimerDays,
  least: { car: LeastDays; water: LeastDays },
): TariffTimerDays {
  const column = columnMaker(context);
  const priced = pricedMaker(context);
  const ofDay = dayBlocks(context.calendar).whole;
  const ofLoad = (days: LoadDays, least: LeastDays, key: string, what: string): LoadCostDays => ({
    pence: column(
      `${what} at the unit rates`,
      '{minor}',
      'With its timer where that is on; sun and battery left out',
      'pence',
      f`IF(${days.kwh}=0,0,${priced(ofDay(days.usedKwh), days.atPrice)})`,
      `${key}_pence`,
    ),
    ...beyondLeast(context, least),
    changePence: column(
      `${what}, change by its timer`,
      '{minor}',
      'At the unit rates; sun and battery left out',
      'pence',
      f`IF(${days.load.figures.isOn}=0,0,${priced(ofDay(days.changeKwh), days.changeAtPrice)})`,
      `${key}_change_pence`,
    ),
  });
  return {
    energyChangePence: column(
      'Energy, change by timers',
      '{minor}',
      'Unit rates × what the timers add to the import without battery, with VAT',
      'pence',
      f`IF(${shared.isOn}=0,0,${priced(importChangeByTimers(context.calendar, context.halfHours), shared.changeAtPrice)})`,
      'timer_energy_change',
    ),
    car: ofLoad(shared.car, least.car, 'car', 'Car'),
    water: { ...waterCost(context, shared.water, priced), ...beyondLeast(context, least.water) },
  };
}

function waterCost(
  context: DayContext,
  { load, kwh, shares, asMeteredAtPrice, changeAtPrice }: WaterDays,
  priced: (what: Term | Node, atPrice: Column) => Node,
): Omit<TariffTimerDays['water'], keyof BeyondLeast> {
  const column = columnMaker(context);
  const { calendar, halfHours } = context;
  const change = dayBlocks(calendar).whole(halfHours.waterChangeKwh);
  return {
    asMeteredPence: column(
      'Hot water at the unit rates',
      '{minor}',
      'As it was without its timer; sun and battery left out',
      'pence',
      f`IF(${kwh}=0,0,${priced(shares, asMeteredAtPrice)})`,
      'water_pence',
    ),
    changePence: column(
      'Hot water, change by its timer',
      '{minor}',
      'At the unit rates; sun and battery left out',
      'pence',
      f`IF(${load.figures.isOn}=0,0,${priced(change, changeAtPrice)})`,
      'water_change_pence',
    ),
  };
}

/** A tariff's months as they would be without the timers, and what its loads cost. */
export interface TimerMonths {
  /** Bill without battery, with what was metered in its hours. */
  totalAsMetered: Column;
  car: LoadCostMonths;
  water: { asMeteredPence: Line; changePence: Line; beyondLeast: Line };
}

/** Sums over the chosen period of a load's cost. */
export interface LoadCostMonths {
  pence: Line;
  changePence: Line;
  /** What it costs beyond the least. */
  beyondLeast: Line;
}

/** Declares a tariff's months without the timers. */
export function timerMonths(
  context: MonthContext,
  shared: { exportKwh: Column; energyPence: Column },
  days: TimerDays,
  ofTariff: TariffTimerDays,
  without: TariffMonths,
): TimerMonths {
  const { tariff, months, rates } = context;
  const { columns, selected } = months;
  const label = (text: string): string => `${text}, tariff ${tariff + 1}`;
  const ofDays = (column: Column): Node => columns.ofDays(column);
  const energy = columns.column(
    label('Energy without timers'),
    '{major}',
    'Unit rates × import as it was without battery and timers, rounded on the line',
    'money',
    billed(f`${ofDays(shared.energyPence)}-${ofDays(ofTariff.energyChangePence)}`),
  );
  const credit = columns.column(
    label('Export credit without timers'),
    '{major}',
    'Rounded on the line',
    'money',
    billed(
      bySet(
        context,
        'Export credit without timers',
        '{minor}',
        rates.exportRate,
        (month, set) =>
          f`(${inMonth(context, shared.exportKwh)(month, set)}-${inMonth(context, days.exportChangeKwh)(month, set)})`,
      ),
    ),
  );
  const totalAsMetered = columns.column(
    label('Total without timers'),
    '{major}',
    'Energy + standing charge − export credit',
    'money',
    f`ROUND(${energy}+${without.standing}-${credit},2)`,
  );
  columns.sum(totalAsMetered, selected, 'moneyStrong', `period_total_without_timers_${tariff + 1}`, true);
  const sum = (text: string, of: Column, name: string): Line => {
    const column = columns.column(label(text), '{minor}', 'Sum of the month', 'pence', ofDays(of));
    return columns.sum(column, selected, 'pence', `period_${name}_${tariff + 1}`);
  };
  const { car, water } = ofTariff;
  return {
    totalAsMetered,
    car: {
      pence: sum('Car, at the unit rates', car.pence, 'car_pence'),
      changePence: sum('Car, change by its timer', car.changePence, 'car_change_pence'),
      beyondLeast: beyondLeastOfPeriod(months, tariff, car.beyondLeast, days.car.load),
    },
    water: {
      asMeteredPence: sum('Hot water, at the unit rates', water.asMeteredPence, 'water_pence'),
      changePence: sum('Hot water, change by its timer', water.changePence, 'water_change_pence'),
      beyondLeast: beyondLeastOfPeriod(months, tariff, water.beyondLeast, days.water.load),
    },
  };
}
