import { beforeAll, describe, expect, it } from 'vitest';
import { differenceRange } from '../../../src/break-even/difference-range.js';
import { formatComparison } from '../../../src/cli/format-comparison.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS, USUAL_DAYS } from '../../../src/workbook/layout.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { CHART_MONTHS } from '../../../src/workbook/model/chart-data-sheet.js';
import { CLOSE_SHARE, CONFIDENCE } from '../../../src/workbook/model/how-sure.js';
import { TARIFF_ROW as T, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import { workbookCharts } from '../../../src/workbook/model/workbook-charts.js';
import { FIRST_ROW } from '../../../src/workbook/sheets/shape.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { dearerBy } from '../dearer-rates.js';
import { inputsOf } from '../heating/heated-year.js';
import { workedOut } from '../heating/heating-values.js';
import { filledYear } from '../sample-workbooks.js';
import { workedOut as monthWorkedOut, smallMonth, inputsOf as smallOf } from '../small-month.js';

const named = ({ calculated }: WorkbookValues, name: string): number => calculated.named(name) as number;
const said = ({ calculated }: WorkbookValues, name = 'how_sure_words'): string =>
  String(calculated.named(name));
/** Places, from 0, of the cheapest tariff and the second. */
const firstTwo = (values: WorkbookValues): [first: number, second: number] => [
  named(values, 'cheapest_place') - 1,
  named(values, 'second_place') - 1,
];
const total = ({ calculated }: WorkbookValues, tariff: number): number =>
  calculated.at(SHEETS.tariffs, `${tariffLetters(tariff)}${T.total}`) as number;

let inputs: WorkbookInputs;
let bare: WorkbookValues;
/** Without the tariff that follows a price: the first has an off-peak rate, and is today's. */
let ratedInputs: WorkbookInputs;
let rated: WorkbookValues;
beforeAll(async () => {
  inputs = inputsOf(await filledYear());
  inputs = { ...inputs, battery: { ...inputs.battery, usableKwh: null } };
  bare = workedOut(inputs);
  ratedInputs = {
    ...inputs,
    tariffs: inputs.tariffs.map((tariff) =>
      tariff.name === 'Half-hourly price' ? { ...tariff, name: null } : tariff,
    ),
  };
  rated = workedOut(ratedInputs);
}, 300_000);

describe('how sure the first is cheaper than the second, over the sample’s year', () => {
  it('has the difference, its share and the months of each, as the tariffs’ totals have them', () => {
    const [first, second] = firstTwo(bare);
    const lead = total(bare, second) - total(bare, first);
    expect(named(bare, 'lead_of_cheapest')).toBeCloseTo(lead, 6);
    expect(named(bare, 'lead_share')).toBeCloseTo(lead / total(bare, second), 9);
    const { months } = bare.book.workings;
    const selected = bare.calculated.numbers(months.selected);
    const [ofFirst, ofSecond] = [first, second].map((t) => {
      const tariff = bare.book.workings.tariffs[t];
      if (tariff === undefined) throw new Error('no tariff');
      return bare.calculated.numbers(tariff.months.total);
    });
    const differences = Array.from(selected, (is, m) => (is === 1 ? ofSecond![m]! - ofFirst![m]! : 0));
    const cheaper = differences.filter((difference) => difference > 0.001).length;
    expect(named(bare, 'months_first_cheaper')).toBe(cheaper);
    expect(named(bare, 'months_second_cheaper')).toBe(
      differences.filter((difference) => difference < -0.001).length,
    );
    expect(cheaper).toBeGreaterThan(0);
    expect(cheaper).toBeLessThan(12);
  });

  it('has the range that the library has from the weeks, written apart', () => {
    const week = bare.calculated.column({
      sheet: SHEETS.chartData,
      column: 3 + 3 * 8,
      firstRow: FIRST_ROW,
      rows: Math.floor(USUAL_DAYS / 7),
    });
    const weeklyPounds = week.map((value) => (typeof value === 'number' ? value : Number.NaN));
    expect(weeklyPounds.filter((value) => !Number.isNaN(value))).toHaveLength(52);
    const range = differenceRange({
      weeklyPounds,
      differencePounds: named(bare, 'lead_of_cheapest'),
      days: 365,
      daysAhead: 365,
      confidence: CONFIDENCE,
    });
    expect(named(bare, 'spans_counted')).toBe(range?.spans);
    expect(named(bare, 'span_freedom')).toBe(range?.degreesOfFreedom);
    expect(named(bare, 'span_deviation')).toBeCloseTo(range?.deviationPoundsPerDay ?? Number.NaN, 9);
    expect(named(bare, 'difference_ahead_low')).toBeCloseTo(range?.lowPounds ?? Number.NaN, 6);
    expect(named(bare, 'difference_ahead_high')).toBeCloseTo(range?.highPounds ?? Number.NaN, 6);
  });

  it('says in words that the readings do not tell them apart, on the sheet and in the terminal', () => {
    expect(named(bare, 'difference_ahead_low')).toBeLessThan(0);
    const [first, second] = firstTwo(bare).map((t) => String(bare.inputs.tariffs[t]?.name));
    const [low, high] = ['difference_ahead_low', 'difference_ahead_high'].map((name) => named(bare, name));
    expect(said(bare)).toBe(
      `Not told apart by these readings: ${first} costs £22.24 (1.4 %) less than ${second}, and less in 7 of 12 months; ` +
        `in another year of such use £${Math.round(-low!)} more to £${Math.round(high!)} less, nine times in ten.`,
    );
    expect(String(bare.calculated.at(SHEETS.answer, 'A2'))).toContain(said(bare));
    expect(formatComparison(bare).replaceAll('\n', ' ')).toContain(said(bare));
  });

  it('ties where every unit rate of the first rises as told, and where its off-peak share is that of Tariffs', () => {
    const [first, second] = firstTwo(rated);
    const rise = named(rated, 'tie_at_rise');
    const tariffs = ratedInputs.tariffs.map((tariff, t) => (t === first ? dearerBy(tariff, rise) : tariff));
    const risen = workedOut({
      ...ratedInputs,
      tariffs,
      todaysTariff: ratedInputs.tariffs[second]?.name ?? null,
    });
    expect(ratedInputs.tariffs[first]?.includesVat).toBe('yes');
    // Twelve bills, each rounded to the penny.
    expect(Math.abs(total(risen, first) - total(risen, second))).toBeLessThan(0.07);
    const other = workedOut({ ...ratedInputs, todaysTariff: ratedInputs.tariffs[second]?.name ?? null });
    expect(named(rated, 'tie_off_peak_share')).toBeCloseTo(
      other.calculated.at(SHEETS.tariffs, `${tariffLetters(first)}${T.breakEvenShare}`) as number,
      9,
    );
  });

  it('is close where the first is steadily cheaper by little, and clear where it is by more', () => {
    const [first, second] = firstTwo(rated);
    const cheapest = ratedInputs.tariffs[first];
    if (cheapest === undefined) throw new Error('no tariff');
    const beside = (pence: number): WorkbookValues =>
      workedOut({
        ...ratedInputs,
        tariffs: ratedInputs.tariffs.map((tariff, t) =>
          t === second ? { ...dearerBy(cheapest, pence), name: 'Like the first' } : tariff,
        ),
      });
    const [close, clear] = [beside(0.2), beside(0.6)];
    expect(named(close, 'lead_share')).toBeLessThan(CLOSE_SHARE);
    expect(said(close)).toMatch(/^Close: .+ less than Like the first, and less in 12 of 12 months; /);
    expect(named(clear, 'lead_share')).toBeGreaterThan(CLOSE_SHARE);
    expect(said(clear)).toMatch(/^Clear: /);
    expect(said(clear, 'how_sure')).toBe('clear');
  });

  it('calls a tie a tie', () => {
    const [first, second] = firstTwo(rated);
    const cheapest = ratedInputs.tariffs[first];
    if (cheapest === undefined) throw new Error('no tariff');
    const tied = workedOut({
      ...ratedInputs,
      tariffs: ratedInputs.tariffs.map((tariff, t) =>
        t === second ? { ...cheapest, name: 'The same' } : tariff,
      ),
    });
    expect(said(tied)).toMatch(/ costs the same as .+, and less in 0 of 12 months/);
    expect(said(tied)).not.toContain('0.00');
  });

  it('has each month against today’s in a row of dots a tariff, by rank', () => {
    const chart = workbookCharts(declareBook(USUAL_DAYS), { currency: '£', minorUnit: 'p' }).find(
      ({ title }) => title === 'Each month against today’s tariff',
    );
    expect(chart?.series).toHaveLength(8);
    const [first] = firstTwo(rated);
    const place = rated.calculated.at(SHEETS.chartData, `${CHART_MONTHS.against(1)}5`);
    expect(place).toBe(first + 1);
    const dots = (rank: number): unknown[] =>
      Array.from({ length: 12 }, (_, m) =>
        rated.calculated.at(SHEETS.chartData, `${CHART_MONTHS.against(rank)}${FIRST_ROW + m}`),
      );
    // Today's is the first: its dots stand at 0; those of the second add up to what it costs more.
    expect(dots(1)).toEqual(Array(12).fill(0));
    const sum = (dots(2) as number[]).reduce((a, b) => a + b, 0);
    expect(sum).toBeCloseTo(named(rated, 'lead_of_cheapest'), 6);
    // Five tariffs: nothing of the sixth, neither across nor down.
    for (const letters of [CHART_MONTHS.against(6), CHART_MONTHS.rank(6)]) {
      expect(String(rated.calculated.at(SHEETS.chartData, `${letters}${FIRST_ROW}`))).toBe('#N/A');
    }
    expect(rated.calculated.at(SHEETS.chartData, `${CHART_MONTHS.rank(5)}${FIRST_ROW}`)).toBe(-5);
  });
});

describe('how sure, with less than a year', () => {
  it('one month has no range, and says what it takes', async () => {
    const month = monthWorkedOut(smallOf(await smallMonth()));
    expect(named(month, 'difference_ahead_low')).toBe('');
    expect(said(month)).toMatch(
      /^How sure: .+ less in \d of 1 month; how far that may be another on other days is not told: it takes 3 spans of four whole weeks one after another, and the period has [01]\.$/,
    );
  });

  it('some months have a range of as many days, and are not enough for a year', () => {
    const spring = workedOut({ ...inputs, fromMonth: 46_023, toMonth: 46_113 });
    expect(named(spring, 'days_ahead')).toBe(120);
    expect(said(spring)).toMatch(
      /in as many days of such use .+ nine times in ten\. Not enough for a year: it takes 12 spans of four whole weeks, and there are [34]\.$/,
    );
  });

  it('a year with gaps in most months is not enough for a year either, and does not call its days one', () => {
    const importKwh = Float64Array.from(inputs.readings.values.importKwh);
    // One half-hour in two weeks of each of the last nine spans.
    for (let span = 4; span < 13; span++)
      for (const week of [0, 1]) importKwh[(span * 28 + week * 7) * 48 + 5] = Number.NaN;
    const gappy = workedOut({
      ...inputs,
      readings: { ...inputs.readings, values: { ...inputs.readings.values, importKwh } },
    });
    expect(named(gappy, 'days_ahead')).toBe(365);
    expect(said(gappy)).toMatch(/in as many days of such use .+ Not enough for a year: .+ there are 4\.$/);
  });

  it('three spans with gaps between have no range and no days ahead, and it says why', () => {
    const importKwh = Float64Array.from(inputs.readings.values.importKwh);
    for (let span = 0; span < 13; span++)
      for (const week of [0, 1]) {
        if (span < 5 && span % 2 === 0) continue;
        importKwh[(span * 28 + week * 7) * 48 + 5] = Number.NaN;
      }
    const apart = workedOut({
      ...inputs,
      readings: { ...inputs.readings, values: { ...inputs.readings.values, importKwh } },
    });
    expect(named(apart, 'days_ahead')).toBe('');
    expect(said(apart)).toMatch(/one after another, and the period has 3, with gaps between them\.$/);
  });

  it('an off-peak share that is none is not told', () => {
    const [first, second] = firstTwo(rated);
    // So much dearer that no share of the first makes them tie.
    const apart = workedOut({
      ...ratedInputs,
      tariffs: ratedInputs.tariffs.map((tariff, t) => (t === first ? tariff : dearerBy(tariff, 40))),
    });
    expect(named(apart, 'second_place')).toBe(second + 1);
    expect(named(apart, 'tie_share_worked_out')).toBeLessThan(0);
    expect(named(apart, 'tie_off_peak_share')).toBe('');
  });

  it('says nothing where there is one tariff', () => {
    const alone = workedOut({
      ...inputs,
      tariffs: inputs.tariffs.map((tariff, t) => (t === 0 ? tariff : { ...tariff, name: null })),
      todaysTariff: inputs.tariffs[0]?.name ?? null,
    });
    expect(said(alone)).toBe('');
    expect(named(alone, 'lead_of_cheapest')).toBe('');
  });
});
