import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compareHeating,
  HEATING_BLOCKS,
  type HeatingFigures,
  type HeatingInputs,
} from '../../src/heating/compare-heating.js';
import { HEATING_INPUTS, type HeatingInput } from '../../src/heating/comparison/heating-inputs.js';
import { SENSITIVITY_LINES } from '../../src/heating/comparison/sensitivity-lines.js';
import { degreeDaysByMonth } from '../../src/heating/degree-days-by-month.js';
import { assertCellsEqual, compareCells } from '../engines/compare-cells.js';
import { loadIronCalc } from '../engines/ironcalc.js';
import { COMPARISON_CASES } from './comparison-cases.js';
import { comparisonWorkbook } from './comparison-workbook.js';
import { KNOWN_RATES } from './known-rates.js';
import { seattleDays } from './real-weather.js';

const CHECK = { seed: 20_240_115, numRuns: 60 };

describe('a made home: 180 W/K, base 15.5 °C, boiler 88%, hot water 5 kWh/day, COP 3.4, real weather', () => {
  // Heat loss: 180 W/K over a degree day of 24 hours is 4.32 kWh.
  const heatKwhPerDegreeDay = (180 * 24) / 1000;
  const efficiency = 0.88;
  const hotWaterKwhPerDay = 5;
  const cop = 3.4;
  const weather = degreeDaysByMonth(seattleDays(), 15.5);
  const heatOf = ({ degreeDays, daysWithTemperature }: (typeof weather)[number]): number =>
    heatKwhPerDegreeDay * degreeDays + hotWaterKwhPerDay * daysWithTemperature;
  const gasMonths = weather.slice(0, 12).map((month) => ({
    gasDays: month.daysWithTemperature,
    gasKwh: heatOf(month) / efficiency,
    gasDegreeDays: month.degreeDays,
  }));
  const months = weather.slice(12, 24).map((month) => ({
    monthSerial: month.monthSerial,
    days: month.daysWithTemperature,
    electricityKwh: heatOf(month) / cop,
    heatKwh: heatOf(month),
    degreeDays: month.degreeDays,
    daysWithTemperature: month.daysWithTemperature,
  }));
  const sum = (of: (month: (typeof months)[number]) => number): number =>
    months.reduce((t, month) => t + of(month), 0);
  const settings = {
    ...KNOWN_RATES,
    boilerEfficiency: efficiency,
    hotWaterKwhPerDay,
    yearDays: sum(({ days }) => days),
    yearDegreeDays: sum(({ degreeDays }) => degreeDays),
  };
  const whole = compareHeating({ settings, gasMonths, months });

  it('gives back its own heat loss and its own hot water', () => {
    expect((whole.gasFit.gasKwhPerDegreeDay as number) * efficiency).toBeCloseTo(heatKwhPerDegreeDay, 9);
    expect((whole.gasFit.gasBaseKwhPerDay as number) * efficiency).toBeCloseTo(hotWaterKwhPerDay, 8);
  });

  it('its two boiler estimates are one in every month', () => {
    for (const month of whole.months) expect(month.estimatesApartShare).toBeCloseTo(0, 9);
    expect(whole.totals.estimatesVerdict).toBe('The two boiler estimates agree: 0% apart.');
    expect(whole.totals.totalCop).toBeCloseTo(cop, 12);
  });

  it('its yearly costs are what its heat costs', () => {
    const heat = sum(({ heatKwh }) => heatKwh);
    const standing = (settings.yearDays * 30) / 100;
    expect(whole.totals.totalHeatPumpSidePounds).toBeCloseTo(((heat / cop) * 28.71) / 100, 8);
    expect(whole.totals.totalFromHeatPounds).toBeCloseTo(((heat / efficiency) * 7.57) / 100 + standing, 8);
  });

  it('four winter months and the year’s degree days give back its annual cost', () => {
    const winter = compareHeating({ settings, gasMonths, months: [...months.slice(0, 3), months[11]!] });
    for (const [year, total] of [
      ['yearHeatPumpPounds', 'totalHeatPumpSidePounds'],
      ['yearFromMeterPounds', 'totalFromMeterPounds'],
      ['yearFromHeatPounds', 'totalFromHeatPounds'],
    ] as const) {
      expect(winter.year[year]).toBeCloseTo(whole.totals[total] as number, 6);
    }
    expect(winter.year.yearFromMeterRangePounds).toBeCloseTo(0, 6);
    expect(winter.year.yearVerdict).toBe(
      '4 months compared are not a year: the annual figure is an estimate, with a range.',
    );
    expect(whole.year.yearVerdict).toBe('A whole year was metered.');
  });

  it('one winter month says that it is not a year, and gives no annual figure', () => {
    const january = compareHeating({ settings, gasMonths, months: months.slice(0, 1) });
    expect(january.year.yearVerdict).toMatch(/^One winter month compared is not a year\./);
    expect(january.year.yearHeatPumpPounds).toBe('');
  });

  it('without a heat meter it still gets estimate (a), and says so', () => {
    const unmetered = compareHeating({
      settings,
      gasMonths,
      months: months.map((month) => ({ ...month, heatKwh: null })),
    });
    expect(unmetered.totals.totalFromMeterPounds).toBeCloseTo(whole.totals.totalFromMeterPounds as number, 9);
    expect(unmetered.totals.totalFromHeatPounds).toBe('');
    expect(unmetered.months[0]!.monthNote).toBe('Last year’s gas meter only: no heat meter this month.');
  });

  it('with hot water on neither side both estimates are of the space heating alone', () => {
    const neither = compareHeating({
      settings: { ...settings, hotWaterSide: 'neither', hotWaterCop: cop },
      gasMonths,
      months,
    });
    const spaceHeat = heatKwhPerDegreeDay * settings.yearDegreeDays;
    expect(neither.totals.totalHeatPumpSidePounds).toBeCloseTo(((spaceHeat / cop) * 28.71) / 100, 7);
    const gas = ((spaceHeat / efficiency) * 7.57) / 100 + (settings.yearDays * 30) / 100;
    expect(neither.totals.totalFromMeterPounds).toBeCloseTo(gas, 6);
    expect(neither.totals.totalFromHeatPounds).toBeCloseTo(gas, 6);
  });
});

const optional = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(of, { freq: 5 });
const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });
const choice = (input: HeatingInput): fc.Arbitrary<string> => fc.constantFrom(...input.choices!);

/** Settings with every choice, and the rest as they start. */
const anySettings: fc.Arbitrary<HeatingFigures> = fc
  .record({
    ...Object.fromEntries(
      HEATING_INPUTS.filter((input) => input.choices !== undefined).map((i) => [i.key, choice(i)]),
    ),
    hotWaterKwhPerDay: whole(0, 8),
    otherGasKwhPerDay: whole(0, 2),
    boilerEfficiency: whole(70, 95).map((percent) => percent / 100),
    yearDegreeDays: optional(whole(1500, 3000)),
    electricityCarbonKgPerKwh: optional(fc.constant(0.14)),
    gasCarbonKgPerKwh: optional(fc.constant(0.18)),
    extraCostPounds: optional(whole(0, 9000)),
    boilerElectricityKwhPerDay: optional(fc.constant(0.4)),
    boilerServicingPoundsPerYear: optional(whole(50, 150)),
    heatPumpServicingPoundsPerYear: optional(whole(50, 250)),
    roomsWarmerC: optional(whole(-2, 3)),
  })
  .map((settings): HeatingFigures => ({ ...KNOWN_RATES, ...settings }));

const anyGas = fc
  .array(
    fc.record({
      gasDays: whole(28, 31),
      gasKwh: optional(whole(300, 2500)),
      gasDegreeDays: optional(whole(1, 450)),
    }),
    { maxLength: 12 },
  )
  .map((rows) => [
    ...rows,
    // Three months that can't be alike, so that there is a slope.
    { gasDays: 31, gasKwh: 420, gasDegreeDays: 12 },
    { gasDays: 30, gasKwh: 1100, gasDegreeDays: 150 },
    { gasDays: 31, gasKwh: 2300, gasDegreeDays: 380 },
  ]);

const anyMonth: fc.Arbitrary<HeatingFigures> = fc.record({
  days: whole(28, 31),
  electricityKwh: whole(1, 900),
  heatKwh: optional(whole(0, 2600)),
  degreeDays: optional(whole(0, 5000).map((tenths) => tenths / 10)),
  daysWithTemperature: optional(whole(0, 31)),
  costHalfHourlyPounds: optional(whole(0, 260)),
  costBatteryPounds: optional(whole(0, 200)),
  monthGasRatePence: optional(whole(4, 12)),
});

const anyInputs: fc.Arbitrary<HeatingInputs> = fc.record({
  settings: anySettings,
  gasMonths: anyGas,
  months: fc.uniqueArray(anyMonth, { minLength: 1, maxLength: 8, selector: (month) => month.degreeDays }),
});

const close = (a: unknown, b: unknown): void => {
  if (typeof a === 'number' && typeof b === 'number') expect(a).toBeCloseTo(b, 6);
  else expect(a).toBe(b);
};

describe('laws of the comparison', () => {
  it('every figure is a number, a text or blank, never NaN', () => {
    fc.assert(
      fc.property(anyInputs, (inputs) => {
        const { settings, gasMonths, gasFit, months, totals, year, sensitivity } = compareHeating(inputs);
        for (const figures of [settings, ...gasMonths, gasFit, ...months, totals, year, ...sensitivity]) {
          for (const [key, value] of Object.entries(figures)) {
            if (typeof value === 'number') expect(value, key).toSatisfy(Number.isFinite);
            else if (value !== null) expect(value, key).toBeTypeOf('string');
          }
        }
      }),
      CHECK,
    );
  });

  it('native formulas say the same on whatever is known', async () => {
    const sampled = fc.sample(anyInputs, { seed: CHECK.seed, numRuns: 12 });
    for (const inputs of sampled) {
      const file = await comparisonWorkbook(inputs);
      assertCellsEqual(compareCells(file, loadIronCalc(file).result()), 100);
    }
  }, 30_000);

  it('each side is the sum of its parts', () => {
    fc.assert(
      fc.property(anyInputs, (inputs) => {
        for (const month of compareHeating(inputs).months) {
          if (month.heatPumpSidePounds !== '') {
            close(
              month.heatPumpSidePounds,
              (month.heatPumpEnergyPounds as number) + (month.heatPumpFixedPounds as number),
            );
          }
          if (month.estimatesDifferencePounds !== '' && month.heatPumpSidePounds !== '') {
            close(
              month.estimatesDifferencePounds,
              (month.differenceFromHeatPounds as number) - (month.differenceFromMeterPounds as number),
            );
          }
        }
      }),
      CHECK,
    );
  });

  it('the order of the months does not matter to the totals', () => {
    fc.assert(
      fc.property(anyInputs, (inputs) => {
        const forward = compareHeating(inputs).totals;
        const backward = compareHeating({
          ...inputs,
          gasMonths: [...inputs.gasMonths].reverse(),
          months: [...inputs.months].reverse(),
        }).totals;
        for (const [key, value] of Object.entries(forward)) close(backward[key], value);
      }),
      CHECK,
    );
  });

  it('keeping the gas adds its standing charge to the heat pump’s side and nothing to the boiler’s', () => {
    fc.assert(
      fc.property(anyInputs, (inputs) => {
        const given = (gasSupply: string): HeatingFigures[] =>
          compareHeating({ ...inputs, settings: { ...inputs.settings, gasSupply } }).months;
        const [up, kept] = [given('given up'), given('kept')];
        for (const [i, month] of up.entries()) {
          close(kept[i]!.boilerFromMeterPounds, month.boilerFromMeterPounds);
          close(kept[i]!.boilerFromHeatPounds, month.boilerFromHeatPounds);
          if (month.heatPumpSidePounds !== '') {
            const standing = ((month.gasStandingUsedPence as number) * (month.days as number)) / 100;
            close(kept[i]!.heatPumpSidePounds, (month.heatPumpSidePounds as number) + standing);
          }
        }
      }),
      CHECK,
    );
  });

  it('with the boiler at its equal-cost efficiency the difference is nothing', () => {
    fc.assert(
      fc.property(anyInputs, (inputs) => {
        const efficiency = compareHeating(inputs).totals.totalEqualCostEfficiency;
        if (typeof efficiency !== 'number' || efficiency < 0.3 || efficiency > 1.2) return;
        const settings = { ...inputs.settings, boilerEfficiency: efficiency };
        const equal = compareHeating({ ...inputs, settings }).totals;
        expect(equal.sensitivityHeatDifferencePounds).toBeCloseTo(0, 6);
      }),
      CHECK,
    );
  });

  it('a row of the sensitivity table is the comparison with that one figure changed', () => {
    fc.assert(
      fc.property(anyInputs, whole(75, 95), fc.constantFrom(0.7, 1, 1.3), (inputs, percent, factor) => {
        const efficiency = percent / 100;
        // Hot water on both sides: on neither, the meter estimate leaves out gas by the same efficiency.
        const settings = { ...inputs.settings, hotWaterSide: 'both', gasRatePence: 7 };
        const months = inputs.months.map((month) => ({ ...month, monthGasRatePence: null }));
        const base = { ...inputs, settings, months };
        const table = compareHeating({
          ...base,
          sensitivity: [
            { sensitivityKind: 'boiler efficiency', sensitivityValue: efficiency },
            { sensitivityKind: 'gas rate', sensitivityValue: factor },
          ],
        }).sensitivity;
        const changed = (change: HeatingFigures): HeatingFigures =>
          compareHeating({ ...base, settings: { ...settings, ...change } }).totals;
        close(
          table[0]!.sensitivityFromHeatPounds,
          changed({ boilerEfficiency: efficiency }).sensitivityHeatDifferencePounds,
        );
        const dearer = changed({ gasRatePence: 7 * factor });
        close(table[1]!.sensitivityFromHeatPounds, dearer.sensitivityHeatDifferencePounds);
        close(table[1]!.sensitivityFromMeterPounds, dearer.sensitivityMeterDifferencePounds);
      }),
      CHECK,
    );
  });
});

describe('the lines', () => {
  const blocks = Object.values(HEATING_BLOCKS);
  const all = [
    ...HEATING_INPUTS,
    ...blocks.flatMap(({ inputs, lines }) => [...inputs, ...lines] as { key: string; unit: string }[]),
  ] as { key: string; label: string; unit: string; description: string }[];

  it('have keys of their own, a label, a unit and a description', () => {
    expect(new Set(all.map(({ key }) => key)).size).toBe(all.length);
    for (const { key, label, unit, description } of all) {
      expect([key, label, unit, description].every((text) => text.length > 0)).toBe(true);
      expect(description, key).toMatch(/[.]$/);
    }
  });

  it('use functions that every spreadsheet program has', () => {
    const used = new Set<string>();
    const what = Object.values(SENSITIVITY_LINES).map((lines) => ({ lines }));
    for (const { lines } of [...blocks, ...what]) {
      for (const line of lines) {
        const formula = line.formula({ cell: () => 'A1', column: () => 'A1:A2' });
        for (const [, name] of formula.replace(/"[^"]*"/g, '').matchAll(/([A-Z0-9.]+)\(/g)) used.add(name!);
      }
    }
    // Of OpenFormula's Medium group, and COUNTIFS.
    expect([...used].sort()).toEqual(
      'ABS AND AVERAGE COUNT COUNTIFS DEVSQ IF INTERCEPT MAX MIN NA OR ROUND RSQ SLOPE SQRT STEYX SUM SUMIF SUMPRODUCT TINV'.split(
        ' ',
      ),
    );
  });
});

/** A year of a home whose gas and electricity rates change each month, gas kept, all hot water in both machines. */
const anyRatedYear: fc.Arbitrary<HeatingInputs> = fc
  .record({
    gasPence: fc.array(fc.integer({ min: 20, max: 120 }), { minLength: 12, maxLength: 12 }),
    singlePence: fc.array(fc.integer({ min: 150, max: 350 }), { minLength: 12, maxLength: 12 }),
    cop: fc.array(fc.integer({ min: 22, max: 45 }), { minLength: 12, maxLength: 12 }),
    degreeDays: fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 12, maxLength: 12 }),
    base: whole(2, 8),
    slope: whole(2, 6),
    boilerEfficiency: whole(70, 95).map((percent) => percent / 100),
  })
  .map(({ gasPence, singlePence, cop, degreeDays, base, slope, boilerEfficiency }) => {
    const months = degreeDays.map((luck, i): HeatingFigures => {
      const cold = Math.max(0, 170 + 180 * Math.cos((2 * Math.PI * i) / 12) + luck);
      const heatKwh = 30 * base + slope * cold;
      return {
        days: 30,
        degreeDays: cold,
        heatKwh,
        electricityKwh: (heatKwh * 10) / cop[i]!,
        monthGasRatePence: gasPence[i]! / 10,
        monthSingleRatePence: singlePence[i]! / 10,
      };
    });
    const sum = (key: string): number => months.reduce((all, month) => all + (month[key] as number), 0);
    const settings = {
      ...KNOWN_RATES,
      gasSupply: 'kept',
      boilerEfficiency,
      hotWaterKwhPerDay: base,
      yearDays: 360,
      yearDegreeDays: sum('degreeDays'),
    };
    const gasMonths = months.map((month) => ({
      gasDays: 30,
      gasDegreeDays: month.degreeDays!,
      gasKwh: (month.heatKwh as number) / boilerEfficiency,
    }));
    return { settings, gasMonths, months };
  });

describe('verdict, break-evens and the year never contradict each other', () => {
  // Seasonal gas: the plain mean of the months said that the heat pump cost more.
  const seasonal = (winterPence: number, summerPence: number): HeatingInputs => {
    const months = Array.from({ length: 12 }, (_, i) => {
      const degreeDays = Math.max(0, 170 + 180 * Math.cos((2 * Math.PI * i) / 12));
      const heatKwh = 30 * 4 + 5 * degreeDays;
      const monthGasRatePence = i < 3 || i > 8 ? winterPence : summerPence;
      return { days: 30, degreeDays, heatKwh, electricityKwh: heatKwh / 3.4, monthGasRatePence };
    });
    return { settings: { ...KNOWN_RATES, gasSupply: 'kept', singleRatePence: 27 }, gasMonths: [], months };
  };

  it('with gas at 8 p in winter and 3 p in summer the heat pump is cheaper by each of them', () => {
    const { totals } = compareHeating(seasonal(8, 3));
    expect(totals.totalDifferenceFromHeatPounds).toBeLessThan(0);
    expect(totals.totalBreakEvenCop).toBeLessThan(3.4);
    expect(totals.totalBreakEvenElectricityPence).toBeGreaterThan(27);
  });

  it('whatever the rates of the months are', () => {
    fc.assert(
      fc.property(anyRatedYear, (inputs) => {
        const { totals, year } = compareHeating(inputs);
        const difference = totals.totalDifferenceFromHeatPounds as number;
        // Pennies are left to rounding.
        if (Math.abs(difference) < 0.01) return;
        const cheaper = difference < 0;
        expect((totals.totalCop as number) > (totals.totalBreakEvenCop as number)).toBe(cheaper);
        expect(
          (totals.totalAverageRatePence as number) < (totals.totalBreakEvenElectricityPence as number),
        ).toBe(cheaper);
        for (const estimate of ['FromHeat', 'FromMeter']) {
          const said = year[`yearDifference${estimate}Pounds`];
          const range = year[`year${estimate}RangePounds`];
          if (typeof said !== 'number' || typeof range !== 'number') continue;
          // The year's range never lies wholly on the other side of none.
          expect(cheaper ? said - range : -(said + range)).toBeLessThan(0.01);
        }
      }),
      { ...CHECK, numRuns: 200 },
    );
  });
});

describe('what stands beside the heat', () => {
  const inputs = COMPARISON_CASES['everything known']!;
  const totalsWith = (more: HeatingFigures): HeatingFigures =>
    compareHeating({ ...inputs, settings: { ...inputs.settings, ...more } }).totals;
  const before = totalsWith({});
  const changed = (more: HeatingFigures, key: string): number =>
    (totalsWith(more)[key] as number) - (before[key] as number);
  const DAYS = 120;

  it('the boiler’s own electricity is paid at the single rate of each month, by its side alone', () => {
    const more = { boilerElectricityKwhPerDay: 0.5 };
    // The last of the four months has a single rate of its own.
    const pounds = (0.5 * (92 * 28.71 + 28 * 27.4)) / 100;
    expect(changed(more, 'totalFromMeterPounds')).toBeCloseTo(pounds, 9);
    expect(changed(more, 'totalFromHeatPounds')).toBeCloseTo(pounds, 9);
    expect(changed(more, 'totalHeatPumpSidePounds')).toBeCloseTo(0, 9);
    expect(changed(more, 'totalBoilerCarbonKg')).toBeCloseTo(0.5 * DAYS * 0.14, 9);
  });

  it('servicing counts by the day on its own side', () => {
    const ofYear = DAYS / 365;
    const servicing = { heatPumpServicingPoundsPerYear: 180 };
    expect(changed({ boilerServicingPoundsPerYear: 100 }, 'totalFromHeatPounds')).toBeCloseTo(
      100 * ofYear,
      9,
    );
    expect(changed(servicing, 'totalHeatPumpSidePounds')).toBeCloseTo(180 * ofYear, 9);
    expect(changed(servicing, 'totalFromHeatPounds')).toBeCloseTo(0, 9);
  });

  it('rooms a degree warmer now would have burnt a degree day a day more, in (a) alone', () => {
    const { gasKwhPerDegreeDay } = compareHeating(inputs).gasFit;
    const warmer = compareHeating({ ...inputs, settings: { ...inputs.settings, roomsWarmerC: 1 } });
    const sum = (months: readonly HeatingFigures[]): number =>
      months.reduce((all, month) => all + (month.gasFromMeterKwh as number), 0);
    const more = sum(warmer.months) - sum(compareHeating(inputs).months);
    expect(more).toBeCloseTo(DAYS * (gasKwhPerDegreeDay as number), 6);
    expect(warmer.totals.totalFromHeatPounds).toBe(before.totalFromHeatPounds);
  });
});

describe('hot water that the heat meter does not show', () => {
  const summer = { days: 30, electricityKwh: 24, heatKwh: 70, degreeDays: 2 };
  const settings = { ...KNOWN_RATES, hotWaterKwhPerDay: 4 };
  const { months } = compareHeating({ settings, gasMonths: [], months: [summer] });

  it('is not billed to the boiler: its heat is at most what was delivered', () => {
    expect(months[0]!.boilerHeatKwh).toBe(70);
    const gas = ((70 / KNOWN_RATES.boilerEfficiency) * KNOWN_RATES.gasRatePence) / 100;
    expect(months[0]!.boilerFromHeatPounds).toBeCloseTo(gas + 30 * 0.3, 9);
  });

  it('is not billed to an immersion heater either', () => {
    const { months: immersion } = compareHeating({
      settings: { ...settings, boilerSideHotWater: 'immersion heater' },
      gasMonths: [],
      months: [summer],
    });
    expect(immersion[0]!.boilerFixedPounds).toBeCloseTo(
      0.7 * KNOWN_RATES.boilerSideHotWaterPence + 30 * 0.3,
      9,
    );
  });
});

describe('wrong input', () => {
  const inputs = COMPARISON_CASES['everything known']!;
  const withSettings = (settings: HeatingFigures) => () =>
    compareHeating({ ...inputs, settings: { ...inputs.settings, ...settings } });

  it.each([
    [
      'a percentage typed as a number',
      withSettings({ boilerEfficiency: 90 }),
      'settings: Boiler efficiency is 90. Give a number in share 0–1, at least 0.3 and at most 1.2.',
    ],
    ['a rate that is text', withSettings({ gasRatePence: '7p' }), 'settings: Gas unit rate is "7p".'],
    [
      'an unknown choice',
      withSettings({ hotWaterSide: 'one' }),
      'Hot water on is "one". Choose both or neither.',
    ],
    ['an unknown key', withSettings({ boilerEficiency: 0.9 }), '"boilerEficiency" is no input'],
    [
      'a month of 40 days',
      () => compareHeating({ ...inputs, months: [{ days: 40 }] }),
      'month 1: Days is 40. Give a number in days, at least 1 and at most 31.',
    ],
    [
      'a summer gas a day above what was metered',
      withSettings({ enteredBaseGasKwhPerDay: 99 }),
      'Lower the base use a day',
    ],
    [
      'a sensitivity of nothing',
      () => compareHeating({ ...inputs, sensitivity: [{ sensitivityKind: 'COP', sensitivityValue: 0 }] }),
      'sensitivity row 1: the changed figure is 0',
    ],
  ])('%s', (_, compare, message) => {
    expect(compare).toThrow(message);
  });
});
