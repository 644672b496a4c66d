import { beforeAll, describe, expect, it } from 'vitest';
import { type Carried, carryWorkbook } from '../../../src/workbook/carry/carry-workbook.js';
import { openEarlier } from '../../../src/workbook/carry/open-earlier.js';
import { columnNumber } from '../../../src/workbook/cell-address.js';
import { LAYOUT_NAME } from '../../../src/workbook/model/notes-sheet.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { formulaCell, numberCell, withCells } from '../edit-package.js';
import { NOW } from '../template.js';
import { itCarriesTheHome } from './carried-home.js';
import { notCarriedOf, OLD } from './held-cells.js';
import { type LayoutInPlace, workbookInPlace } from './workbook-in-place.js';

describe.each<LayoutInPlace>([5, 6, 7])('a workbook of layout %i', (layout) => {
  const old = workbookInPlace(layout);
  let carried: Carried;
  beforeAll(async () => {
    carried = await carryWorkbook(old, OLD, { now: NOW });
  }, 120_000);

  itCarriesTheHome(layout, old, () => carried);

  it('keeps all of the owner’s cells', () => {
    expect(carried.ownCells).toBe(10);
    expect(carried.notCarried).toEqual([]);
  });

  it('knows every name of the kept workbook for the project’s but its owner’s', () => {
    const ours = new Set([...openEarlier(old, OLD).layoutFor(31).names].map((name) => name.toLowerCase()));
    const names = openWorkbookPackage(old, OLD)
      .definedNames()
      .filter(({ name, sheet }) => sheet === undefined && !name.startsWith('_xlnm.'))
      .map(({ name }) => name);
    expect(names.length).toBeGreaterThan(500);
    expect(names.filter((name) => !ours.has(name.toLowerCase()))).toEqual([LAYOUT_NAME, 'my_budget']);
    expect([...ours].filter((name) => !names.some((held) => held.toLowerCase() === name))).toEqual([]);
  });
});

describe('a formula of the owner’s in an earlier workbook', () => {
  it.each<LayoutInPlace>([5, 6])(
    'is left out of layout %i where it looks at a cell of the owner’s where one of ours stands today',
    async (layout) => {
      const own = withCells(workbookInPlace(layout), {
        Rates: { V78: numberCell('V78', 5) },
        Days: { MU4: numberCell('MU4', 7) },
        Answer: Object.fromEntries(
          Object.entries({
            AZ5: 'Rates!V78*2',
            AZ6: 'SUM(Rates!V70:V90)',
            AZ7: 'Days!MU4',
            AZ8: 'SUM(Days!MU1:MU30)',
          }).map(([at, formula]) => [at, formulaCell(at, formula, 10)]),
        ),
      });
      const { notCarried } = await carryWorkbook(own, OLD, { now: NOW });
      const left = notCarried.map(({ at }) => at);
      expect(left.filter((at) => /^(Rates|Days)!/.test(at)).sort()).toEqual(['Days!MU4', 'Rates!V78']);
      expect(left.filter((at) => at.startsWith('Answer!AZ'))).toEqual([
        'Answer!AZ5',
        'Answer!AZ6',
        'Answer!AZ7',
      ]);
    },
  );

  it('is left out of layout 7 where something of today’s stands', async () => {
    const workbook = openWorkbookPackage(workbookInPlace(7), OLD);
    const type = (sheet: string, letters: string, firstRow: number) =>
      workbook.editSheet(sheet, { inputs: [{ column: columnNumber(letters), firstRow, values: [6] }] });
    type('Months', 'SD', 6);
    type('Months', 'SD', 8);
    type('Charts', 'IL', 6);
    type('Charts', 'IK', 8);
    const own = withCells(workbook.toBytes(), {
      Tariffs: { U45: numberCell('U45', 5), AD45: numberCell('AD45', 3) },
      Answer: {
        AZ5: formulaCell('AZ5', 'Tariffs!U45*2', 10),
        AZ6: formulaCell('AZ6', 'Tariffs!AD45*2', 6),
        AZ7: formulaCell('AZ7', 'Months!SD8*2', 14),
        AZ8: formulaCell('AZ8', 'Charts!IK8*2', 18),
      },
    });
    const { notCarried } = await carryWorkbook(own, OLD, { now: NOW });
    expect(notCarried.map(({ at }) => at).sort()).toEqual([
      'Answer!AZ5',
      'Answer!AZ7',
      'Answer!AZ8',
      'Charts!IK8',
      'Charts!IL6',
      'Months!SD6',
      'Months!SD8',
      'Tariffs!U45',
    ]);
  });

  it('is left out of layout 5 where it looks at a name which stands for something else today', async () => {
    const old = workbookInPlace(5);
    const formulas = {
      AZ5: 'SUM(price_of_half_hours_there_are)',
      AZ6: 'used_by_home*2',
      AZ7: 'SUM(import_kWh)',
    };
    const notCarried = await notCarriedOf(old, formulas, 'used_by_home');
    const left = notCarried.filter((at) => at.startsWith('Answer!AZ'));
    expect(left).toEqual(['Answer!AZ5', 'Answer!AZ6']);
    expect(notCarried).toContain('the name used_by_home');
  });
});
