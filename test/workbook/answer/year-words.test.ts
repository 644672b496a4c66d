import { beforeAll, describe, expect, it } from 'vitest';
import { yearAhead } from '../../../src/workbook/model/outlook/year-lines.js';
import { inputsOf, smallTemplate, workedOut } from '../small-month.js';

let small: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  small = inputsOf(await smallTemplate());
}, 300_000);

interface Year {
  pounds: number | '';
  low?: number;
  high?: number;
}
interface Home {
  years?: readonly Year[];
  /** Calendar months that count, and months of the period, and those that count of them. */
  metered?: number;
  months?: number;
  counted?: number;
  headline?: number;
  usableKwh?: number;
  /** Column of today's tariff; 0: none. */
  todays?: number;
  more?: Readonly<Record<string, number>>;
}

/** The words of a home whose figures are these: those that they are made of are typed over. */
function wordsOf({ years = [], metered = 12, months = 12, counted = months, ...home }: Home) {
  const { calculated } = workedOut(small, (inputs) => ({
    ...inputs,
    tariffs: inputs.tariffs.map((tariff, t) => ({ ...tariff, name: 'ABCDEFGH'[t] ?? null })),
  }));
  const { lines, columns } = yearAhead(small.book);
  const { selected } = small.book.workings.months;
  const type = (name: string, value: number | ''): void => {
    const found = lines.find(({ line }) => line.name === name);
    if (found === undefined) throw new Error(`there is no line ${name}`);
    calculated.type(found.line.place, value);
  };
  calculated.type(small.book.workings.battery.usableKwh.place, home.usableKwh ?? 0);
  // The few months of the small book stand for as many as are asked for.
  calculated.type(selected.cell(0), months);
  calculated.type(columns.ofMonths.counts.cell(0), counted);
  for (let row = 1; row < selected.rows; row++) {
    calculated.type(selected.cell(row), 0);
    calculated.type(columns.ofMonths.counts.cell(row), 0);
  }
  type('year_months_metered', metered);
  for (const name of ['year_can_be_fitted', 'year_is_fitted', 'year_by_degree_days']) type(name, 1);
  type('year_headline_place', home.headline ?? 1);
  calculated.type(small.book.inputs.todaysPlace.place, home.todays ?? 0);
  for (let t = 1; t <= small.book.shape.tariffs; t++) {
    const { pounds = '', low = '', high = '' } = years[t - 1] ?? {};
    type(`year_cost_${t}`, pounds);
    type(`year_low_${t}`, low);
    type(`year_high_${t}`, high);
    for (const name of ['year_by_price', 'year_saving_lacks']) type(`${name}_${t}`, 0);
    type(`year_is_told_${t}`, pounds === '' ? 0 : 1);
  }
  for (const [name, value] of Object.entries(home.more ?? {})) type(name, value);
  return String(calculated.named('year_words'));
}

const A = { pounds: 1200.4, low: 1100, high: 1300 };
const B = { pounds: 1000.2, low: 900, high: 1050 };

describe('the words of a year', () => {
  it('name the cheapest, what it costs, by how much less than the next, and its range', () => {
    expect(wordsOf({ years: [B, A] })).toBe(
      'At the latest rates, A costs least: £1,000, £200 less than B; in a year to come £900 to £1,050, four times in five. All twelve months are metered.',
    );
  });

  it('say that ranges overlap, and that the headline names another', () => {
    const words = wordsOf({ years: [A, { ...B, high: 1150 }], headline: 1, usableKwh: 9 });
    expect(words).toContain(
      'With the battery, at the latest rates, B costs least: £1,000, £200 less than A;',
    );
    expect(words).toContain(
      'The ranges of the two cheapest overlap, but both move with the same year: the lines at the top say how sure their difference is. Other than above, where rates are as they were',
    );
    expect(wordsOf({ years: [A, B], headline: 2 })).not.toContain('Other than above');
  });

  it('call a tie the same, and a single tariff has no next', () => {
    expect(wordsOf({ years: [A, A] })).toContain('A costs least: £1,200, the same as B;');
    expect(wordsOf({ years: [A] })).toContain('A costs least: £1,200; in a year');
  });

  it('put the sign of a year that earns before the currency', () => {
    const words = wordsOf({ years: [{ pounds: -120.2, low: -200, high: -0.4 }, A] });
    expect(words).toContain('A costs least: −£120, £1,321 less than B; in a year to come −£200 to £0,');
  });

  it('say that half-hourly prices are those of the months metered', () => {
    expect(wordsOf({ years: [A, B], more: { year_by_price_1: 1 } })).toContain(
      'Half-hourly prices are those of the months metered: other prices are not in the range.',
    );
  });

  it('say why a tariff is blank, or what its battery saves', () => {
    expect(wordsOf({ years: [A], more: { year_is_told_2: -1 } })).toMatch(
      /metered\. No year for B: rates did not all change alike in these months; choose “as they are now” at Rates on Answer\.$/,
    );
    expect(wordsOf({ more: { year_is_told_2: -1 } })).toMatch(/^No year for B: rates did not/);
    expect(wordsOf({ years: [A], more: { year_saving_lacks_1: 1 } })).toContain(
      '“Battery saves about” is blank where rates changed: choose “as they are now” at Rates on Answer.',
    );
  });

  it('name no cheapest of all where a tariff with a total has no year, and today’s first of those', () => {
    const two = wordsOf({ years: [A, B], headline: 3, more: { year_is_told_3: -1 } });
    expect(two).toContain('B costs least of the 2 tariffs with a year: £1,000, £200 less than A;');
    expect(two).toContain('C, the cheapest above, has no year.');
    expect(two).not.toContain('Other than above');
    const one = wordsOf({
      years: [A],
      todays: 4,
      more: { year_is_told_2: -1, year_is_told_4: -1, year_is_told_8: -1 },
    });
    expect(one).toContain('A is the only tariff with a year: £1,200; in a year to come');
    expect(one).toContain('No year for D (today’s tariff), B, H: rates did not all change alike');
  });

  it('say which months do not count', () => {
    expect(wordsOf({ metered: 0, months: 3, counted: 0 })).toBe(
      'Not enough for a year’s cost: it takes 5 calendar months of readings, and the period has 0. 0 of 3 months count: a month needs 21 days and 90 % of them metered.',
    );
    expect(wordsOf({ metered: 4, months: 6, counted: 4 })).toContain('has 4. 4 of 6 months count:');
    expect(wordsOf({ metered: 1, months: 2, counted: 1 })).toContain('has 1. 1 of 2 months counts:');
    expect(wordsOf({ years: [A], metered: 11, months: 12, counted: 11 })).toContain('11 of 12 months count:');
    expect(wordsOf({ metered: 0, months: 0 })).toBe('');
  });
});
