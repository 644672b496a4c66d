import { beforeAll, describe, expect, it } from 'vitest';
import { MONTH_DAYS } from '../../../src/outlook/calendar-year.js';
import { yearCost } from '../../../src/outlook/year-cost.js';
import { seededRandom } from '../../../src/sample/seeded-random.js';
import { isoDateToSerial } from '../../../src/time/serial.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { RATES_USED, SHEETS } from '../../../src/workbook/layout.js';
import { heatingDays } from '../../../src/workbook/model/heating/heating-days.js';
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

const named = ({ calculated }: WorkbookValues, name: string): unknown => calculated.named(name);
const words = (values: WorkbookValues): string => String(named(values, 'year_words'));
const month = (iso: string): number => isoDateToSerial(`${iso}-01`);

let inputs: WorkbookInputs;
beforeAll(async () => {
  inputs = { ...inputsOf(await filledYear()), ratesUsed: RATES_USED.asTheyAreNow };
}, 300_000);

/** Calendar month, from 0, of a serial day. */
const calendarMonth = (serial: number): number => new Date((serial - 25_569) * 86_400_000).getUTCMonth();

/** What the library has for a tariff, from bills and degree days by month; temperatures of other years from the sheet of them. */
function byLibrary(
  values: WorkbookValues,
  tariff: number,
  what: 'cost' | 'saving' = 'cost',
): ReturnType<typeof yearCost> {
  const { calculated, book } = values;
  const { months, tariffs, calendar } = book.workings;
  const lines = tariffs[tariff];
  if (lines === undefined) throw new Error('no tariff');
  const starts = calculated.column(months.start);
  const of = (column: typeof months.days): ArrayLike<number> => calculated.numbers(column);
  const [selected, days, metered, expected, total, standing] = [
    months.selected,
    months.days,
    months.metered,
    months.expected,
    lines.batteryMonths.total,
    what === 'cost' ? lines.months.standing : lines.months.total,
  ].map(of);
  const dates = calculated.column(calendar.date);
  const degreeDays = calculated.column(heatingDays(book).degreeDays);
  const dailyPounds = MONTH_DAYS.map(() => Number.NaN);
  const known = MONTH_DAYS.map(() => Number.NaN);
  const usual = MONTH_DAYS.map(() => Number.NaN);
  for (const [row, start] of starts.entries()) {
    if (typeof start !== 'number') continue;
    const m = calendarMonth(start);
    const cold = dates.flatMap((date, d) => {
      const is = typeof date === 'number' && calendarMonth(date) === m && Math.abs(date - start) < 31;
      const value = degreeDays[d];
      return is && typeof value === 'number' ? [value] : [];
    });
    const mean = cold.reduce((sum, value) => sum + value, 0) / cold.length;
    const isCold = cold.length >= 0.9 * (days?.[row] ?? 0);
    if (selected?.[row] === 1 && (days?.[row] ?? 0) >= 21 && metered![row]! >= 0.9 * expected![row]!) {
      dailyPounds[m] =
        ((what === 'cost' ? 1 : -1) * (total![row]! - standing![row]!)) /
        (days![row]! * (metered![row]! / expected![row]!));
      if (isCold) known[m] = mean;
    } else if (isCold) usual[m] = mean;
  }
  const sets = Array.from(calculated.numbers(lines.rates.validFrom))
    .slice(1)
    .filter((from) => from > 0).length;
  return yearCost({
    dailyPounds,
    degreeDays: known,
    usualDegreeDays: usual,
    standingPoundsPerDay: what === 'cost' ? calculated.numbers(lines.rates.standing)[sets]! / 100 : 0,
    coldestMonth: 1,
  });
}

/** Holds every tariff's year to the library's, and tells how many there were. */
function compare(values: WorkbookValues): number {
  let compared = 0;
  for (let t = 0; t < values.inputs.tariffs.length; t++) {
    const cost = named(values, `year_cost_${t + 1}`);
    if (named(values, `tariff_${t + 1}_is_priced`) !== 1) {
      expect(cost).toBe('');
      continue;
    }
    const year = byLibrary(values, t);
    if (year.kind !== 'year') {
      expect(cost).toBe('');
      continue;
    }
    compared++;
    expect(cost).toBeCloseTo(year.pounds, 6);
    expect(named(values, `year_low_${t + 1}`)).toBeCloseTo(year.lowPounds, 6);
    expect(named(values, `year_high_${t + 1}`)).toBeCloseTo(year.highPounds, 6);
    expect(named(values, `year_reach_fitted_${t + 1}`)).toBeCloseTo(year.notMeteredReachPounds, 6);
    const saved = named(values, `year_battery_saves_${t + 1}`);
    if (Number(values.calculated.of(values.book.workings.battery.usableKwh)) > 0) {
      const saving = byLibrary(values, t, 'saving');
      expect(saved).toBeCloseTo(saving.kind === 'year' ? saving.pounds : Number.NaN, 6);
    } else expect(saved).toBe('');
    expect(named(values, 'year_months_metered')).toBe(year.monthsMetered);
    expect(named(values, 'year_by_degree_days')).toBe(year.by === 'degree days' ? 1 : 0);
  }
  return compared;
}

/** The sample's readings as another home's: each month's use and sun by factors of its own, some months left out. */
function anotherHome(seed: number): WorkbookInputs {
  const { uniform } = seededRandom(`year of home ${seed}`);
  const factors = Array.from({ length: 40 }, () => 0.4 + 1.4 * uniform());
  const isGone = Array.from({ length: 40 }, () => uniform() < 0.25);
  const { values } = inputs.readings;
  const scaled = (of: ArrayLike<number>): Float64Array =>
    Float64Array.from(of, (kwh, i) => {
      const at = Math.floor(i / 1461);
      return isGone[at] ? Number.NaN : kwh * factors[at]!;
    });
  return {
    ...inputs,
    battery: { ...inputs.battery, usableKwh: seed % 2 === 0 ? null : inputs.battery.usableKwh },
    readings: {
      ...inputs.readings,
      values: { ...values, importKwh: scaled(values.importKwh), exportKwh: scaled(values.exportKwh) },
    },
  };
}

describe('what a year will cost', () => {
  it('is on the sample what the library has, of all twelve months', () => {
    const year = workedOut(inputs);
    expect(compare(year)).toBeGreaterThan(3);
    expect(named(year, 'year_months_metered')).toBe(12);
    expect(words(year)).toMatch(
      /^With the battery, at the latest rates, .+ costs least: £[\d,]+, £[\d,]+ less than .+; in a year to come £[\d,]+ to £[\d,]+, four times in five\..* All twelve months are metered\./,
    );
    expect(words(year)).toContain(String(named(year, 'cheapest_name')));
    expect(year.calculated.at(SHEETS.answer, 'A2')).not.toBe('');
  });

  it('is that of the library with some months alone, by degree days of the others', () => {
    for (const [fromMonth, toMonth, known] of [
      ['2025-10', '2026-02', 5],
      ['2026-03', '2026-09', 7],
    ] as const) {
      const part = workedOut({ ...inputs, fromMonth: month(fromMonth), toMonth: month(toMonth) });
      expect(compare(part)).toBeGreaterThan(3);
      expect(named(part, 'year_months_metered')).toBe(known);
      expect(words(part)).toContain(
        `${known} months are metered, the others fitted to degree days and the day’s length.`,
      );
    }
  });

  it('is at the latest rates whichever rates price the period: exact for one rate or two without a battery', () => {
    const bare = { ...inputs, battery: { ...inputs.battery, usableKwh: null } };
    const [now, then] = [RATES_USED.asTheyAreNow, RATES_USED.asTheyWere].map((ratesUsed) =>
      workedOut({ ...bare, ratesUsed }),
    );
    let restated = 0;
    inputs.tariffs.forEach((_, t) => {
      const [cost, restatedCost] = [now!, then!].map((values) => named(values, `year_cost_${t + 1}`));
      if (typeof cost !== 'number') {
        expect(restatedCost).toBe('');
        return;
      }
      const changed = named(then!, `year_first_set_${t + 1}`) !== named(now!, `year_first_set_${t + 1}`);
      if (changed) restated++;
      // Twelve bills, two lines each, rounded to the penny at both.
      expect(Math.abs((restatedCost as number) - cost)).toBeLessThan(0.2);
    });
    expect(restated).toBeGreaterThan(0);
  });

  it('with a battery takes it as its rule ran at the rates of the day', () => {
    const [now, then] = [RATES_USED.asTheyAreNow, RATES_USED.asTheyWere].map((ratesUsed) =>
      workedOut({ ...inputs, ratesUsed }),
    );
    inputs.tariffs.forEach((_, t) => {
      const cost = named(now!, `year_cost_${t + 1}`);
      if (typeof cost === 'number')
        expect((named(then!, `year_cost_${t + 1}`) as number) / cost).toBeCloseTo(1, 1.7);
    });
  });

  it('is blank, and says so, where one rate has become two', () => {
    const single = inputs.tariffs.findIndex(
      ({ windows, halfHourlyPriced, name }) =>
        name !== null && halfHourlyPriced !== 'yes' && windows.every(({ from }) => from === null),
    );
    const night = { from: 0, to: 0.25, days: null };
    const tariffs = inputs.tariffs.map((tariff, t) =>
      t === single
        ? {
            ...tariff,
            windows: [night, ...tariff.windows.slice(1)],
            periods: tariff.periods.map((period, p) => ({
              ...period,
              windowRates: [p === 0 ? period.base : 5, ...period.windowRates.slice(1)],
            })),
          }
        : tariff,
    ) as WorkbookInputs['tariffs'];
    const changed = workedOut({ ...inputs, tariffs, ratesUsed: RATES_USED.asTheyWere });
    expect(named(changed, `year_cost_${single + 1}`)).toBe('');
    expect(words(changed)).toContain('choose “as they are now”');
    expect(named(workedOut({ ...inputs, tariffs }), `year_cost_${single + 1}`)).toBeGreaterThan(0);
  });

  it('is that of the library for homes of random use, with and without a battery, months missing here and there', () => {
    let years = 0;
    for (let seed = 1; seed <= 4; seed++) years += compare(workedOut(anotherHome(seed)));
    expect(years).toBeGreaterThan(8);
  });

  it('goes by the season where no temperature is known', () => {
    const outdoorC = new Float64Array(inputs.readings.values.outdoorC.length).fill(Number.NaN);
    const heating = { ...inputs.heating, temperatures: [] };
    const warm = workedOut({
      ...inputs,
      heating,
      fromMonth: month('2025-10'),
      toMonth: month('2026-04'),
      readings: { ...inputs.readings, values: { ...inputs.readings.values, outdoorC } },
    } as WorkbookInputs);
    expect(compare(warm)).toBeGreaterThan(3);
    expect(words(warm)).toContain('fitted to the season');
  });

  it('is blank for one winter month, which says why', () => {
    const december = workedOut({ ...inputs, fromMonth: month('2025-12'), toMonth: month('2025-12') });
    expect(named(december, 'year_cost_1')).toBe('');
    expect(words(december)).toBe(
      'Not enough for a year’s cost: it takes 5 calendar months of readings, and the period has 1.',
    );
  });

  it('is blank for a workbook of one month', async () => {
    const small = monthWorkedOut(smallOf(await smallMonth()));
    expect(named(small, 'year_cost_1')).toBe('');
    expect(words(small)).toMatch(/^Not enough for a year’s cost: .+ the period has 1\.$/);
    // And nothing is said before there are readings.
    expect(words(monthWorkedOut(smallOf(await smallTemplate())))).toBe('');
  });
});
