import { beforeAll, describe, expect, it } from 'vitest';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { TARIFF_ROW, tariffLetters } from '../../src/workbook/model/tariff-rows.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { dearerBy } from './dearer-rates.js';
import { inputsOf, smallMonth, workedOut } from './small-month.js';

const VAT_SHARE = 0.19;
/** £; a month's bill of either tariff is rounded to the penny. */
const ROUNDED = 0.021;

describe('the change of rates that ties, typed into the rates of a tariff whose rates are without VAT', () => {
  let home: ReturnType<typeof inputsOf>;
  beforeAll(async () => {
    const { inputs, book } = inputsOf(await smallMonth());
    home = {
      book,
      inputs: {
        ...inputs,
        home: { ...inputs.home, vatShare: VAT_SHARE },
        battery: { ...inputs.battery, usableKwh: null },
        tariffs: inputs.tariffs.map((tariff) => ({ ...tariff, includesVat: 'no' })),
      } as WorkbookInputs,
    };
  });
  const at = ({ calculated }: WorkbookValues, tariff: number, row: number): number =>
    calculated.at(SHEETS.tariffs, `${tariffLetters(tariff)}${row}`) as number;
  const withMore = (tariff: number, pence: number): WorkbookValues =>
    workedOut(home, (given) => ({
      ...given,
      tariffs: given.tariffs.map((one, t) => (t === tariff ? dearerBy(one, pence) : one)),
    }));

  it('makes each tariff’s total that of today’s', () => {
    const before = workedOut(home);
    const others = home.inputs.tariffs.flatMap(({ name }, t) =>
      name === null || name === home.inputs.todaysTariff ? [] : [t],
    );
    const apart = others.filter((t) => Math.abs(at(before, t, TARIFF_ROW.difference)) > 1);
    expect(apart.length).toBeGreaterThan(1);
    for (const t of apart) {
      const tied = withMore(t, at(before, t, TARIFF_ROW.headroom));
      expect(Math.abs(at(tied, t, TARIFF_ROW.difference)), String(t)).toBeLessThan(ROUNDED);
    }
  });

  it('makes the first the second’s', () => {
    const before = workedOut(home);
    const [first, second] = ['cheapest_place', 'second_place'].map(
      (name) => (before.calculated.named(name) as number) - 1,
    ) as [number, number];
    expect(before.calculated.named('lead_of_cheapest')).toBeGreaterThan(1);
    const tied = withMore(first, before.calculated.named('tie_at_rise') as number);
    const total = (t: number): number => at(tied, t, TARIFF_ROW.total);
    expect(Math.abs(total(first) - total(second))).toBeLessThan(ROUNDED);
  });
});
