import { beforeAll, describe, expect, it } from 'vitest';
import { formatComparison } from '../../../src/cli/format-comparison.js';
import { storedBatteryResults } from '../../../src/workbook/fill/stored-battery-results.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { RATES_USED, SHEETS } from '../../../src/workbook/layout.js';
import { batteryResultRow, REACHED } from '../../../src/workbook/model/battery/battery-rows.js';
import { figureName } from '../../../src/workbook/model/heating/heating-figures-rows.js';
import { TARIFF_ROW as T, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

let home: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  home = inputsOf(await smallMonth());
});

/** All base rates, and gas, twice as dear from a day long after the readings. */
const announced = (inputs: WorkbookInputs): WorkbookInputs => {
  const from = 46_600;
  const twice = <Value>(value: Value): Value => (typeof value === 'number' ? value * 2 : value) as Value;
  return {
    ...inputs,
    tariffs: inputs.tariffs.map((tariff) => {
      const used = tariff.periods.filter(({ validFrom }, p) => p === 0 || validFrom !== null);
      const last = used.at(-1);
      if (tariff.name === null || last === undefined) return tariff;
      const dearer = {
        ...last,
        validFrom: from,
        standing: twice(last.standing),
        base: twice(last.base),
        windowRates: last.windowRates.map(twice),
      };
      const periods = tariff.periods.map((period, p) => (p === Math.min(4, used.length) ? dearer : period));
      return { ...tariff, periods };
    }),
    heating: {
      ...inputs.heating,
      rates: inputs.heating.rates.map((_, i) => {
        const times = i + 1;
        return i < 2
          ? { from: i === 0 ? 46_200 : from, gasRate: 6 * times, gasStanding: 30 * times, singleRate: null }
          : { from: null, gasRate: null, gasStanding: null, singleRate: null };
      }),
    },
  };
};
const used =
  (ratesUsed: string) =>
  (inputs: WorkbookInputs): WorkbookInputs => ({ ...announced(inputs), ratesUsed });
const today = (): number => home.inputs.tariffs.findIndex(({ name }) => name === home.inputs.todaysTariff);
const total = ({ calculated }: WorkbookValues): number =>
  Number(calculated.at(SHEETS.tariffs, `${tariffLetters(today())}${T.total}`));

describe('rates as they were, or as they are now', () => {
  it('are chosen on Answer, and the headline says which', () => {
    const [were, now] = [RATES_USED.asTheyWere, RATES_USED.asTheyAreNow].map((rates) =>
      workedOut(home, used(rates)),
    );
    if (were === undefined || now === undefined) throw new Error('no values');
    expect(String(were.calculated.named('answer_sentence'))).toMatch(
      /^Oct 2026, rates as they were, with the battery: /,
    );
    expect(String(now.calculated.named('answer_sentence'))).toMatch(
      /^Oct 2026, rates as they are now, with the battery: /,
    );
    expect(total(now)).toBeGreaterThan(1.5 * total(were));
    expect(were.calculated.at(SHEETS.answer, 'B5')).toBe('As metered, on today’s tariff');
    expect(now.calculated.at(SHEETS.answer, 'B5')).toBe('As metered, on today’s tariff, latest rates');
    expect(formatComparison(now).replace(/\s+/g, ' ')).toContain(
      `As metered, on today’s tariff ${String(home.inputs.todaysTariff)}, at its latest rates: £`,
    );
  });

  it('go for both sides of the heating, and it says so', () => {
    const [were, now] = [RATES_USED.asTheyWere, RATES_USED.asTheyAreNow].map((rates) =>
      workedOut(home, used(rates)),
    );
    if (were === undefined || now === undefined) throw new Error('no values');
    // Every rate is twice what it was: for the electricity of the heat pump, and for the gas.
    for (const key of ['totalHalfHourlyPounds', 'totalHeatAtGasRatePounds']) {
      const pounds = (of: WorkbookValues): number => Number(of.calculated.named(figureName(key)));
      expect(pounds(were)).toBeGreaterThan(1);
      expect(pounds(now) / pounds(were), key).toBeCloseTo(2, 9);
    }
    expect(String(now.calculated.named('heat_pump_is_priced'))).toMatch(/, all rates as they are now$/);
    expect(String(were.calculated.named('heat_pump_is_priced'))).not.toContain('now');
  });

  it('make what a fill stored stale, and a fill works it out anew at them', () => {
    const now = workedOut(home, used(RATES_USED.asTheyAreNow));
    const status = (of: WorkbookValues): unknown =>
      of.calculated.at(SHEETS.battery, `${REACHED.status}${batteryResultRow(today())}`);
    expect(status(workedOut(home))).toBe('current');
    expect(status(now)).toBe('out of date: run the fill');
    const { tariffs } = storedBatteryResults(now.calculated, now.book, now.inputs, 46_000);
    const least = Number(tariffs[today()]?.leastCostPounds);
    const before = Number(home.inputs.storedBattery.tariffs[today()]?.leastCostPounds);
    expect(least).toBeGreaterThan(before);
  });
});
