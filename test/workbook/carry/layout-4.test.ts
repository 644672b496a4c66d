import { beforeAll, describe, expect, it } from 'vitest';
import { type Carried, carryWorkbook } from '../../../src/workbook/carry/carry-workbook.js';
import { NOW } from '../template.js';
import { itCarriesTheHome } from './carried-home.js';
import { notCarriedOf, OLD } from './held-cells.js';
import { layout4Workbook } from './layout-4.js';

describe('a workbook of layout 4', () => {
  const old = layout4Workbook();
  let carried: Carried;
  beforeAll(async () => {
    carried = await carryWorkbook(old, OLD, { now: NOW });
  }, 120_000);

  itCarriesTheHome(4, old, () => carried);

  it('keeps the owner’s cells where their place is free; names the others', () => {
    expect(carried.ownCells).toBe(13);
    expect(carried.notCarried).toEqual([
      {
        at: 'Readings!Q11',
        found: '=SUM(Days!AV8:AV38)',
        why: 'it looks at Days!AV8:AV38, where something else stands now; its value stands there',
      },
      {
        at: 'Readings!Q12',
        found: '=SUM(Months!TD8:TD10)',
        why: 'it looks at Months!TD8:TD10, where something else stands now; its value stands there',
      },
      {
        at: 'Readings!Q14',
        found: '=SUM(runs_1)',
        why: 'the name "runs_1" was not carried; its value stands there',
      },
      {
        at: 'Days!LK9',
        found: '"away from home"',
        why: 'the workbook has a cell of its own there now',
      },
    ]);
  });

  it('leaves formulas out that look at a name which stands for something else today', async () => {
    const formulas = {
      AZ5: 'SUM(store_change_where_sold)',
      AZ6: 'INDEX(fill_up_to_1,3,5)',
      AZ7: 'net_at_meter*2',
      AZ8: 'SUM(import_kWh)',
    };
    const notCarried = await notCarriedOf(old, formulas, 'net_at_meter');
    const left = notCarried.filter((at) => at.startsWith('Answer!AZ'));
    expect(left).toEqual(['Answer!AZ5', 'Answer!AZ6', 'Answer!AZ7']);
  });
});
