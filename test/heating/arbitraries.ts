import fc from 'fast-check';
import type { CellArgument } from '../../src/functions/described-function.js';

/** A number with a few decimals, as people type it. */
const decimal = (min: number, max: number, decimals = 2): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(min * 10 ** decimals), max: Math.round(max * 10 ** decimals) })
    .map((n) => n / 10 ** decimals);

const kwh = decimal(0, 3000, 1);
const ratePence = decimal(0.01, 60);
const efficiency = decimal(0.6, 1.1);
const cop = decimal(1, 6);
const days = fc.integer({ min: 1, max: 366 });
const pounds = decimal(0, 400);
const celsius = decimal(-15, 35, 1);
const base = decimal(10, 20, 1);
const degreeDays = decimal(0, 600, 1);

const column = (values: readonly (number | null)[]): CellArgument => values.map((value) => [value]);

/** Temperatures of which some are missing and at least one is known. */
const temperatures = fc
  .tuple(celsius, fc.array(fc.option(celsius, { freq: 6 }), { maxLength: 47 }))
  .map(([known, rest]) => column([known, ...rest]));

/** A day's maximum and minimum, one of them missing now and then. */
const maxMinDay = fc
  .tuple(celsius, decimal(0, 15, 1), fc.integer({ min: 0, max: 9 }))
  .map(([min, range, gap]): [number | null, number | null] => {
    const max = Number((min + range).toFixed(1));
    return [gap === 0 ? null : max, gap === 1 ? null : min];
  });
const maxMinDays = fc
  .tuple(fc.array(maxMinDay, { maxLength: 31 }), celsius, base)
  .map(([rest, known, baseC]): CellArgument[] => {
    const rows: [number | null, number | null][] = [[known, known], ...rest];
    return [column(rows.map(([max]) => max)), column(rows.map(([, min]) => min)), baseC];
  });

/** A home's months: use a day and degree days a day in rows, some of them blank in both. */
const fitMonth = fc.tuple(decimal(0.5, 15), decimal(20, 90), fc.integer({ min: 0, max: 7 }));
const fitColumns = fc.array(fitMonth, { minLength: 3, maxLength: 15 }).map((months): CellArgument[] => {
  // Two months that can't be alike, so that there is a slope.
  const rows: (readonly [number | null, number | null])[] = [
    [0.3, 11.7],
    [16.2, 95.4],
    ...months.map(([x, y, gap]) => (gap === 0 ? ([null, null] as const) : ([x, y] as const))),
    [8.1, 20.9],
  ];
  return [column(rows.map(([, y]) => y)), column(rows.map(([x]) => x))];
});

const estimate = fc
  .tuple(decimal(-200, 200), decimal(-200, 200))
  .map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);

/** Argument lists to try each heating function on, in both of its faces; by name of the function. */
export const heatingArguments: Readonly<Record<string, fc.Arbitrary<CellArgument[]>>> = {
  coefficientOfPerformance: fc.tuple(kwh, decimal(0.1, 900, 1)),
  breakEvenCop: fc.tuple(ratePence, ratePence, efficiency),
  breakEvenElectricityRate: fc.tuple(ratePence, efficiency, cop),
  gasVolumeToEnergy: fc.tuple(
    kwh,
    fc.constantFrom('m3', 'ft3', '100ft3'),
    decimal(36, 43, 1),
    fc.constantFrom(1, 1.02264),
  ),
  gasCostOfHeat: fc.tuple(kwh, efficiency, ratePence, ratePence, days),
  energyForMoney: fc.tuple(pounds, ratePence),
  heatForGasMoney: fc.tuple(pounds, ratePence, efficiency),
  hotWaterCost: fc.tuple(decimal(0, 15, 1), days, ratePence, cop),
  degreeDaysFromDailyMean: fc.tuple(celsius, base),
  degreeDaysFromMaxMin: fc
    .tuple(celsius, decimal(0, 15, 1), base)
    .map(([min, range, baseC]) => [Number((min + range).toFixed(1)), min, baseC]),
  degreeDaysFromTemperatures: fc.tuple(temperatures, base, fc.constantFrom(0.5, 1, 24)),
  degreeDaysOverMaxMin: maxMinDays,
  baseUsePerDay: fitColumns,
  usePerDegreeDay: fitColumns,
  baseUseStandardError: fitColumns,
  usePerDegreeDayStandardError: fitColumns,
  useResidualStandardError: fitColumns,
  useRSquared: fitColumns,
  twoSidedTQuantile: fc.tuple(
    fc.constantFrom(0.5, 0.8, 0.9, 0.95, 0.99, 0.999),
    fc.integer({ min: 1, max: 400 }),
  ),
  useAtWeather: fc.tuple(decimal(0, 20), decimal(0, 9), days, degreeDays),
  predictionStandardError: fc
    .tuple(fitColumns, days, degreeDays, fc.integer({ min: 1, max: 12 }))
    .map(([columns, ...target]) => [...columns, ...target]),
  adjustUseToDegreeDays: fc.tuple(
    decimal(300, 3000, 1),
    fc.integer({ min: 20, max: 31 }),
    decimal(20, 600, 1),
    decimal(0, 9),
    days,
    degreeDays,
  ),
  estimateBoilerFromMeter: fc.tuple(decimal(-2, 20), decimal(0, 9), days, degreeDays, decimal(0, 6)),
  estimateBoilerFromHeat: fc.tuple(kwh, efficiency),
  estimatesApart: fc.tuple(pounds, pounds),
  estimatesVerdict: fc.tuple(decimal(0, 0.6, 4), decimal(0, 0.2), decimal(0.2, 0.4)),
  boilerEfficiencyAtEqualCost: fc.tuple(kwh, ratePence, pounds, pounds),
  heatingCostDifference: fc.tuple(kwh, cop, ratePence, efficiency, ratePence, pounds),
  heatingVerdict: fc.tuple(estimate, decimal(0, 20)).map(([[low, high], same]) => [low, high, same]),
  yearVerdict: fc.tuple(fc.integer({ min: 0, max: 14 }), fc.integer({ min: 0, max: 14 }), decimal(0, 3)),
  carbonOfEnergy: fc.tuple(kwh, decimal(0, 0.5, 3)),
  simplePayback: fc.tuple(decimal(0, 15_000), decimal(-900, 900)),
};
