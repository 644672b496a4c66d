import { beforeAll, describe, expect, it } from 'vitest';
import { evaluateWorkbook } from '../../../src/workbook/evaluate/evaluate-workbook.js';
import type { WorkbookResults } from '../../../src/workbook/evaluate/workbook-results.js';
import { readInputs } from '../../../src/workbook/inputs/read-inputs.js';
import { BATTERY_SPAN_ROW as ROW } from '../../../src/workbook/model/battery/battery-columns.js';
import { BATTERY_LAWS } from '../../../src/workbook/model/battery/battery-laws.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { filledMonth } from '../template.js';

const TARIFF = 1;
let month: Uint8Array;
beforeAll(async () => {
  month = await filledMonth();
});

/** Rows of the laws that a month breaks after a change to what was worked out. */
function broken(change: (tariff: WorkbookResults['battery']['tariffs'][number]) => void): number[] {
  const results = evaluateWorkbook(readInputs(openWorkbookPackage(month, 'home.xlsx')));
  change(results.battery.tariffs[TARIFF]!);
  return BATTERY_LAWS.filter(({ isBroken }) => isBroken(results, TARIFF)).map(({ row }) => row);
}

/** A row in which the battery gives, and one in which it takes from the grid. */
const giving = (kwh: Float64Array): number => kwh.findIndex((flow) => flow < -0.1);
const taking = (kwh: Float64Array): number => kwh.findIndex((flow) => flow > 1);

describe('the laws of the battery', () => {
  it('hold in a filled month', () => {
    expect(broken(() => {})).toEqual([]);
  });

  it.each<[string, Parameters<typeof broken>[0], number[]]>([
    [
      'a level above the capacity',
      ({ halfHours }) => halfHours.levelKwh.fill(50, 99, 100),
      [ROW.outOfBounds],
    ],
    ['a level below nothing', ({ halfHours }) => halfHours.levelKwh.fill(-1, 99, 100), [ROW.outOfBounds]],
    [
      'a level at the end that nothing went into',
      ({ halfHours }) => {
        halfHours.levelKwh[halfHours.levelKwh.length - 1]! += 1;
      },
      [ROW.unbalanced],
    ],
    [
      'a month that costs more than its half-hours',
      ({ months }) => {
        months.energyPounds[0]! += 1;
      },
      [ROW.unrounded],
    ],
    [
      'import that does not fall where the battery gives',
      ({ halfHours: { importKwh, batteryKwh } }) => {
        const row = giving(batteryKwh);
        importKwh[row]! -= batteryKwh[row]!;
      },
      [ROW.unrounded, ROW.impossible],
    ],
    [
      'import that does not rise where the battery takes',
      ({ halfHours: { importKwh, batteryKwh } }) => {
        const row = taking(batteryKwh);
        importKwh[row]! -= batteryKwh[row]!;
      },
      [ROW.unrounded, ROW.impossible],
    ],
  ])('are broken by %s', (_, change, rows) => {
    expect(broken(change)).toEqual(rows);
  });
});
