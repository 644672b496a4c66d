import { beforeAll, describe, expect, it } from 'vitest';
import { formatComparison } from '../../../src/cli/format-comparison.js';
import { carryWorkbook } from '../../../src/workbook/carry/carry-workbook.js';
import { blankBillsCells } from '../../../src/workbook/inputs/bill-cells.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { BILL_FLAGS } from '../../../src/workbook/model/bills/bill-flags.js';
import { verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { layout2Workbook } from '../carry/layout-2.js';
import { filledYear } from '../sample-workbooks.js';
import { inputsOf, smallMonth } from '../small-month.js';
import { emptyTemplate, NOW } from '../template.js';

const WORDS =
  '1 of 4 bills differs by £35.23: night kWh billed by UTC hours; its windows run by the home’s clock.';

describe('the four bills of the sample home', () => {
  let values: WorkbookValues;
  beforeAll(async () => {
    ({ values } = verifyWorkbook(await filledYear(), 'year.xlsx'));
  }, 240_000);

  it('agree with the readings, but for one, after the change of the clock', () => {
    const { calculated } = values;
    const words = [10, 11, 12, 13].map((row) => calculated.at(SHEETS.bills, `H${row}`));
    expect(words).toEqual([
      'agrees',
      'agrees',
      'agrees',
      '£35.23 more: night kWh billed by UTC hours; its windows run by the home’s clock',
    ]);
    expect(calculated.named('bills_words')).toBe(WORDS);
  });

  it('are told in the terminal', () => {
    const text = formatComparison(values).replaceAll(/\s+/g, ' ');
    expect(text).toContain(`Bills: ${WORDS}`);
  });
});

describe('a workbook without bills', () => {
  it('says nothing of them, in the terminal neither', async () => {
    const { values } = verifyWorkbook(await emptyTemplate(), 'template.xlsx');
    expect(values.calculated.named('bills_words')).toBe('');
    expect(formatComparison(values)).not.toContain('Bills');
    const flags = Object.values(BILL_FLAGS).map((flag) => flag.area({ sheet: '', row: 1, column: 1 }));
    for (const { firstRow, lastRow, firstColumn, lastColumn } of flags) {
      for (let row = firstRow; row <= lastRow; row++)
        for (let column = firstColumn; column <= lastColumn; column++)
          expect(values.calculated.value({ sheet: SHEETS.bills, row, column })).toBe(0);
    }
  }, 120_000);
});

describe('bills carried over', () => {
  it('stand in the new workbook as they were typed', async () => {
    const { inputs } = inputsOf(await smallMonth());
    const { values } = await carryWorkbook(await smallMonth(), 'home.xlsx', { days: 45, now: NOW });
    expect(inputs.bills.rows[3]).toMatchObject({ tariff: 'Two-rate night', total: 114.55 });
    expect(values.inputs.bills).toEqual(inputs.bills);
  }, 120_000);

  it('are none where the layout had none', async () => {
    const { values } = await carryWorkbook(layout2Workbook(), 'old.xlsx', { days: 60, now: NOW });
    expect(values.inputs.bills).toEqual(blankBillsCells());
  }, 120_000);
});
