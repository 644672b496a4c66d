import { describe, expect, it } from 'vitest';
import type { Field } from '../../../src/workbook/fields/field.js';
import { GAS_FIELDS } from '../../../src/workbook/fields/gas-fields.js';
import { HEATING_TABLES } from '../../../src/workbook/fields/heating-fields.js';
import { HOME_FIELDS } from '../../../src/workbook/fields/home-fields.js';
import { TARIFF_FIELDS } from '../../../src/workbook/fields/tariff-fields.js';
import { AskedHome, battery, setting, type Typed } from './asked-home.js';

const home = new AskedHome();
const BATTERY = 'Battery figures that look mistyped';
const RATES = 'Heating: rates that look mistyped';
const FIGURES = 'Heating: figures of gas, boiler, water, weather or carbon that look mistyped';
const one = (asks: string) => ({ count: 1, asks });

describe('a figure of the battery', () => {
  it.each<[Field, number, string]>([
    [battery.chargeEfficiency, 0.09, 'Charge efficiency: 9 %. Home batteries lose less: is a digit missing?'],
    [
      battery.dischargeEfficiency,
      0.69,
      'Discharge efficiency: 69 %. Home batteries lose less: is a digit missing?',
    ],
    [
      battery.roundTripEfficiency,
      0.085,
      'Round-trip efficiency, instead of the two: 8.5 %. Home batteries lose less: is a digit missing?',
    ],
    [battery.usableKwh, 950, 'Usable capacity: 950 kWh. More than a home’s: is its decimal point in place?'],
    [
      battery.chargeKw,
      36,
      'Charge power: 36 kW. From empty to full in 16 min: is it in kW, its decimal point in place?',
    ],
    [
      battery.dischargeKw,
      360,
      'Discharge power: 360 kW. From full to empty in 2 min: is it in kW, its decimal point in place?',
    ],
    [
      battery.wearPencePerKwh,
      45,
      'Wear: 45 p/kWh. That is above every typed unit rate: is it for one kWh given?',
    ],
  ])('is asked about: $spec.label', (field, value, asks) => {
    expect(home.asked([field, value])).toEqual({ [BATTERY]: one(asks) });
  });

  it('is told as the first of several', () => {
    expect(home.asked([battery.wearPencePerKwh, 45], [battery.chargeEfficiency, 0.09])).toEqual({
      [BATTERY]: {
        count: 2,
        asks: 'First of 2: Charge efficiency: 9 %. Home batteries lose less: is a digit missing?',
      },
    });
  });

  it.each<[string, Typed[]]>([
    [
      'an old one, a large one, a fast one',
      [
        [battery.chargeEfficiency, 0.7],
        [battery.dischargeEfficiency, 0.7],
        [battery.usableKwh, 100],
        [battery.chargeKw, 300],
        [battery.wearPencePerKwh, 38],
      ],
    ],
    ['a round trip of 50 %', [[battery.roundTripEfficiency, 0.5]]],
    [
      'an efficiency that the round trip stands for',
      [
        [battery.chargeEfficiency, 0.5],
        [battery.roundTripEfficiency, 0.9],
      ],
    ],
    [
      'no battery, its other figures left',
      [
        [battery.usableKwh, 0],
        [battery.chargeEfficiency, 0.09],
        [battery.wearPencePerKwh, 45],
      ],
    ],
    ['nothing', Object.values(battery).map((field): Typed => [field, null])],
    [
      'wear where no tariff has a rate of its own',
      [
        ...TARIFF_FIELDS.map(({ halfHourlyPriced }): Typed => [halfHourlyPriced, 'yes']),
        [battery.wearPencePerKwh, 45],
      ],
    ],
  ])('is not asked about: %s', (_, typed) => {
    expect(home.asked(...typed)[BATTERY]).toBeUndefined();
  });
});

describe('a rate of the heating comparison', () => {
  const [first, second] = HEATING_TABLES.rates;
  it.each<[Field, number, string]>([
    [setting('gasRatePence'), 0.0634, 'Gas unit rate: 0.0634 p/kWh. Typed in £? 6.34 p is written 6.34.'],
    [setting('gasRatePence'), 63.4, 'Gas unit rate: 63.4 p/kWh. Is its decimal point in place?'],
    [
      setting('gasStandingPencePerDay'),
      0.286,
      'Gas standing charge: 0.286 p/day. Typed in £? 28.6 p is written 28.6.',
    ],
    [setting('gasStandingPencePerDay'), 858, 'Gas standing charge: 858 p/day. Is it a month’s?'],
    [setting('singleRatePence'), 0.262, 'Single rate: 0.262 p/kWh. Typed in £? 26.2 p is written 26.2.'],
    [
      setting('heatPumpSideHotWaterPence'),
      0.09,
      'Immersion heater’s rate now: 0.09 p/kWh. Typed in £? 9 p is written 9.',
    ],
    [
      setting('boilerSideHotWaterPence'),
      287.1,
      'Immersion heater’s rate then: 287.1 p/kWh. Is its decimal point in place?',
    ],
    [second!.gasRate, 0.0617, 'Rates that changed, Gas: 0.0617 p/kWh. Typed in £? 6.17 p is written 6.17.'],
    [second!.gasStanding, 909, 'Rates that changed, Gas standing: 909 p/day. Is it a month’s?'],
    [
      second!.singleRate,
      0.282,
      'Rates that changed, Single rate: 0.282 p/kWh. Typed in £? 28.2 p is written 28.2.',
    ],
  ])('is asked about: $spec.label', (field, value, asks) => {
    expect(home.asked([field, value])).toEqual({ [RATES]: one(asks) });
  });

  it('counts every cell of a column, and tells the smallest', () => {
    expect(home.asked([first!.gasRate, 0.0642], [second!.gasRate, 0.0617])[RATES]).toEqual({
      count: 2,
      asks: 'First of 2: Rates that changed, Gas: 0.0617 p/kWh. Typed in £? 6.17 p is written 6.17.',
    });
  });

  it.each<[string, Typed[]]>([
    [
      '1 p, 50 p, 300 p a day',
      [
        [setting('gasRatePence'), 1],
        [first!.gasRate, 50],
        [setting('gasStandingPencePerDay'), 300],
      ],
    ],
    [
      '0: given, or the sun’s',
      [
        [setting('gasStandingPencePerDay'), 0],
        [setting('heatPumpSideHotWaterPence'), 0],
        [first!.gasStanding, 0],
      ],
    ],
    [
      'large in a currency of small units',
      [
        [HOME_FIELDS.currency, 'kr'],
        [setting('singleRatePence'), 250],
        [setting('gasStandingPencePerDay'), 900],
      ],
    ],
  ])('is not asked about: %s', (_, typed) => {
    expect(home.asked(...typed)[RATES]).toBeUndefined();
  });
});

describe('another figure of the heating comparison', () => {
  const [gas] = GAS_FIELDS;
  it.each<[Field, number, string]>([
    [
      setting('boilerEfficiency'),
      0.5,
      'Boiler efficiency: 50 %. Few boilers are below that: is a digit missing?',
    ],
    [
      setting('calorificValueMjPerM3'),
      29.5,
      'Calorific value of gas: 29.5 MJ/m³. Mains gas has 35 to 43: what does the bill say?',
    ],
    [
      gas!.calorificValue,
      49.5,
      'Old boiler, Calorific value: 49.5 MJ/m³. Mains gas has 35 to 43: what does the bill say?',
    ],
    [
      setting('volumeCorrection'),
      1.2264,
      'Volume correction of gas: 1.2264. Most bills in the UK have 1.02264: is a digit missing?',
    ],
    [
      setting('hotWaterCop'),
      25,
      'COP for hot water: 25. A heat pump gives some 2 to 3 kWh of hot water for one: is its decimal point in place?',
    ],
    [
      setting('degreeDayBaseC'),
      1.5,
      'Base temperature of degree days: 1.5 °C. 15.5 °C is usual in the UK, 18.3 °C in the US: are your degree days at this base?',
    ],
    [
      setting('electricityCarbonKgPerKwh'),
      150,
      'Carbon factor of electricity: 150 kg/kWh. In grams? 150 g is written 0.15.',
    ],
  ])('is asked about: $spec.label', (field, value, asks) => {
    expect(home.asked([field, value])).toEqual({ [FIGURES]: one(asks) });
  });

  it.each<[string, Typed[]]>([
    [
      'at the bounds',
      [
        [setting('boilerEfficiency'), 0.6],
        [setting('calorificValueMjPerM3'), 35],
        [gas!.calorificValue, 43],
        [setting('volumeCorrection'), 0.8],
        [setting('hotWaterCop'), 7],
        [setting('degreeDayBaseC'), 20],
        [setting('electricityCarbonKgPerKwh'), 2],
      ],
    ],
    [
      'of Dutch gas, of bottled gas, of degree days in °F turned into °C',
      [
        [setting('calorificValueMjPerM3'), 35.17],
        [gas!.calorificValue, 95.8],
        [setting('degreeDayBaseC'), 18.3],
      ],
    ],
  ])('is not asked about: %s', (_, typed) => {
    expect(home.asked(...typed)[FIGURES]).toBeUndefined();
  });
});
