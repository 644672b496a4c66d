import { beforeAll, describe, expect, it } from 'vitest';
import { SHEETS } from '../../../src/workbook/layout.js';
import { BATTERY_RESULTS, REACHED, sizingRows } from '../../../src/workbook/model/battery/battery-rows.js';
import { YEAR_BLANK } from '../../../src/workbook/model/battery/year-figures.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf } from '../heating/heated-year.js';
import { workedOut } from '../heating/heating-values.js';
import { filledYear } from '../sample-workbooks.js';
import { workedOut as monthWorkedOut, smallMonth, inputsOf as smallOf } from '../small-month.js';

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
});
