import { describe, expect, it } from 'vitest';
import { PATHS } from '../../../src/cli/paths.js';
import { HOME_FIELDS } from '../../../src/workbook/fields/home-fields.js';
import { AskedHome, firstRates, type Typed, tariffFields } from './asked-home.js';

const home = new AskedHome();
const UNIT = 'Unit rates that look mistyped';
const STANDING = 'Standing charges that look mistyped';
const EXPORT = 'Export rates that look mistyped';

const single = firstRates('singleRate');
const twoRates = firstRates('twoRates');
const [nightRate] = twoRates.windowRates;
const priced = firstRates('priced');

it('asks nothing of the sample, and nothing of the workbook that somebody’s own begins with', () => {
  expect(home.asked()).toEqual({});
  expect(new AskedHome(PATHS.startingInputs).asked()).toEqual({});
});

describe('a unit rate', () => {
  it.each<[string, Typed, string]>([
    [
      'typed in pounds',
      [single.base, 0.28],
      '“Single rate”, Base rate, outside the windows: 0.28 p/kWh. Typed in £? 28 p is written 28.',
    ],
    [
      'typed in pounds, of a window',
      [nightRate!, 0.072],
      '“Two-rate night”, Rate in window 1: 0.072 p/kWh. Typed in £? 7.2 p is written 7.2.',
    ],
    [
      'typed in pounds, of a later set',
      [tariffFields('singleRate').periods[2]!.base, 0.3],
      '“Single rate”, Base rate, outside the windows, change 2 of rates: 0.3 p/kWh. Typed in £? 30 p is written 30.',
    ],
    [
      'below 0',
      [nightRate!, -7.5],
      '“Two-rate night”, Rate in window 1: -7.5 p/kWh. Below 0, using energy is paid for: is the minus right?',
    ],
    [
      '0, with no rate above it beside it',
      [single.base, 0],
      '“Single rate”, Base rate, outside the windows: 0 p/kWh. No rate beside it is above 0: is one missing?',
    ],
    [
      'ten times too much',
      [single.base, 285],
      '“Single rate”, Base rate, outside the windows: 285 p/kWh. A decimal point lost? 28.5 p is written 28.5.',
    ],
  ])('%s is asked about', (_, typed, asks) => {
    expect(home.asked(typed)[UNIT]).toEqual({ count: 1, asks });
  });

  it('is told as the first of several', () => {
    expect(home.asked([nightRate!, 0.07], [single.base, 0.28])[UNIT]).toEqual({
      count: 2,
      asks: 'First of 2: “Single rate”, Base rate, outside the windows: 0.28 p/kWh. Typed in £? 28 p is written 28.',
    });
  });

  it.each<[string, Typed[]]>([
    [
      '1 p and 100 p',
      [
        [nightRate!, 1],
        [twoRates.base, 100],
      ],
    ],
    ['0 in a window beside a dearer rate: free hours', [[nightRate!, 0]]],
    [
      '0 as the base rate beside a dearer window',
      [
        [twoRates.base, 0],
        [twoRates.exportRate, 5],
      ],
    ],
    ['what comes on top of a price, small', [[priced.base, 0.4]]],
    ['what comes on top of a price, below 0', [[priced.base, -2.1]]],
    ['nothing on top of a price', [[priced.base, 0]]],
    ['of a column without a name', [[firstRates('free').base, 0.28]]],
    ['that is a text, which is a fault', [[single.base, '0.28 p']]],
    ['that is missing, which is a fault', [[single.base, null]]],
  ])('is not asked about: %s', (_, typed) => {
    expect(home.asked(...typed)).toEqual({});
  });

  it('on top of a price is asked about where it is ten times too much', () => {
    expect(home.asked([priced.base, 120])[UNIT]?.count).toBe(1);
  });

  it('in another currency may have more digits, and still not be in whole units', () => {
    const crowns: Typed[] = [
      [HOME_FIELDS.currency, 'kr'],
      [HOME_FIELDS.minorUnit, 'øre'],
    ];
    expect(home.asked(...crowns, [single.base, 285], [single.standing, 900])).toEqual({});
    expect(home.asked(...crowns, [single.base, 0.28])[UNIT]?.asks).toContain(
      '0.28 øre/kWh. Typed in kr? 28 øre is written 28.',
    );
  });
});

describe('a standing charge', () => {
  it.each<[string, number, string]>([
    ['typed in pounds', 0.538, '0.538 p/day. Typed in £? 53.8 p is written 53.8.'],
    ['of a month', 810, '810 p/day. A month’s? A day’s would be 27.'],
    ['below 0', -53.8, '-53.8 p/day. Below 0, each day is paid for: is the minus right?'],
  ])('%s is asked about', (_, value, asks) => {
    expect(home.asked([single.standing, value])[STANDING]).toEqual({
      count: 1,
      asks: `“Single rate”, Standing charge: ${asks}`,
    });
  });

  it.each([0, 1, 60, 300])('of %d p is not', (value) => {
    expect(home.asked([single.standing, value], [priced.standing, value])).toEqual({});
  });
});

describe('an export rate', () => {
  it.each<[string, number, string]>([
    ['typed in pounds', 0.15, '0.15 p/kWh. Typed in £? 15 p is written 15.'],
    ['below 0', -4, '-4 p/kWh. Below 0, you pay for export: is the minus right?'],
    ['above the dearest unit rate', 27.2, '27.2 p/kWh. More than any unit rate of the tariff: is it right?'],
    ['ten times too much', 150, '150 p/kWh. A decimal point lost? 15 p is written 15.'],
  ])('%s is asked about', (_, value, asks) => {
    expect(home.asked([single.exportRate, value])[EXPORT]).toEqual({
      count: 1,
      asks: `“Single rate”, Export rate: ${asks}`,
    });
  });

  it.each<[string, Typed[]]>([
    ['none', [[single.exportRate, null]]],
    ['0', [[single.exportRate, 0]]],
    ['as much as the dearest unit rate', [[single.exportRate, 27.1]]],
    ['between the rates of a tariff', [[twoRates.exportRate, 20]]],
    ['more than what comes on top of a price', [[priced.exportRate, 15]]],
    ['more than the unit rate before VAT, and less than after', [[firstRates('freeLunch').exportRate, 26]]],
  ])('is not asked about: %s', (_, typed) => {
    expect(home.asked(...typed)).toEqual({});
  });

  it('is not asked about for a unit rate that is a slip itself', () => {
    expect(Object.keys(home.asked([single.base, 0.28]))).toEqual([UNIT]);
  });
});
