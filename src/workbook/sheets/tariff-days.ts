import type { Node, Reference } from '../../formula/nodes.js';
import { FIRST_ROW } from '../book/sheet-builder.js';
import { all, blockOf, type Column, down, f } from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import type { Calendar, TariffDays } from './days.js';
import type { ChoiceDays, HalfHours } from './half-hours.js';
import type { TariffRates } from './rates.js';
import { BLOCK_ROWS, type Shape } from './shape.js';

/** The half-hours of the day of the row. */
const ofDay = (column: Column): Reference => blockOf(column, BLOCK_ROWS, FIRST_ROW);
/** The same, each a half-hour earlier. */
const before = (column: Column): Reference => blockOf(column, BLOCK_ROWS, FIRST_ROW, -1);

const TOLERANCE = 1e-9;

interface Context {
  tariff: number;
  calendar: Calendar;
  halfHours: HalfHours;
  rates: TariffRates;
  days: TariffDays;
  battery: BatteryFigures;
  shape: Shape;
}

function columnMaker({ tariff, calendar, shape }: Context) {
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

/** The day's rates in the grid, as many as there are half-hours in `rows`. */
function ratesOfDay({ rates, days }: Context, rows: Node): Node {
  const grid = all(rates.grid);
  return f`INDEX(${grid},${days.at}):INDEX(${grid},${days.at}+${rows})`;
}
const wholeBlock = f`${BLOCK_ROWS - 1}`;

/** What the home's use without a battery costs on a day. */
export interface EnergyDays {
  energyPence: Column;
  offPeakKwh: Column;
}

export function energyDays(context: Context): EnergyDays {
  const column = columnMaker(context);
  const { halfHours, rates, days } = context;
  const imported = ofDay(halfHours.importKwh);
  const slice = ratesOfDay(context, wholeBlock);
  const lowest = f`INDEX(${all(rates.offPeak)},${days.set})`;
  return {
    energyPence: column(
      'Energy without battery',
      '{minor}',
      'Unit rates × import, with VAT',
      'pence',
      f`SUMPRODUCT(${imported},${slice})+IF(${rates.priceFactor}=0,0,${rates.priceFactor}*SUMPRODUCT(${imported},${ofDay(halfHours.pricePence)}))`,
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

/** How the rule chooses on a day: by the rates of the half-hours that fill the battery, and of as many dearest. */
export interface BatteryChoice extends ChoiceDays {
  chargeUpTo: Column;
  dear: Column;
  lowest: Column;
}

export function batteryChoice(context: Context, halfHoursToFill: Column): BatteryChoice {
  const column = columnMaker(context);
  const { calendar, halfHours, rates, days, battery } = context;
  const { date, length } = calendar;
  const rate = '{minor}/kWh';
  const slice = ratesOfDay(context, f`${length}-1`);
  const block = ofDay(halfHours.pricePence);
  const prices = f`INDEX(${block},1):INDEX(${block},${length})`;
  const ranked = (name: 'SMALL' | 'LARGE'): Node =>
    f`IF(${date}="","",IF(${rates.priceFactor}=0,${{ kind: 'call', name, args: [slice, f`${halfHoursToFill}`] }},INDEX(${all(rates.base)},${days.set})+${rates.priceFactor}*${{ kind: 'call', name, args: [prices, f`${halfHoursToFill}`] }}))`;
  const chargeUpTo = column(
    'Charging needs rates up to',
    rate,
    'Dearest of the cheapest half-hours that fill the battery',
    'rate',
    ranked('SMALL'),
  );
  const dear = column('Dear rate', rate, 'Lowest of as many dearest half-hours', 'rate', ranked('LARGE'));
  const lowest = column(
    'Lowest rate',
    rate,
    'Of the day’s half-hours',
    'rate',
    f`IF(${date}="","",MIN(${slice})+IF(${rates.priceFactor}=0,0,${rates.priceFactor}*MIN(${prices})))`,
    'lowest_rate',
  );
  const worthwhile = f`(${dear}-${battery.wearPencePerKwh})*${battery.roundTrip}-${TOLERANCE}`;
  const chargeBelow = column(
    'Charges below',
    rate,
    'Where the day needs it and it beats losses and wear at the dear rate; the lowest rate where it never does',
    'rate',
    f`IF(${date}="",0,IF(${battery.chargesFromGrid}=0,${lowest},MAX(${lowest},MIN(${chargeUpTo}+${TOLERANCE},${worthwhile}))))`,
    'charge_below',
  );
  const serveFrom = column(
    'Serves from',
    rate,
    'Rate that repays what refilling costs; the lowest rate on a day without charging',
    'rate',
    f`IF(${date}="",0,IF(${chargeBelow}<=${lowest},${lowest},MAX(${chargeBelow},MIN(${chargeUpTo}/${battery.roundTrip}+${battery.wearPencePerKwh},${dear})-${TOLERANCE})))`,
    'serve_from',
  );
  const exportRate = f`INDEX(${all(rates.exportRate)},${days.set})`;
  const refill = f`MAX(${chargeUpTo},${down(chargeUpTo)})/${battery.roundTrip}`;
  const sells = column(
    'Sells',
    '1 or 0',
    'It may export, and the export rate beats the refill, wear and every rate of the day',
    'integer',
    f`IF(OR(${date}="",${battery.mayExport}=0),0,IF(AND(${exportRate}-${battery.wearPencePerKwh}>${refill}+${TOLERANCE},${exportRate}>=MAX(${slice})),1,0))`,
    'sells',
  );
  return { chargeUpTo, dear, lowest, chargeBelow, serveFrom, sells };
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

export function batteryDays(context: Context, level: Column, sells: Column): BatteryDays {
  const column = columnMaker(context);
  const { halfHours, rates, battery } = context;
  const [now, earlier] = [ofDay(level), before(level)];
  const rate = f`(${ratesOfDay(context, wholeBlock)}+${rates.priceFactor}*${ofDay(halfHours.pricePence)})`;
  const beyondSun = f`((${now}-${earlier})/${battery.chargeEfficiency}-${ofDay(halfHours.exportKwh)})`;
  const sold = f`(${earlier}-${now}+${ofDay(halfHours.storeChangeKwh)})`;
  const noSun = f`(${ofDay(halfHours.storeChangeKwh)}<=0)`;
  const withBattery = (is: Node): Node => f`IF(${battery.usableKwh}=0,0,${is})`;
  const whereSold = (is: Node): Node => f`IF(${sells}=0,0,${is})*${battery.dischargeEfficiency}`;
  const kwh = 'kWh';
  const pence = '{minor}';
  return {
    boughtPence: column(
      'Battery’s purchases',
      pence,
      'What it takes from the grid beyond the sun, at the unit rates',
      'pence',
      withBattery(f`SUMPRODUCT(${rate}*(${beyondSun}>0)*${beyondSun})`),
      'bought_pence',
    ),
    boughtKwh: column(
      'Battery buys',
      kwh,
      'From the grid, beyond the sun',
      'kwhFine',
      withBattery(f`SUMPRODUCT((${beyondSun}>0)*${beyondSun})`),
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
      withBattery(
        f`${battery.dischargeEfficiency}*SUMPRODUCT(${rate}*(${earlier}>${now})*(${earlier}-${now}))`,
      ),
      'given_pence',
    ),
    soldKwh: column(
      'Battery sells',
      kwh,
      'Beyond what the home takes',
      'kwhFine',
      whereSold(f`SUMPRODUCT(${noSun}*(${sold}>0)*${sold})`),
      'sold_kWh',
    ),
    soldPence: column(
      'The same at the unit rates',
      pence,
      'Given, but not used in place of import',
      'pence',
      whereSold(f`SUMPRODUCT(${rate}*${noSun}*(${sold}>0)*${sold})`),
      'sold_pence',
    ),
  };
}

export { ofDay };
