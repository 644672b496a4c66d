import { beforeAll, describe, expect, it } from 'vitest';
import { parseCell } from '../../src/workbook/cell-address.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { figureName } from '../../src/workbook/model/heating/heating-figures-rows.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { inputsOf, smallMonth, workedOut } from './small-month.js';

let month: ReturnType<typeof inputsOf>;
/** Sheet and cell of every defined name, or of a flag of *Checks* by `check N`. */
let places: Map<string, { sheet: string; at: string }>;
beforeAll(async () => {
  month = inputsOf(await smallMonth());
  places = new Map(
    workbookModel(month.inputs, month.book).flatMap(({ name: sheet, cells }) =>
      cells.flatMap((cell) => ('name' in cell && cell.name ? [[cell.name, { sheet, at: cell.at }]] : [])),
    ),
  );
  places.set('first check', { sheet: SHEETS.checks, at: 'B6' });
  places.set('second check', { sheet: SHEETS.checks, at: 'B7' });
  places.set('unpriced half-hours', { sheet: SHEETS.tariffs, at: 'F96' });
});

/** A sentence where figures that it tells are typed over. */
function said(name: string, figures: Readonly<Record<string, number | string>>): string {
  const { calculated } = workedOut(month);
  for (const [of, value] of Object.entries(figures)) {
    const place = places.get(of);
    if (place === undefined) throw new Error(`nothing is called ${of}`);
    calculated.type({ sheet: place.sheet, ...parseCell(place.at) }, value);
  }
  return String(calculated.named(name));
}

describe('a sentence that counts agrees with one and with two', () => {
  it('of checks', () => {
    expect(said('checks_verdict', { 'first check': 1 })).toMatch(
      /^1 of \d+ checks asks for a look, first: No readings in the chosen period\.$/,
    );
    expect(said('checks_verdict', { 'first check': 1, 'second check': 5 })).toMatch(
      /^2 of \d+ checks ask for a look, first: /,
    );
  });

  it('of spans of four weeks', () => {
    const first = { cheapest_place: 2, second_place: 4 };
    for (const count of [1, 2]) {
      expect(said('sure_no_range_words', { ...first, spans_counted: count })).toMatch(
        new RegExp(`it takes 3 spans of four whole weeks one after another, and the period has ${count}\\.$`),
      );
    }
  });

  it('of days', () => {
    expect(said('fee_counts_over_words', { period_days: 1 })).toBe('over this day');
    expect(said('fee_counts_over_words', { period_days: 2 })).toBe('over these 2 days');
    expect(said('period_holds_words', { period_days: 1 })).toMatch(/^1 day, metered: /);
    expect(said('period_holds_words', { period_days: 2 })).toMatch(/^2 days, metered: /);
  });

  it('of half-hours without a price', () => {
    const lacking = (count: number): string => said('no_total_words', { 'unpriced half-hours': count });
    expect(lacking(1)).toBe('No total: Half-hourly price (1 half-hour without a price).');
    expect(lacking(2)).toBe('No total: Half-hourly price (2 half-hours without a price).');
  });

  it('of sessions', () => {
    const rest = (count: number): string =>
      said('timer_rest_words', { car_sessions_not_told: count, car_sessions_in_period: 9 });
    expect(rest(1)).toBe('; 1 of 9 sessions can’t be told and counts as it is.');
    expect(rest(2)).toBe('; 2 of 9 sessions can’t be told and count as they are.');
  });

  it('of months of the heating comparison', () => {
    const covered = (count: number): string => said('heating_verdict', { [figureName('months')]: count });
    expect(covered(1)).toMatch(/\(1 of 1 month\)$/);
    expect(covered(2)).toMatch(/\(1 of 2 months\)$/);
    const plain = (count: number): string => said(figureName('verdict'), { [figureName('months')]: count });
    expect(plain(1)).toMatch(/\(1 of 1 month\)$/);
    expect(plain(2)).toMatch(/\(1 of 2 months\)$/);
  });

  it('of days of the heating curve', () => {
    const curve = (days: number): string =>
      said('where_the_line_holds', { [figureName('mildDays')]: days, [figureName('dailyFitDays')]: 20 });
    expect(curve(1)).toContain('the 1 milder one took');
    expect(curve(2)).toContain('the 2 milder ones took');
    const coldest = (days: number): string =>
      said('line_on_the_coldest_days', { [figureName('coldDays')]: days, [figureName('dailyFitDays')]: 20 });
    expect(coldest(1)).toContain('On the 1 coldest day, from');
    expect(coldest(2)).toContain('On the 2 coldest days, from');
  });
});
