import { costByCapacity } from '../../../battery/cost-by-capacity.js';
import { leastCostSchedule } from '../../../battery/least-cost-schedule.js';
import { SIZES_KWH, type StoredBatteryResults } from '../../inputs/battery-cells.js';
import { hasName, numberIn } from '../../inputs/workbook-inputs.js';
import type { WorkbookResults } from '../workbook-results.js';
import { isCurrent, TARIFF_WEIGHT } from './battery-period.js';
import { batteryInput } from './battery-tariff-lines.js';

/** Fingerprint of the sizing table as the inputs are. */
export function sizingFingerprint(results: WorkbookResults): number {
  const { chosen, tariffs } = results.battery;
  return chosen < 0 ? 0 : tariffs[chosen]!.fingerprint + TARIFF_WEIGHT * (chosen + 1);
}

/**
 * Works out what no formula can, where an input has changed since it was stored: the least cost of any schedule on
 * every tariff, and the sizing table.
 *
 * @param results what the formulas give
 * @param nowSerial local date and time, serial, to mark what is worked out anew
 * @returns what to store; the very figures and times of before where nothing changed
 */
export function storedBatteryResults(results: WorkbookResults, nowSerial: number): StoredBatteryResults {
  const before = results.inputs.storedBattery;
  const { battery } = results;
  const tariffs = battery.tariffs.map((tariff, t) => {
    const stored = before.tariffs[t]!;
    if (!hasName(results.inputs.tariffs[t]!.name) || battery.period.halfHours === 0) {
      return { leastCostPounds: null, fingerprint: null, computedAt: null };
    }
    if (isCurrent(stored.fingerprint, tariff.fingerprint) && typeof stored.leastCostPounds === 'number') {
      return stored;
    }
    const { input, sized, endValuePence } = spanOf(results, t);
    return {
      leastCostPounds: leastCostSchedule(input, sized, endValuePence).totals.netCostPence / 100,
      fingerprint: tariff.fingerprint,
      computedAt: nowSerial,
    };
  });
  return { tariffs, sizing: storedSizing(results, nowSerial) };
}

function storedSizing(results: WorkbookResults, nowSerial: number): StoredBatteryResults['sizing'] {
  const before = results.inputs.storedBattery.sizing;
  const { chosen, period } = results.battery;
  const blank = { ruleCostPounds: null, leastCostPounds: null, cyclesPerYear: null };
  if (chosen < 0 || period.halfHours === 0) {
    return { fingerprint: null, computedAt: null, rows: SIZES_KWH.map(() => blank) };
  }
  const fingerprint = sizingFingerprint(results);
  const isWhole = before.rows.every((row) => typeof row.leastCostPounds === 'number');
  if (isCurrent(before.fingerprint, fingerprint) && isWhole) return before;
  const { input, sized, endValuePence } = spanOf(results, chosen);
  const { priceFixed, pricePerKwh } = results.inputs.battery;
  // Without a battery of its own power the table has nothing to size.
  const canSize = sized.chargeKw > 0 && sized.dischargeKw > 0;
  const rows = canSize
    ? costByCapacity(
        input,
        sized,
        SIZES_KWH,
        { fixedPounds: numberIn(priceFixed), poundsPerKwh: numberIn(pricePerKwh) },
        endValuePence,
      ).map((row) => ({
        ruleCostPounds: row.ruleCostPence / 100,
        leastCostPounds: row.leastCostPence / 100,
        cyclesPerYear: row.ruleCyclesPerYear,
      }))
    : SIZES_KWH.map(() => blank);
  return { fingerprint, computedAt: nowSerial, rows };
}

/** The half-hours of the chosen period, with the battery as the rule left it before. */
function spanOf(results: WorkbookResults, t: number) {
  const { battery, halfHours, inputs } = results;
  const { firstDay, lastDay } = battery.period;
  const rows = Int32Array.from(
    [...battery.home.day.keys()].filter((row) => {
      const day = battery.home.day[row]!;
      return day >= firstDay && day <= lastDay && day > 0;
    }),
  );
  const { days, totals } = battery.tariffs[t]!;
  return {
    input: batteryInput(
      rows,
      halfHours,
      inputs.readings,
      results.tariffs[t]!.halfHours.unitRatePence,
      days.exportRate,
    ),
    sized: { ...battery.figures.battery, startKwh: totals.levelBeforeKwh },
    endValuePence: totals.storedValuePence,
  };
}
