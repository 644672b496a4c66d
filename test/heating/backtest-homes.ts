import {
  compareHeating,
  type HeatingFigures,
  type HeatingInputs,
} from '../../src/heating/compare-heating.js';
import { degreeDaysByMonth } from '../../src/heating/degree-days-by-month.js';
import { SAMPLE_HOME } from '../../src/sample/home.js';
import { sampleGasYear } from '../../src/sample/sample-gas-year.js';
import { seededRandom } from '../../src/sample/seeded-random.js';
import { simulateHome } from '../../src/sample/simulate-home.js';
import { isoDateToSerial, serialToIsoDate } from '../../src/time/serial.js';
import { seattleDays } from './real-weather.js';

/** A home with twelve months of a heat pump and a year of gas before. */
export interface BacktestHome {
  name: string;
  inputs: HeatingInputs;
}

const RATES = {
  singleRatePence: 26.4,
  gasRatePence: 6.2,
  gasStandingPencePerDay: 30,
  boilerEfficiency: 0.85,
};
const BASE_C = 15.5;
const IMMERSION = { heatPumpSideHotWaterPence: 9, boilerSideHotWaterPence: 26 };

/** Rates of the sample's sets, by calendar month: gas and single rate, p/kWh. */
function ratesOf(isoMonth: string): HeatingFigures {
  if (isoMonth < '2026-01') return { monthGasRatePence: 6.31, monthSingleRatePence: 26.35 };
  if (isoMonth < '2026-04') return { monthGasRatePence: 6.05, monthSingleRatePence: 27.69 };
  return isoMonth < '2026-07'
    ? { monthGasRatePence: 5.87, monthSingleRatePence: 24.67 }
    : { monthGasRatePence: 6.24, monthSingleRatePence: 25.73 };
}

/** The sample home, with rates that change each quarter. */
export function sampleHome(): BacktestHome {
  const { grid, weather, readings, halfHoursInYear } = simulateHome();
  const { gas, hotWaterKwhPerDay } = SAMPLE_HOME;
  const kwhPerM3 = (gas.volumeCorrection * gas.calorificValueMjPerM3) / 3.6;
  const gasYear = sampleGasYear(weather);
  const gasMonths = degreeDaysByMonth(
    gasYear.days.map(({ isoDate, meanC }) => ({ serialDay: isoDateToSerial(isoDate), meanC })),
    BASE_C,
  ).map((month, i) => ({
    gasDays: month.daysWithTemperature,
    gasDegreeDays: month.degreeDays,
    gasKwh: (gasYear.readings[i + 1]!.registerM3 - gasYear.readings[i]!.registerM3) * kwhPerM3,
  }));
  const months = new Map<
    string,
    { days: number; degreeDays: number; electricityKwh: number; heatKwh: number }
  >();
  for (const [day, serial] of grid.daySerial.entries()) {
    const [from, until] = [grid.dayFirst[day]!, grid.dayFirst[day + 1]!];
    if (from >= halfHoursInYear) break;
    const sum = (series: Float64Array): number => series.subarray(from, until).reduce((a, b) => a + b, 0);
    const key = serialToIsoDate(serial).slice(0, 7);
    const month = months.get(key) ?? { days: 0, degreeDays: 0, electricityKwh: 0, heatKwh: 0 };
    months.set(key, month);
    month.days++;
    month.degreeDays += Math.max(0, BASE_C - sum(readings.outdoorC) / (until - from));
    month.electricityKwh += sum(readings.heatPumpKwh);
    month.heatKwh += sum(readings.heatOutputKwh);
  }
  return {
    name: 'the sample',
    inputs: {
      settings: { ...RATES, ...IMMERSION, hotWaterKwhPerDay },
      gasMonths,
      months: [...months].map(([iso, month]) => ({ ...month, ...ratesOf(iso) })),
    },
  };
}

/**
 * Homes in the real weather of Seattle, 2012 to 2015, some of them 6 °C colder: each with a house, hot water, balance
 * temperature and heat pump of its own. COP: a share of the ideal between outdoors and a flow that follows the weather.
 */
export function realWeatherHomes(homesAYear: number, colderByC: number): BacktestHome[] {
  const byYear = new Map<string, { month: number; meanC: number }[]>();
  for (const { serialDay, maxC, minC } of seattleDays()) {
    const iso = serialToIsoDate(serialDay);
    const days = byYear.get(iso.slice(0, 4)) ?? [];
    byYear.set(iso.slice(0, 4), days);
    days.push({ month: Number(iso.slice(5, 7)), meanC: (maxC + minC) / 2 - colderByC });
  }
  const years = [...byYear.keys()];
  return years.flatMap((year, place) =>
    Array.from({ length: homesAYear }, (_, home) => {
      const random = seededRandom(`backtest ${year} ${home} ${colderByC}`);
      const within = (low: number, high: number): number => low + (high - low) * random.uniform();
      const lossKwhPerDegreeDay = 24 * within(0.12, 0.3);
      const balanceC = within(14, 16.5);
      const [hotWater, season] = [within(2, 6), within(0, 0.25)];
      const [share, flowAt15C, flowSlope] = [within(0.36, 0.48), within(30, 36), within(0.4, 0.9)];
      const standbyKwh = within(0.1, 0.5);
      const copAt = (flowC: number, outdoorC: number): number =>
        (share * (flowC + 273.15)) / Math.max(18, flowC - outdoorC);
      const monthsOf = (of: string) =>
        Array.from({ length: 12 }, (_, i) => {
          const days = byYear.get(of)!.filter(({ month }) => month === i + 1);
          const luck = 0.03 * random.normal();
          const water = hotWater * (1 + season * Math.cos((2 * Math.PI * i) / 12));
          const whole = { days: days.length, degreeDays: 0, heatKwh: 0, electricityKwh: 0 };
          for (const { meanC } of days) {
            const space =
              lossKwhPerDegreeDay * Math.max(0, balanceC - meanC) * (1 + 0.06 * random.normal() + luck);
            const flowC = Math.max(28, Math.min(52, flowAt15C + flowSlope * (15 - meanC)));
            const icing = meanC > -3 && meanC < 4 ? 0.94 : 1;
            whole.degreeDays += Math.max(0, BASE_C - meanC);
            whole.heatKwh += space + water;
            whole.electricityKwh +=
              standbyKwh + space / copAt(flowC, meanC) / icing + water / copAt(52, meanC);
          }
          return whole;
        });
      const efficiency = RATES.boilerEfficiency * within(0.97, 1.03);
      const before = monthsOf(years[place === 0 ? years.length - 1 : place - 1]!);
      return {
        name: `Seattle ${year}${colderByC > 0 ? ', colder' : ''}, home ${home + 1}`,
        inputs: {
          settings: { ...RATES, ...IMMERSION, hotWaterKwhPerDay: hotWater },
          gasMonths: before.map(({ days, degreeDays, heatKwh }) => ({
            gasDays: days,
            gasDegreeDays: degreeDays,
            gasKwh: heatKwh / efficiency,
          })),
          months: monthsOf(year),
        },
      };
    }),
  );
}

/** Homes whose months scatter about straight lines of heat and of electricity for a kWh of heat. */
export function scatteredHomes(homes: number, heatScatter: number, copScatter: number): BacktestHome[] {
  return Array.from({ length: homes }, (_, home) => {
    const random = seededRandom(`scattered ${home} ${heatScatter} ${copScatter}`);
    const within = (low: number, high: number): number => low + (high - low) * random.uniform();
    const [mean, swing] = [within(5, 7), within(4.5, 6.5)];
    const [base, slope] = [within(3, 8), within(3, 6)];
    const [each, rise] = [within(0.23, 0.3), within(0.004, 0.01)];
    const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    const weather = (): number[] =>
      DAYS.map((_, i) =>
        Math.max(0, mean + swing * Math.cos((2 * Math.PI * (i - 0.3)) / 12) + 0.8 * random.normal()),
      );
    const months = weather().map((x, i) => {
      const heatKwh = DAYS[i]! * (base + slope * x) * (1 + heatScatter * random.normal());
      const electricityKwh = heatKwh * (each + rise * x) * (1 + copScatter * random.normal());
      return { days: DAYS[i]!, degreeDays: DAYS[i]! * x, heatKwh, electricityKwh };
    });
    const gasMonths = weather().map((x, i) => ({
      gasDays: DAYS[i]!,
      gasDegreeDays: DAYS[i]! * x,
      gasKwh: ((DAYS[i]! * (base + slope * x)) / RATES.boilerEfficiency) * (1 + 0.05 * random.normal()),
    }));
    return {
      name: `scattered home ${home + 1}`,
      inputs: { settings: { ...RATES, ...IMMERSION, hotWaterKwhPerDay: base }, gasMonths, months },
    };
  });
}

/** What a run of months says of the whole year. */
export interface BacktestRun {
  home: string;
  months: number;
  firstMonth: number;
  /** Heat pump less boiler of the year by the whole year's meters, £. */
  wholePounds: number;
  /** Heat pump's side of the whole year, £. */
  costPounds: number;
  /** What the run says, £, and half the width of its range; null where it says nothing, and why. */
  saidPounds: number | null;
  rangePounds: number | null;
  refusal: string;
}

/** Estimate (a), from last year's gas; or (b), from heat delivered. */
export type Estimate = 'FromMeter' | 'FromHeat';

/** Every run of three to eleven months of each home, by one of the two estimates. */
export function backtest(
  homes: readonly BacktestHome[],
  estimate: Estimate,
  change: (inputs: HeatingInputs) => HeatingInputs = (inputs) => inputs,
): BacktestRun[] {
  return homes.flatMap(({ name, inputs }) => {
    const whole = compareHeating(inputs).totals;
    const settings = {
      ...inputs.settings,
      yearDegreeDays: whole.totalDegreeDays!,
      yearDays: whole.totalDays!,
    };
    const runs: BacktestRun[] = [];
    for (let length = 3; length < inputs.months.length; length++) {
      for (let first = 0; first + length <= inputs.months.length; first++) {
        const months = inputs.months.slice(first, first + length);
        const { year } = compareHeating(change({ ...inputs, settings, months, sensitivity: [] }));
        const number = (value: unknown): number | null => (typeof value === 'number' ? value : null);
        runs.push({
          home: name,
          months: length,
          firstMonth: first + 1,
          wholePounds: whole[`totalDifference${estimate}Pounds`] as number,
          costPounds: whole.totalHeatPumpSidePounds as number,
          saidPounds: number(year[`yearDifference${estimate}Pounds`]),
          rangePounds: number(year[`year${estimate}RangePounds`]),
          refusal: String(year.yearRefusal),
        });
      }
    }
    return runs;
  });
}

/** Whether a run's range holds the whole year's figure. */
export const holds = ({ saidPounds, rangePounds, wholePounds }: BacktestRun): boolean =>
  Math.abs(saidPounds! - wholePounds) <= rangePounds!;
