import type { SheetBuilder } from '../book/sheet-builder.js';
import { across, all, type Column, f, type Line } from '../book/terms.js';
import { type AsMeteredDays, type AsMeteredMonths, asMeteredDays, asMeteredMonths } from './as-metered.js';
import { type AverageDays, averageDays } from './average-days.js';
import { type BatteryFigures, batteryFigures } from './battery-figures.js';
import { type BatteryReadings, batteryReadings } from './battery-readings.js';
import { type BillDays, billDays } from './bill-days.js';
import { type ChannelReadings, channelReadings } from './channel-readings.js';
import { type ClockSheet, clockSheet } from './clock.js';
import { dayBlocks } from './day-blocks.js';
import { type Calendar, calendar, fillRateGrid, type TariffDays, tariffDays } from './days.js';
import { batteryLevels, type HalfHours, halfHours } from './half-hours.js';
import type { InputTerms } from './input-terms.js';
import { latestDays } from './latest-rates.js';
import { type LevelTables, levelTables } from './level-tables.js';
import { type Months, months } from './months.js';
import { priceDays } from './price-days.js';
import { rateDays } from './rate-days.js';
import { type RunsOfTariff, rateRuns } from './rate-runs.js';
import { ofAllTariffs, type RatesSheets, ratesSheets } from './rates.js';
import { type ReadingsSheet, readingsSheet } from './readings.js';
import { type RealCost, realCost } from './real-cost.js';
import { type Shape, tariffNumbers } from './shape.js';
import {
  atPrice,
  type BatteryDays,
  batteryDays,
  type EnergyDays,
  energyDays,
  lowestOfDay,
} from './tariff-days.js';
import { type BatteryMonths, batteryMonths, type TariffMonths, tariffMonths } from './tariff-months.js';
import { type CheapestHoursOfTariff, cheapestHours } from './timer-hours.js';
import { halvesOf, type LeastDays, type LeastLoad, leastDays } from './timer-least.js';
import {
  type LoadPeriod,
  loadPeriod,
  type TariffTimerDays,
  type TimerDays,
  type TimerMonths,
  tariffTimerDays,
  timerDays,
  timerMonths,
  waterOfSession,
} from './timer-money.js';
import { type Timers, timersWorkings } from './timers.js';
import { type Weeks, weeks } from './weeks.js';

/** One tariff's lines, from its rates to its months. */
export interface TariffWorkings {
  rates: RatesSheets['tariffs'][number];
  days: TariffDays;
  energy: EnergyDays;
  /** Runs of half-hours at one rate, and the battery's two levels over them. */
  runs: RunsOfTariff;
  levels: LevelTables['tariffs'][number];
  /** Lowest rate of each day. */
  lowestRate: Column;
  level: Column;
  battery: BatteryDays;
  /** What each day would cost more at the latest rates, pence. */
  latestPence: Column;
  months: TariffMonths;
  batteryMonths: BatteryMonths;
  timerDays: TariffTimerDays;
  timerMonths: TimerMonths;
}

/** Every line between the inputs and the results. */
export interface Workings {
  shape: Shape;
  sheets: readonly SheetBuilder[];
  readings: ReadingsSheet;
  clock: ClockSheet;
  calendar: Calendar;
  rates: RatesSheets;
  battery: BatteryFigures;
  batteryReadings: BatteryReadings;
  /** What is missing of the readings of other channels. */
  channelReadings: readonly ChannelReadings[];
  halfHours: HalfHours;
  averageDays: AverageDays;
  timers: Timers;
  timerDays: TimerDays;
  /** Use of the loads in the chosen period. */
  timerPeriod: { car: LoadPeriod; water: LoadPeriod };
  /** Which sessions the least cost can be told of. */
  timerLeast: { car: LeastDays; water: LeastDays };
  /** The hours of a usual day at which the loads are cheapest, by tariff. */
  timerHours: { car: readonly CheapestHoursOfTariff[]; water: readonly CheapestHoursOfTariff[] };
  days: { metered: Column; importKwh: Column; exportKwh: Column; usedKwh: Column };
  months: Months;
  /** The bill as the meter had it, on today's tariff. */
  asMetered: { days: AsMeteredDays; months: AsMeteredMonths };
  /** What each day that a bill charges comes to, on the tariff of the bill. */
  bills: BillDays;
  tariffs: readonly TariffWorkings[];
  /** Whole weeks, for how sure a difference is. */
  weeks: Weeks;
  looked: Line;
  /** Factor of the tariff looked at on the half-hourly price. */
  lookedPriceFactor: Line;
  realCost: RealCost;
}

/**
 * Declares the workings: half-hours on the true grid, days, months, rates and the battery.
 *
 * @param inputs the input cells that they look at
 * @param shape how much the workbook holds
 */
export function workings(inputs: InputTerms, shape: Shape): Workings {
  const readings = readingsSheet(shape);
  const clock = clockSheet();
  const rates = ratesSheets(inputs, shape);
  const battery = batteryFigures(inputs.battery, inputs.batteryFlags);
  const days = calendar(inputs, readings, clock, shape);
  const timers = timersWorkings(inputs.timers, readings, days, rates, battery.sheet, shape);
  const ofBattery = batteryReadings(readings, days, battery.sheet);
  const ofChannels = channelReadings(readings, days, battery.sheet);
  const grid = halfHours(readings, days, battery, timers, shape);
  const shared = sharedDays(days, grid, shape);
  const ofTariffs = tariffNumbers(shape).map((t) => tariffDays(days, rates, t, shape));
  fillRateGrid(rates, days, ofTariffs, shape);
  const ofRates = rateDays(rates, days, shape);
  const runs = rateRuns(rates, ofTariffs, battery, shape);
  const average = averageDays(days, grid, shape);
  const tables = levelTables(days, ofTariffs, rates, runs, average, battery, shape);
  const price = priceDays(days, grid, rates, average, battery, shape);
  const atPriceOfDay = atPrice({ calendar: days, halfHours: grid, battery, shape }, price);
  const contexts = ofTariffs.map((tariff, t) => {
    const typed = rates.tariffs[t];
    if (typed === undefined) throw new RangeError(`there is no tariff ${t + 1}`);
    return {
      tariff: t,
      calendar: days,
      halfHours: grid,
      rates: typed,
      days: tariff,
      battery,
      atPrice: atPriceOfDay,
      shape,
    };
  });
  const lowest = contexts.map((context) => lowestOfDay(context, ofRates, price));
  const looked = lookedAt(inputs, rates, battery.sheet, days, ofTariffs, shape);
  const ofTimers = timerDays({ calendar: days, halfHours: grid, shape }, timers, price);
  const leastOf = (of: LeastLoad): LeastDays =>
    leastDays({ calendar: days, halfHours: grid, shape }, of, price);
  const least = {
    car: leastOf({ load: timers.car, halves: halvesOf(dayBlocks(days), grid.carKwh) }),
    water: leastOf({ load: grid.hotWater, halves: waterOfSession(days, grid, grid.hotWater) }),
  };
  const levels = batteryLevels(grid, battery, rates, ofTariffs, runs, tables, price, shape);
  const ofMonths = months(inputs, readings, days, shared, shape);
  const tariffs = contexts.map((context, t): TariffWorkings => {
    const [lowestRate, level, run, table] = [lowest[t], levels[t], runs[t], tables.tariffs[t]];
    if (lowestRate === undefined || level === undefined || run === undefined || table === undefined)
      throw new RangeError(`there is no tariff ${t + 1}`);
    const energy = energyDays(context);
    const ofBattery = batteryDays(context, level);
    const monthContext = {
      tariff: t,
      months: ofMonths,
      calendar: days,
      rates: context.rates,
      days: context.days,
    };
    const without = tariffMonths(monthContext, shared, energy);
    const timerDaysOfTariff = tariffTimerDays(context, ofTimers, least);
    return {
      rates: context.rates,
      days: context.days,
      energy,
      runs: run,
      levels: table,
      lowestRate,
      level,
      battery: ofBattery,
      latestPence: latestDays({ ...context, battery }, context.rates.latest, shared, energy, ofBattery),
      months: without,
      batteryMonths: batteryMonths(monthContext, shared, energy, ofBattery, without),
      timerDays: timerDaysOfTariff,
      timerMonths: timerMonths(
        monthContext,
        { exportKwh: shared.exportKwh, energyPence: energy.energyPence },
        ofTimers,
        timerDaysOfTariff,
        without,
      ),
    };
  });
  const startPence = f`IF(${looked.number}=0,0,INDEX(${across(lowestCells(lowest, days))},1,MAX(1,${looked.number}))/${battery.chargeEfficiency})`;
  const cost = realCost({
    halfHours: grid,
    calendar: days,
    battery,
    rates,
    levels,
    tariffs: tariffs.map((tariff) => tariff.battery),
    looked,
    startPence,
    months: ofMonths,
    shape,
  });
  const meteredDays = asMeteredDays(inputs, days, grid, rates, ofTariffs, shape);
  const metered = asMeteredMonths(
    inputs,
    ofMonths,
    meteredDays,
    tariffs.map((tariff) => tariff.months),
  );
  const timerPeriod = {
    car: loadPeriod(ofMonths, ofTimers.car),
    water: loadPeriod(ofMonths, ofTimers.water),
  };
  const ofWeeks = weeks(days, ofMonths, shared, tariffs, shape);
  const bills = billDays(inputs.bills, days, grid, rates, meteredDays, shape);
  return {
    shape,
    sheets: [
      readings.sheet,
      grid.sheet,
      days.sheet,
      ofMonths.sheet,
      rates.rates,
      battery.sheet,
      clock.sheet,
      rates.grid,
      average.sheet,
      tables.sheet,
    ],
    readings,
    clock,
    calendar: days,
    rates,
    battery,
    halfHours: grid,
    averageDays: average,
    timers,
    timerDays: ofTimers,
    timerPeriod,
    timerLeast: least,
    timerHours: {
      car: cheapestHours({ rates, calendar: days, halfHours: grid, price, shape }, timers.car, ofTariffs),
      water: cheapestHours(
        { rates, calendar: days, halfHours: grid, price, shape },
        grid.hotWater,
        ofTariffs,
      ),
    },
    days: shared,
    months: ofMonths,
    asMetered: { days: meteredDays, months: metered },
    bills,
    tariffs,
    weeks: ofWeeks,
    looked: looked.number,
    lookedPriceFactor: looked.priceFactor,
    realCost: cost,
    batteryReadings: ofBattery,
    channelReadings: ofChannels,
  };
}

function sharedDays(days: Calendar, grid: HalfHours, shape: Shape) {
  const column = (
    label: string,
    unit: string,
    description: string,
    style: 'count' | 'kwhFine',
    is: ReturnType<typeof f>,
    name?: string,
  ): Column =>
    days.sheet.column({
      label,
      unit,
      description,
      style,
      rows: shape.days,
      is,
      ...(name === undefined ? {} : { name }),
    });
  const ofDay = dayBlocks(days).whole;
  const sum = (label: string, of: Column, name: string): Column =>
    column(label, 'kWh', 'Sum of the day’s half-hours', 'kwhFine', f`SUM(${ofDay(of)})`, name);
  return {
    metered: column(
      'Half-hours metered',
      'count',
      'With an import reading',
      'count',
      f`COUNT(${ofDay(grid.usedKwh)})`,
      'day_metered',
    ),
    importKwh: sum('Import without battery', grid.importKwh, 'day_import'),
    exportKwh: sum('Export without battery', grid.exportKwh, 'day_export'),
    usedKwh: sum('Used by the home', grid.usedKwh, 'day_used'),
  };
}

/** The tariff looked at more closely: the one named, else today's. */
function lookedAt(
  inputs: InputTerms,
  rates: RatesSheets,
  sheet: SheetBuilder,
  days: Calendar,
  tariffs: readonly TariffDays[],
  shape: Shape,
) {
  const names = across(
    inputs.tariffs.map(({ name }) => name),
    'tariff_names',
  );
  const priced = across(
    inputs.tariffs.map((term) => term.priced),
    'tariffs_are_priced',
  );
  const { tariff } = inputs.battery;
  const row = 29;
  const asked = sheet.line(row - 1, 2, {
    label: 'Tariff named to be looked at, else today’s',
    unit: 'column, 0: none',
    style: 'integer',
    name: 'asked_for_tariff',
    is: f`IFERROR(MATCH(IF(ISBLANK(${tariff}),${inputs.todaysTariff},${tariff}),${names},0),0)`,
  });
  const number = sheet.line(row, 2, {
    label: 'Tariff looked at',
    unit: 'column, 0: none',
    style: 'integer',
    name: 'looked_at',
    // One without a total is not looked at: its figures would lack what could not be priced.
    is: f`IF(${asked}=0,0,IF(SUM(INDEX(${priced},1,MAX(1,${asked})))=1,${asked},0))`,
  });
  const factors = ofAllTariffs(rates, 'priceFactor');
  const priceFactor = sheet.line(row + 1, 2, {
    label: 'Its factor on the half-hourly price',
    unit: 'factor',
    style: 'rateFine',
    name: 'looked_at_price_factor',
    is: f`IF(${number}=0,0,INDEX(${factors},1,MAX(1,${number})))`,
  });
  const choose = (place: Line, column: (tariff: TariffDays) => Column) =>
    f`IF(${place}=0,1,${{ kind: 'call', name: 'CHOOSE', args: [f`MAX(1,${place})`, ...tariffs.map((t) => f`${column(t)}`)] }})`;
  const ofDays = (
    label: string,
    unit: string,
    style: 'integer' | 'rate',
    is: ReturnType<typeof f>,
    name: string,
  ): Column =>
    days.sheet.column({
      label,
      unit,
      description: 'Of the tariff looked at',
      style,
      rows: shape.days,
      is,
      name,
    });
  const at = ofDays(
    'Begins in the grid, looked at',
    'row of Rate grid',
    'integer',
    choose(asked, (t) => t.at),
    'looked_at_rates',
  );
  const exportRates = ofAllTariffs(rates, 'exportRate');
  const exportRate = ofDays(
    'Export rate, looked at',
    '{minor}/kWh',
    'rate',
    f`IF(OR(${days.date}="",${number}=0),0,INDEX(${exportRates},MAX(1,${choose(number, (t) => t.set)}),MAX(1,${number})))`,
    'looked_export_rate',
  );
  return { asked, number, priceFactor, at, exportRate };
}

/** The lowest rate of the average day on each tariff, side by side. */
function lowestCells(ofDays: readonly Column[], days: Calendar): Line[] {
  return ofDays.map((lowest, t) =>
    days.sheet.line(3, 6 + t, {
      label: `Lowest rate of the average day, tariff ${t + 1}`,
      unit: '{minor}/kWh',
      style: 'rate',
      name: `average_lowest_rate_${t + 1}`,
      is: f`IF(COUNT(${all(lowest)})=0,0,MAX(0,AVERAGE(${all(lowest)})))`,
    }),
  );
}
