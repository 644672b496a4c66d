import { beforeAll, describe, expect, it } from 'vitest';
import { SHEETS } from '../../../src/workbook/layout.js';
import { BATTERY_RESULTS, REACHED, sizingRows } from '../../../src/workbook/model/battery/battery-rows.js';
import { YEAR_BLANK } from '../../../src/workbook/model/battery/year-figures.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf } from '../heating/heated-year.js';
import { workedOut } from '../heating/heating-values.js';
import { filledYear } from '../sample-workbooks.js';
import {
  workedOut as monthWorkedOut,
  smallMonth,
  inputsOf as smallOf,
  smallTemplate,
} from '../small-month.js';

const DECEMBER_2025 = 46_000;

/** What the sheet says of a year: saved, most that could be, payback by size; payback by tariff. */
function ofYear({ calculated, book }: WorkbookValues) {
  const first = sizingRows(book.shape).first;
  const column = (letters: string, from: number, rows: number): unknown[] =>
    Array.from({ length: rows }, (_, i) => calculated.at(SHEETS.battery, `${letters}${from + i}`));
  return {
    sizes: ['F', 'G', 'I'].flatMap((letters) => column(letters, first, 8)),
    tariffs: column('L', BATTERY_RESULTS.first, 8),
    sizesWords: calculated.named('battery_sizing_words'),
    tariffsWords: calculated.named('battery_payback_words'),
  };
}
const numbers = (cells: readonly unknown[]): unknown[] => cells.filter((cell) => typeof cell === 'number');

let year: WorkbookValues;
beforeAll(async () => {
  year = workedOut(inputsOf(await filledYear()));
}, 300_000);

describe('what a battery does in a year', () => {
  it('is told of the year that the fill stored it for', () => {
    const { sizes, tariffs, sizesWords, tariffsWords } = ofYear(year);
    expect(numbers(sizes).length).toBeGreaterThan(8);
    expect(numbers(tariffs).length).toBeGreaterThan(0);
    expect([sizesWords, tariffsWords]).toEqual(['', '']);
  });

  it('is blank where another period is chosen: what was stored is not scaled to it', () => {
    const december = { fromMonth: DECEMBER_2025, toMonth: DECEMBER_2025 };
    const { sizes, tariffs, sizesWords, tariffsWords } = ofYear(workedOut({ ...year.inputs, ...december }));
    expect([numbers(sizes), numbers(tariffs)]).toEqual([[], []]);
    expect(sizesWords).toBe(YEAR_BLANK.notOfPeriod);
    expect(tariffsWords).toBe(YEAR_BLANK.tooShort);
  });

  it('is not told of no battery: the sheet asks for one', () => {
    const none = workedOut({ ...year.inputs, battery: { ...year.inputs.battery, usableKwh: 0 } });
    expect(String(none.calculated.named('battery_sentence'))).toMatch(/^No battery is entered: /);
    expect(String(year.calculated.named('battery_sentence'))).toMatch(/^On .* this battery makes /);
    // Nor that a fill could work something out for it.
    const states = ({ calculated }: WorkbookValues): unknown[] =>
      [0, 1].map((t) => calculated.at(SHEETS.battery, `${REACHED.status}${BATTERY_RESULTS.first + t}`));
    expect(states(none)).toEqual(['', '']);
    expect(states(year)).toEqual(['current', 'current']);
  });

  it('is blank with a month of readings, however new the stored costs are', async () => {
    const month = monthWorkedOut(smallOf(await smallMonth()));
    expect(month.calculated.named('battery_sizing_is')).toBe('current');
    const { sizes, tariffs, sizesWords, tariffsWords } = ofYear(month);
    expect([numbers(sizes), numbers(tariffs)]).toEqual([[], []]);
    expect([sizesWords, tariffsWords]).toEqual([YEAR_BLANK.tooShort, YEAR_BLANK.tooShort]);
  });

  it('has no price and no payback where no price is typed, and says what to type', () => {
    const priced = (priceFixed: number | null, pricePerKwh: number | null): WorkbookValues =>
      workedOut({ ...year.inputs, battery: { ...year.inputs.battery, priceFixed, pricePerKwh } });
    const prices = ({ calculated, book }: WorkbookValues): unknown[] =>
      Array.from({ length: 21 }, (_, i) =>
        calculated.at(SHEETS.battery, `H${sizingRows(book.shape).first + i}`),
      );
    const none = priced(null, null);
    const { sizes, tariffs, sizesWords, tariffsWords } = ofYear(none);
    expect(prices(none)).toEqual(prices(none).map(() => ''));
    expect(numbers(tariffs)).toEqual([]);
    // What they save stands; their payback does not.
    expect(numbers(sizes)).toHaveLength(16);
    expect([sizesWords, tariffsWords]).toEqual([YEAR_BLANK.priceMissing, YEAR_BLANK.priceMissing]);

    const perKwh = priced(null, 100);
    expect(prices(perKwh).slice(0, 3)).toEqual([0, 100, 200]);
    expect(prices(priced(500, null)).slice(0, 3)).toEqual([0, 500, 500]);
    expect(numbers(ofYear(perKwh).tariffs).length).toBeGreaterThan(0);
    expect([ofYear(perKwh).sizesWords, ofYear(perKwh).tariffsWords]).toEqual(['', '']);
  });

  it('says nothing of prices where nothing is metered, and first what else is missing', async () => {
    const { inputs } = smallOf(await smallMonth());
    const unpriced = { ...inputs.battery, priceFixed: null, pricePerKwh: null };
    const month = monthWorkedOut(smallOf(await smallMonth()), (all) => ({ ...all, battery: unpriced }));
    expect(ofYear(month).tariffsWords).toBe(YEAR_BLANK.tooShort);
    const empty = monthWorkedOut(smallOf(await smallTemplate()), (all) => ({ ...all, battery: unpriced }));
    expect([ofYear(empty).sizesWords, ofYear(empty).tariffsWords]).toEqual(['', '']);
  });
});
