import { describe, expect, it } from 'vitest';
import type { CellArgument } from '../../src/functions/described-function.js';
import { ELECTRICITY_FUNCTIONS } from '../../src/functions/electricity-functions.js';
import { tableColumn } from '../../src/functions/table-column.js';

const compute = (cellName: string, ...args: CellArgument[]) =>
  ELECTRICITY_FUNCTIONS.find((described) => described.cellName === cellName)!.compute(args);
const TABLE = [[null, null, null, 30, null, 50]];

describe('a wrong argument in a cell is named', () => {
  it.each<[string, () => unknown, string]>([
    ['a blank', () => compute('ADD_VAT', null, 0.05), 'amount is blank. Give a number (£, p or p/kWh).'],
    ['one left out', () => compute('ADD_VAT', 100), 'vatShare is blank. Give a number (share 0–1).'],
    [
      'a text date',
      () => compute('UNIT_RATE', '1 May', TABLE),
      'localTime is "1 May". Give a real date and time, not text.',
    ],
    [
      'a range for a cell',
      () => compute('ADD_VAT', [[1], [2]], 0.05),
      'amount is a range. Point at one cell.',
    ],
    [
      'a cell for a table',
      () => compute('UNIT_RATE', 46_023, 30),
      'tariffTable is one cell. Point at the whole table.',
    ],
    [
      'two columns for one',
      () => compute('ENERGY_COST', [[1, 2]], [[30]]),
      'kwh has 2 columns. Point at one column.',
    ],
    [
      'a blank in a range',
      () => compute('ENERGY_COST', [[1], [null]], [[30], [30]]),
      'kwh is blank in row 2 of the range. Give a number (kWh).',
    ],
    [
      'an error of the sheet',
      () => compute('ENERGY_COST', [['#N/A']], [[30]]),
      'kwh is "#N/A" in row 1 of the range. Give a number (kWh).',
    ],
    [
      'ranges of unequal length',
      () => compute('ENERGY_COST', [[1], [2]], [[30]]),
      'kwh has 2 rows and unitRatePence has 1. Point at ranges of the same length.',
    ],
    ['days that are a number', () => compute('IS_IN_WINDOW', 46_023, 0, 0.5, 7), 'days is 7. Give a text.'],
    [
      'a window time with a date',
      () => compute('IS_IN_WINDOW', 46_023, 46_023, 0.5),
      'windowFrom is 46023. Give a time of day from 00:00 to 24:00, without a date.',
    ],
    [
      'a window without length',
      () => compute('IS_IN_WINDOW', 46_023, 0.5, 0.5),
      'windowFrom and windowTo are the same: the window has no length. A window of the whole day is 00:00 to 24:00.',
    ],
    [
      'half a clock change',
      () => compute('HALF_HOURS_IN_DAY', 46_023, [[46_023, null]]),
      'clockChanges has no date and minutes in row 1. Give a real date and a number of minutes.',
    ],
  ])('%s', (_, wrong, message) => {
    expect(wrong).toThrow(message);
  });

  it('a range of one cell is a cell, blank days are every day', () => {
    expect(compute('ADD_VAT', [[100]], [[0.05]])).toBe(105);
    expect(compute('IS_IN_WINDOW', 46_023.25, 0, 0.5, null)).toBe(true);
  });
});

describe('the column of a table', () => {
  it.each([
    ['A2:F9', 4, 'D2:D9'],
    ['Rates!$Y$2:$AD$9', 3, 'Rates!$AA$2:$AA$9'],
    ["'My rates'!B1:G7", 1, "'My rates'!B1:B7"],
    ['Rates', 2, 'INDEX(Rates,0,2)'],
  ])('of %s, %d, is %s', (table, column, reference) => {
    expect(tableColumn(table, column)).toBe(reference);
  });
});

describe('the registry of functions', () => {
  it('has each name once', () => {
    for (const key of ['name', 'cellName'] as const) {
      const names = ELECTRICITY_FUNCTIONS.map((described) => described[key]);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('describes as many arguments as the example gives', () => {
    for (const described of ELECTRICITY_FUNCTIONS) {
      const required = described.arguments.filter((argument) => !argument.optional).length;
      expect(described.example.arguments.length).toBeGreaterThanOrEqual(required);
      expect(described.example.arguments.length).toBeLessThanOrEqual(described.arguments.length);
    }
  });
});
