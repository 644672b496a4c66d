import { beforeAll, describe, expect, it } from 'vitest';
import { formatFilled } from '../../../src/cli/format-filled.js';
import { type FillResult, fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { allChecks } from '../../../src/workbook/model/checks.js';
import { smallMonth } from '../small-month.js';
import { withOneSlip, withSlips } from './slips-typed.js';

const filled = (bytes: Uint8Array): FillResult =>
  fillWorkbook(bytes, 'home.xlsx', undefined, { keepLeastCost: true });
const banner = ({ values }: FillResult): string => String(values.calculated.at(SHEETS.answer, 'A3'));

let well: FillResult;
let one: FillResult;
beforeAll(async () => {
  well = filled(await smallMonth());
  one = filled(await withOneSlip());
});

describe('a workbook with one slip', () => {
  it('is filled and priced as typed: it may be meant', () => {
    expect(one.values.calculated.at(SHEETS.tariffs, 'C6')).toBeGreaterThan(0);
    expect(one.values.calculated.named('tariff_1_is_priced')).toBe(1);
  });

  it('has a banner that asks for a look as for a fault, and counts it among all checks that can', () => {
    const counted = allChecks(one.values.book).filter(({ kind }) => kind !== 'note').length;
    expect(banner(well)).toBe(`No problem found by ${counted} checks.`);
    expect(banner(one)).toBe(`1 of ${counted} checks asks for a look, first: Unit rates that look mistyped.`);
  });

  it('is told so by a fill', () => {
    const text = formatFilled({ result: one, report: '', written: true }, 'home.xlsx');
    expect(text.replaceAll('\n', ' ')).toContain(`Checks: ${banner(one)}`);
  });
});

it('counts each check that asks once, however many slips there are', async () => {
  expect(banner(filled(await withSlips()))).toMatch(/^6 of \d+ checks ask for a look, first: Unit rates/);
});

it('counts faults before what is asked about', async () => {
  const kinds = allChecks(well.values.book).map(({ kind }) => kind);
  expect(kinds.lastIndexOf('fault')).toBeLessThan(kinds.indexOf('ask'));
});
