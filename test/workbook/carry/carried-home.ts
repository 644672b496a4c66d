import { expect, it } from 'vitest';
import { type Carried, carryWorkbook } from '../../../src/workbook/carry/carry-workbook.js';
import { isIn } from '../../../src/workbook/carry/earlier-layout.js';
import { openEarlier } from '../../../src/workbook/carry/open-earlier.js';
import { parseCell } from '../../../src/workbook/cell-address.js';
import { verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import { textCell, withCells } from '../edit-package.js';
import {
  cellsOf,
  expectAsStored,
  expectSameTotals,
  isAverageOfWhen,
  namesHeldTwice,
  OLD,
  openedValues,
  REWORDED,
  saidToday,
  table,
  typedIn,
} from './held-cells.js';

/**
 * What holds of the kept home, whichever layout it stands in: two bills, both timers, a month of readings, figures of heating.
 *
 * @param layout number of its layout
 * @param old the workbook
 * @param carried what was carried of it
 */
export function itCarriesTheHome(layout: number, old: Uint8Array, carried: () => Carried): void {
  it('becomes one of today’s of as many days that verify agrees with', () => {
    expect(carried()).toMatchObject({ layout, daysBefore: 31, days: 31, readings: 674 });
    expect(carried()).toMatchObject({ gasRows: 5, temperatureDays: 20 });
    expect(verifyWorkbook(carried().bytes, 'new.xlsx')).toMatchObject({ agrees: true });
  });

  it('has the totals that the old one stored, to the penny, on every tariff', () => {
    expectSameTotals(old, carried().bytes);
  });

  it.each(['Answer', 'Tariffs', 'When', 'Battery', 'Heating', 'Old boiler', 'Bills', 'Timers', 'Checks'])(
    'says on %s all that the old one said',
    (sheet) => {
      const [before, now] = [old, carried().bytes].map((bytes) => cellsOf(openedValues(bytes, sheet), sheet));
      for (const at of cellsOf(old, sheet).keys()) {
        if (isAverageOfWhen(sheet, at, before?.get(at))) continue;
        const value = saidToday(sheet, at, before?.get(at));
        if (typeof value === 'number') expectAsStored(now?.get(at), value, at);
        else expect(now?.get(at), at).toEqual(value);
      }
    },
  );

  it('keeps every reading with its offset, mark and row', () => {
    const readings = table(old, 'Readings', /^[A-M]$/, 8);
    expect(readings.filter(([at, value]) => at.startsWith('M') && value === 'E')).toHaveLength(6);
    expect(table(carried().bytes, 'Readings', /^[A-M]$/, 8)).toEqual(readings);
  });

  it.each([
    ['Answer', /^[A-P]$/, 1],
    ['Tariffs', /^[A-S]$/, 1],
    ['Readings', /^[A-M]$/, 4],
    ['Heating', /^[A-Z]$|^A[A-J]$/, 1],
    ['Old boiler', /^[A-Z]$|^A[A-M]$/, 1],
    ['Bills', /^[A-Z]$/, 1],
    ['Timers', /^[A-Z]$/, 1],
    ['Notes', /^[E-I]$/, 40],
  ])('keeps all that was typed on %s where it was', (sheet, columns, fromRow) => {
    const typed = typedIn(old, sheet, columns, fromRow).map(([at, value]): [string, unknown] => [
      at,
      REWORDED.get(`${sheet}!${at}`) ?? value,
    ]);
    expect(typed.length).toBeGreaterThan(5);
    expect(typedIn(carried().bytes, sheet, columns, fromRow)).toEqual(typed);
  });

  it('works with the timers, bills, rates, answers and figures that were typed', () => {
    const { inputs } = carried().values;
    expect(inputs.ratesUsed).toBe('as they are now');
    expect(inputs.battery).toMatchObject({ usableKwh: 8.2, tariff: 'Single rate' });
    expect(inputs.timers).toMatchObject({
      car: { isOn: 'yes', powerKw: 3.6 },
      hotWater: { isOn: 'yes', powerKw: 2.8 },
      tank: { kwhPerDay: 2.5 },
      supply: { limitKw: 9.5 },
    });
    expect(inputs.bills.settings).toMatchObject({ rounding: 'total only', agreesWithin: 0.05 });
    expect(inputs.bills.rows.slice(0, 3).map(({ tariff, total }) => [tariff, total])).toEqual([
      ['Two-rate night', 31.4],
      ['Two-rate night', 33.15],
      [null, null],
    ]);
    expect(inputs.heating.settings).toMatchObject({ boilerEfficiency: 0.82, leastEfficiency: 0.74 });
    expect(typedIn(carried().bytes, 'Notes', /^[E-I]$/, 43).map(([, value]) => value)).toEqual([
      'Start | kWh',
      'readings',
      'unit',
      'Wh',
      'may.csv',
    ]);
  });

  it('keeps the owner’s sheet, comment, and cells beside the tables', () => {
    expect(carried()).toMatchObject({ ownSheets: ['My notes'], comments: 1 });
    expect([...cellsOf(carried().bytes, 'My notes')]).toEqual([...cellsOf(old, 'My notes')]);
    const own = [
      ['Tariffs', 'K14', '=C9*2'],
      ['Readings', 'P9', 'boiler serviced'],
      ['Readings', 'Q9', '=Tariffs!E3*100'],
      ['Readings', 'Q10', '=SUM(C8:C90)'],
      ['Readings', 'Q13', '=SUM(Days!F8:F38)'],
      ['Timers', 'AH6', 'asked the installer'],
      ['Bills', 'DG10', 'rang about this one'],
      ['Days', 'LT9', '=F9*2'],
    ] as const;
    expect(own.map(([sheet, at]) => [sheet, at, cellsOf(carried().bytes, sheet).get(at)])).toEqual(own);
  });

  it('has each defined name once', () => {
    expect(namesHeldTwice(carried().bytes)).toEqual([]);
  });

  it('has the same texts wherever it says that nothing moved', () => {
    for (const { name, stays } of openEarlier(old, OLD).layoutFor(31).sheets) {
      const [before, now] = [old, carried().bytes].map(
        (bytes) =>
          new Map(
            [...cellsOf(bytes, name)].filter(([at, value]) => {
              const { row, column } = parseCell(at);
              return typeof value === 'string' && !value.startsWith('=') && isIn(stays, row, column);
            }),
          ),
      );
      for (const [at, text] of before ?? []) {
        expect([name, at, now?.get(at)]).toEqual([name, at, saidToday(name, at, text)]);
      }
    }
  });

  it('is refused where something was moved in it', async () => {
    const moved = withCells(old, {
      Timers: { C5: textCell('C5', 'Hot water'), D5: textCell('D5', 'Car') },
    });
    await expect(carryWorkbook(moved, OLD)).rejects.toThrow(
      'old.xlsx, Timers!C5: the cell holds "Hot water" where "Car" belongs, which stands in D5',
    );
  });
}
