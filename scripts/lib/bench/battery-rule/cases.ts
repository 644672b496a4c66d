import type { Battery, BatteryInput } from '../../../../src/battery/battery.js';
import { runBatteryRule } from '../../../../src/battery/battery-rule.js';
import { leastCostSchedule } from '../../../../src/battery/least-cost-schedule.js';
import { rateGrid } from '../../../../src/tariffs/rate-grid.js';
import { rateSeries } from '../../../../src/tariffs/rate-series.js';
import type { Tariff } from '../../../../src/tariffs/tariff.js';
import { earlierRuleCostPence } from './earlier-rule.js';
import { type BenchHome, benchHomes } from './homes.js';
import { BENCH_TARIFFS, type BenchTariff } from './tariffs.js';

/** Usable capacities, kWh, and powers each way, kW. */
export const SIZES_KWH = [3, 5, 7, 9.5, 11, 14, 18] as const;
export const POWERS_KW = [2.4, 3.6, 6] as const;
/** Each way. */
const EFFICIENCY = 0.95;
const ROUND_TRIP = EFFICIENCY ** 2;

/** One home on one tariff with one battery: pence saved over the year. */
export interface RuleCase {
  home: string;
  tariff: string;
  kind: 'week' | 'price' | 'sells';
  usableKwh: number;
  powerKw: number;
  ruleSavesPence: number;
  earlierSavesPence: number;
  bestSavesPence: number;
}

/**
 * Half-hours of a home on a tariff, as the rule takes them.
 *
 * Where the battery may export, the export rate of a half-hour in which buying to sell at once would pay is its unit rate:
 * else the best schedule would be to charge and sell in turn throughout a cheap window, a loop through the meter that pays
 * for no use of energy, and a share of its saving would say nothing. That suppliers bar such loops is common practice, no
 * source. The rule goes by the tariff's own export rate: it sells in no half-hour in which it charges.
 *
 * @param home a year, kWh
 * @param tariff rates that include VAT
 * @param mayExport whether the battery may export
 * @example ruleInput(benchHomes()[0], BENCH_TARIFFS[0].tariff).unitRatePence.length // 17520
 */
export function ruleInput(home: BenchHome, tariff: Tariff, mayExport = false): BatteryInput {
  const { calendar, importKwh, exportKwh, carKwh, pricePence } = home;
  const [rates] = tariff.ratePeriods;
  if (rates === undefined) throw new RangeError(`${tariff.name} has no rates`);
  const ofBand = [rates.baseRatePence, ...rates.windowRatesPence];
  const firstOfMonth = calendar.monthStartSerials.map((_, month) => calendar.monthIndex.indexOf(month));
  const unitRatePence = rateSeries(tariff, calendar, 0, pricePence);
  return {
    importKwh,
    exportKwh,
    carKwh,
    unitRatePence,
    exportRatePence: unitRatePence.map((ratePence) =>
      mayExport && ratePence / ROUND_TRIP < rates.exportRatePence ? ratePence : rates.exportRatePence,
    ),
    dayIndex: calendar.dayIndex,
    monthIndex: calendar.monthIndex,
    weeks: {
      ratesPence: [Float64Array.from(rateGrid(tariff), (band) => ofBand[band] ?? 0)],
      exportRatePence: Float64Array.of(rates.exportRatePence),
      index: new Int32Array(importKwh.length),
      slot: Int32Array.from(tariff.clock === 'utc' ? calendar.weekSlotUtc : calendar.weekSlotLocal),
      aheadHalfHours: Array.from(firstOfMonth, (i) =>
        tariff.clock === 'utc' ? (calendar.utcOffsetMinutes[i] ?? 0) / 30 : 0,
      ),
    },
    ...(tariff.halfHourlyPriced ? { ruleRatePence: pricePence } : {}),
  };
}

/** The earlier rule took each day of the tariff's clock by itself. */
function byDaysOfTariff(input: BatteryInput, home: BenchHome, tariff: Tariff): BatteryInput {
  if (tariff.clock === 'local') return input;
  const day = (i: number): number => Math.floor((home.calendar.startUtcMs[i] ?? 0) / 86_400_000);
  return { ...input, dayIndex: input.dayIndex.map((_, i) => day(i) - day(0)) };
}

/**
 * The rule, the rule before it and the best schedule on every home, tariff, size and power.
 *
 * @param onCase called before each home and tariff
 * @param tariffs those to take
 * @param homes those to take
 * @returns pence saved over the year, each against the same home without a battery
 */
export function ruleCases(
  onCase: (name: string) => void,
  tariffs: readonly BenchTariff[] = BENCH_TARIFFS,
  homes: readonly BenchHome[] = benchHomes(),
): RuleCase[] {
  return homes.flatMap((home) =>
    tariffs.flatMap(({ tariff, sells }): RuleCase[] => {
      onCase(`${home.name}: ${tariff.name}`);
      const input = ruleInput(home, tariff, sells);
      const earlier = byDaysOfTariff(input, home, tariff);
      return SIZES_KWH.flatMap((usableKwh) =>
        POWERS_KW.map((powerKw): RuleCase => {
          const battery: Battery = {
            usableKwh,
            chargeKw: powerKw,
            dischargeKw: powerKw,
            chargeEfficiency: EFFICIENCY,
            dischargeEfficiency: EFFICIENCY,
            reserveKwh: 0,
            startKwh: 0,
            wearPencePerKwh: 0,
            chargeFromGrid: true,
            mayFeedCar: false,
            mayExport: sells,
          };
          const without = runBatteryRule(input, { ...battery, usableKwh: 0 }).totals;
          const end = without.endValuePencePerKwh;
          const saved = (costPence: number): number => without.netCostPence - costPence;
          return {
            home: home.name,
            tariff: tariff.name,
            kind: sells ? 'sells' : tariff.halfHourlyPriced ? 'price' : 'week',
            usableKwh,
            powerKw,
            ruleSavesPence: saved(runBatteryRule(input, battery, end).totals.netCostPence),
            earlierSavesPence: saved(earlierRuleCostPence(earlier, battery, end)),
            bestSavesPence: saved(leastCostSchedule(input, battery, end).totals.netCostPence),
          };
        }),
      );
    }),
  );
}
