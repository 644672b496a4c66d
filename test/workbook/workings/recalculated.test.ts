import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EVERY_DAY, type Tariff } from '../../../src/tariffs/tariff.js';
import { isShareable } from '../../../src/workbook/model/column-text.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { assertCellsEqual, compareCells } from '../../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../../engines/gnumeric.js';
import { type Calc, startCalc } from '../../engines/libreoffice.js';
import { type Case, NO_BATTERY, randomRows, workingsCase } from './workings-case.js';
import { definedNames, formulaOf, workingsWorkbook } from './workings-workbook.js';

const DAYS = 14;
/** 20 October 2026: a week with the autumn change of clocks, and a change of rates after it. */
const FIRST_MS = Date.UTC(2026, 9, 19, 23);
const CHANGE_SERIAL = 46_324;

const rates = (base: number, windows: readonly number[], exportRate = 4) => ({
  validFromSerial: 0,
  standingChargePencePerDay: 51.3,
  baseRatePence: base,
  windowRatesPence: windows,
  exportRatePence: exportRate,
});
const plain = {
  clock: 'local',
  includesVat: true,
  halfHourlyPriced: false,
  priceIncludesVat: true,
  exitFeePounds: 0,
} as const;

/** A tariff of every kind: two rates, by UTC across midnight on some days, and a half-hourly price. */
const TARIFFS: readonly Tariff[] = [
  {
    ...plain,
    name: 'Early bird',
    windows: [{ fromMinutes: 90, toMinutes: 330, days: EVERY_DAY }],
    ratePeriods: [rates(27.4, [9.1]), { ...rates(29.9, [8.3]), validFromSerial: CHANGE_SERIAL }],
  },
  {
    ...plain,
    name: 'Late meter',
    clock: 'utc',
    includesVat: false,
    windows: [
      { fromMinutes: 1350, toMinutes: 360, days: [true, true, true, true, true, false, false] },
      { fromMinutes: 600, toMinutes: 900, days: [false, false, false, false, false, true, true] },
    ],
    ratePeriods: [rates(25.2, [12.6, 17.7])],
  },
  {
    ...plain,
    name: 'By the half-hour',
    halfHourlyPriced: true,
    priceIncludesVat: false,
    windows: [],
    ratePeriods: [rates(2.5, [], 11)],
  },
];

const BATTERY = {
  ...NO_BATTERY,
  usableKwh: 6.4,
  chargeKw: 2.8,
  dischargeKw: 3.1,
  reserveKwh: 0.5,
  startKwh: 2,
  wearPencePerKwh: 1.1,
  mayFeedCar: 'no',
};

const worked = (more: Partial<typeof BATTERY> = {}): Case =>
  workingsCase(randomRows(5, 'Europe/London', FIRST_MS, DAYS - 1, 0.01), TARIFFS, {
    battery: { ...BATTERY, ...more },
    days: DAYS,
  });

let folder: string;
const save = async (name: string, bytes: Uint8Array): Promise<string> => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'workings-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describeWithCalc(
  'LibreOffice recalculates every line of the workings to the value that the language gives',
  () => {
    let calc: Calc;
    beforeAll(async () => {
      calc = await startCalc();
    });
    afterAll(() => calc.stop());

    it.each([
      ['as typed', {}],
      ['selling to the grid', { mayExport: 'yes', mayFeedCar: 'yes' }],
      ['without a battery', { usableKwh: 0 }],
      ['with figures that can not be used', { chargeKw: 'fast', roundTripEfficiency: 1.2 }],
    ] as const)('%s', async (_, more) => {
      const path = await save('workings.xlsx', await workingsWorkbook(worked(more as object)));
      const document = await calc.open(path);
      assertCellsEqual(
        compareCells(path, { engine: 'LibreOffice', values: await document.readAll() }),
        15_000,
      );
      await document.close();
    });
  },
);

describeWithGnumeric(
  'Gnumeric recalculates every line of the workings to the value that the language gives',
  () => {
    it('as typed', async () => {
      const path = await save('for-gnumeric.xlsx', await workingsWorkbook(worked()));
      assertCellsEqual(compareCells(path, await recalculateWithGnumeric(path)), 15_000);
    });
  },
);

describe('the workings', () => {
  const { sheets } = worked();

  it('share no formula that the format forbids to share, in any column of half-hours', () => {
    const grid = sheets.find(({ name }) => name === 'Grid');
    const columns = (grid?.columns ?? []).filter(({ is }) => is !== undefined);
    expect(columns.length).toBeGreaterThan(10);
    for (const column of columns) {
      const formula = formulaOf(column, 0);
      expect(isShareable(formula), formula).toBe(true);
    }
  });

  it('give every name to one place only, in words that are no cell', () => {
    const names = [...definedNames(sheets).keys()];
    expect(names.length).toBeGreaterThan(50);
    for (const name of names) {
      expect(name).toMatch(/^[A-Za-z_][A-Za-z0-9_]*$/);
      expect(name).not.toMatch(/^[A-Za-z]{1,3}\d+$/);
    }
  });

  it('show no sentinel', () => {
    const { numbers, workings } = worked();
    for (const column of workings.calendar.sheet.columns) {
      for (const value of numbers(column)) expect(Math.abs(value)).toBeLessThan(1e6);
    }
  });
});
