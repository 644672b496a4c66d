import { beforeAll, expect, it } from 'vitest';
import type { Field } from '../../../src/workbook/fields/field.js';
import { TIMER_FIELDS } from '../../../src/workbook/fields/timer-fields.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { assertCellsEqual, compareCells } from '../../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../../engines/gnumeric.js';
import { recalculateWithCalc } from '../../engines/libreoffice.js';
import { withFile } from '../../engines/with-file.js';
import { smallMonth } from '../small-month.js';

const { car, hotWater, tank, supply } = TIMER_FIELDS;
/** October 2026, in which the clock changes on the 25th; both timers on, the water’s hours within a session. */
const TYPED: readonly [Field, string | number][] = [
  [car.isOn, 'yes'],
  [car.from, 0.5 / 24],
  [car.to, 5 / 24],
  [car.powerKw, 7.2],
  [hotWater.isOn, 'yes'],
  [hotWater.from, 22 / 24],
  [hotWater.to, 4 / 24],
  [hotWater.powerKw, 3],
  [tank.kwhPerDay, 2],
  [tank.from, 16 / 24],
  [tank.to, 19 / 24],
  [supply.limitKw, 6],
];

/** The water’s hours across noon: its least is not told. */
const ACROSS_NOON: readonly [Field, string | number][] = [
  ...TYPED,
  [hotWater.from, 10 / 24],
  [hotWater.to, 14 / 24],
];

/** So many formula cells at least: a comparison that finds few has gone blind. */
const CELLS = 30_000;
const FILE = 'home.xlsx';
let bytes: Uint8Array;
let acrossNoon: Uint8Array;
beforeAll(async () => {
  const month = await smallMonth();
  const withTyped = (typed: typeof TYPED, keepLeastCost: boolean): Uint8Array => {
    const workbook = openWorkbookPackage(month, FILE);
    for (const [{ cell }, value] of typed) {
      const { row, column } = cell.place;
      workbook.editSheet(SHEETS.timers, { inputs: [{ column, firstRow: row, values: [value] }] });
    }
    return fillWorkbook(workbook.toBytes(), FILE, undefined, { keepLeastCost }).bytes;
  };
  bytes = withTyped(TYPED, false);
  acrossNoon = withTyped(ACROSS_NOON, true);
}, 240_000);

describeWithCalc('LibreOffice works timers out as the workbook stored them', () => {
  it('on a month with a change of the clock', async () => {
    await withFile(bytes, async (path) => {
      const found = compareCells(bytes, await recalculateWithCalc(path));
      assertCellsEqual(found, CELLS);
      expect(found.bySheet.get(SHEETS.timers)).toBeGreaterThan(100);
    });
  });

  it('with hours across noon, and what the fill stores out of date', async () => {
    await withFile(acrossNoon, async (path) => {
      assertCellsEqual(compareCells(acrossNoon, await recalculateWithCalc(path)), CELLS);
    });
  });
});

describeWithGnumeric('Gnumeric works timers out as the workbook stored them', () => {
  it('on a month with a change of the clock', async () => {
    await withFile(bytes, async (path) => {
      assertCellsEqual(compareCells(bytes, await recalculateWithGnumeric(path)), CELLS);
    });
  });
});
