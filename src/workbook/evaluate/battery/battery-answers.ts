import { SIZES_KWH } from '../../inputs/battery-cells.js';
import { hasName, numberIn } from '../../inputs/workbook-inputs.js';
import type { CellValue } from '../../model/sheet-model.js';
import { spreadsheetRound } from '../spreadsheet-round.js';
import type { WorkbookResults } from '../workbook-results.js';
import { isCurrent } from './battery-period.js';
import { sizingFingerprint } from './stored-battery-results.js';

/** Says whether what is stored still holds. */
export const STATUS = {
  current: 'current',
  stale: 'stale: run the fill',
  missing: 'not worked out: run the fill',
} as const;

/** Half-hours of a year of 365 days. */
export const HALF_HOURS_A_YEAR = 17_520;

/** What the battery changes on one tariff over the chosen period; null stands for a cell that stays blank. */
export interface BatteryAnswer {
  withoutPounds: number | null;
  withPounds: number | null;
  savingPounds: number | null;
  wearPounds: number | null;
  /** Worth of the level gained. */
  levelPounds: number | null;
  netSavingPounds: number | null;
  deliveredKwh: number | null;
  cyclesPerYear: number | null;
  levelAfterKwh: number | null;
  paybackYears: number | null;
  /** What the rule costs more than the least cost of any schedule; null unless that is current. */
  leftPounds: number | null;
  status: string | null;
}

const BLANK: BatteryAnswer = {
  withoutPounds: null,
  withPounds: null,
  savingPounds: null,
  wearPounds: null,
  levelPounds: null,
  netSavingPounds: null,
  deliveredKwh: null,
  cyclesPerYear: null,
  levelAfterKwh: null,
  paybackYears: null,
  leftPounds: null,
  status: null,
};

/** Whether a stored figure is missing, current or stale. */
export function statusOf(stored: CellValue, live: number): string {
  if (typeof stored !== 'number') return STATUS.missing;
  return isCurrent(stored, live) ? STATUS.current : STATUS.stale;
}

/** What the battery changes on a tariff (from 0). */
export function batteryAnswer(results: WorkbookResults, t: number): BatteryAnswer {
  if (!hasName(results.inputs.tariffs[t]!.name)) return BLANK;
  const { figures, period, tariffs } = results.battery;
  const { totals, fingerprint } = tariffs[t]!;
  const { usableKwh } = figures.battery;
  const without = results.tariffs[t]!.totals.totalPounds!;
  const saving = spreadsheetRound(without - totals.totalPounds, 2);
  const wear = totals.wearPence / 100;
  const level = (totals.storedValuePence * (totals.levelAfterKwh - totals.levelBeforeKwh)) / 100;
  const stored = results.inputs.storedBattery.tariffs[t]!;
  const status = statusOf(stored.fingerprint, fingerprint);
  const price = installedPrice(results, usableKwh);
  return {
    withoutPounds: without,
    withPounds: totals.totalPounds,
    savingPounds: saving,
    wearPounds: wear,
    levelPounds: level,
    netSavingPounds: saving - wear + level,
    deliveredKwh: totals.deliveredKwh,
    cyclesPerYear:
      usableKwh > 0 && period.halfHours > 0
        ? ((totals.deliveredKwh / usableKwh) * HALF_HOURS_A_YEAR) / period.halfHours
        : null,
    levelAfterKwh: totals.levelAfterKwh,
    paybackYears:
      saving > 0 && period.halfHours > 0 ? price / ((saving * HALF_HOURS_A_YEAR) / period.halfHours) : null,
    leftPounds:
      status === STATUS.current
        ? Math.max(0, totals.netCostPence / 100 - numberIn(stored.leastCostPounds))
        : null,
    status,
  };
}

/** Installed price of a size, in pounds; nothing for no battery. */
export function installedPrice(results: WorkbookResults, usableKwh: number): number {
  const { priceFixed, pricePerKwh } = results.inputs.battery;
  return usableKwh > 0 ? numberIn(priceFixed) + numberIn(pricePerKwh) * usableKwh : 0;
}

/** A row of the sizing table, from what is stored; null stands for a cell that stays blank. */
export interface SizeAnswer {
  savingPerYear: number | null;
  leastCostSavingPerYear: number | null;
  pricePounds: number;
  paybackYears: number | null;
}

/** What a size (by its place in the table) would save in a year and when it pays back. */
export function sizeAnswer(results: WorkbookResults, place: number): SizeAnswer {
  const { rows } = results.inputs.storedBattery.sizing;
  const { period, figures } = results.battery;
  const usableKwh = SIZES_KWH[place]!;
  const pricePounds = installedPrice(results, usableKwh);
  const row = rows[place]!;
  const none = rows[0]!;
  if (
    typeof row.ruleCostPounds !== 'number' ||
    typeof none.ruleCostPounds !== 'number' ||
    period.halfHours === 0
  ) {
    return { savingPerYear: null, leastCostSavingPerYear: null, pricePounds, paybackYears: null };
  }
  const perYear = HALF_HOURS_A_YEAR / period.halfHours;
  const saving = (none.ruleCostPounds - row.ruleCostPounds) * perYear;
  // Before wear, which is the price again in instalments.
  const wear = (numberIn(row.cyclesPerYear) * usableKwh * figures.battery.wearPencePerKwh) / 100;
  return {
    savingPerYear: saving,
    leastCostSavingPerYear: (none.ruleCostPounds - numberIn(row.leastCostPounds)) * perYear,
    pricePounds,
    paybackYears: usableKwh > 0 && saving + wear > 0 ? pricePounds / (saving + wear) : null,
  };
}

/** Whether the sizing table still holds. */
export function sizingStatus(results: WorkbookResults): string {
  return statusOf(results.inputs.storedBattery.sizing.fingerprint, sizingFingerprint(results));
}
