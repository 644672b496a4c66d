import { hasName, numberIn, type TariffCells } from '../inputs/workbook-inputs.js';
import type { MonthLines, TariffMonthLines } from './month-lines.js';
import { spreadsheetRound } from './spreadsheet-round.js';

/** Over the chosen period, whatever the tariff. */
export interface PeriodTotals {
  firstMonth: number;
  lastMonth: number;
  days: number;
  expected: number;
  metered: number;
  importKwh: number;
  exportKwh: number;
  demandKwh: number;
  /** Share of the half-hours that were metered, 0 to 1; 0 without readings. */
  coverage: number;
}

/** One tariff over the chosen period; `null` stands for a cell that stays blank. */
export interface TariffTotals {
  named: boolean;
  energyPounds: number | null;
  standingPounds: number | null;
  exportCreditPounds: number | null;
  totalPounds: number | null;
  differencePounds: number | null;
  differenceAfterExitPounds: number | null;
  rank: number | null;
  allInPence: number | null;
  offPeakShare: number | null;
  breakEvenOffPeakShare: number | null;
  headroomPence: number | null;
  coverage: number | null;
}

export function periodTotals(months: MonthLines): PeriodTotals {
  const sum = (values: ArrayLike<number>): number => sumSelected(months, values);
  const starts = Array.from(months.start).filter((_, m) => months.selected[m] === 1);
  const expected = sum(months.expected);
  const metered = sum(months.metered);
  return {
    firstMonth: starts[0] ?? 0,
    lastMonth: starts.at(-1) ?? 0,
    days: sum(months.days),
    expected,
    metered,
    importKwh: sum(months.importKwh),
    exportKwh: sum(months.exportKwh),
    demandKwh: sum(months.demandKwh),
    coverage: expected === 0 ? 0 : metered / expected,
  };
}

export function sumSelected(months: MonthLines, values: ArrayLike<number>): number {
  let sum = 0;
  for (let m = 0; m < months.start.length; m++) if (months.selected[m] === 1) sum += values[m]!;
  return sum;
}

/** Place (from 0) of today's tariff among the columns; -1 where no column has that name. */
export function todaysIndex(tariffs: readonly TariffCells[], todaysTariff: unknown): number {
  if (typeof todaysTariff !== 'string' || todaysTariff === '') return -1;
  const wanted = todaysTariff.toLowerCase();
  return tariffs.findIndex(
    (tariff) => typeof tariff.name === 'string' && tariff.name.toLowerCase() === wanted,
  );
}

/** Sums a tariff's bill lines over the chosen period. */
export function tariffSums(months: MonthLines, lines: TariffMonthLines): TariffSums {
  const pounds = (values: ArrayLike<number>): number => spreadsheetRound(sumSelected(months, values), 2);
  return {
    energy: pounds(lines.energyPounds),
    standing: pounds(lines.standingPounds),
    exportCredit: pounds(lines.exportCreditPounds),
    total: pounds(lines.totalPounds),
    offPeakKwh: sumSelected(months, lines.offPeakKwh),
    offPeakCost: sumSelected(months, lines.offPeakCostPence),
  };
}

/**
 * Compares the tariffs over the chosen period.
 *
 * @param tariffs the columns of the tariffs sheet
 * @param sums their bill lines over the period, in pounds
 * @param period what was metered in it
 * @param todays place of today's tariff, -1 where there is none
 * @returns what stands at the top of each column
 */
export function tariffTotals(
  tariffs: readonly TariffCells[],
  sums: readonly TariffSums[],
  period: PeriodTotals,
  todays: number,
): TariffTotals[] {
  const rows = sums.map((sum, t) => ({ ...sum, named: hasName(tariffs[t]!.name) }));
  const today = todays >= 0 ? rows[todays] : undefined;
  return rows.map((row, t) => {
    if (!row.named) return BLANK_TOTALS;
    const difference = today === undefined ? null : spreadsheetRound(row.total - today.total, 2);
    const kwh = period.importKwh;
    return {
      named: true,
      energyPounds: row.energy,
      standingPounds: row.standing,
      exportCreditPounds: row.exportCredit,
      totalPounds: row.total,
      differencePounds: difference,
      differenceAfterExitPounds:
        difference === null
          ? null
          : spreadsheetRound(difference + (t === todays ? 0 : numberIn(tariffs[todays]!.exitFee)), 2),
      rank:
        1 +
        rows.filter((other) => other.named && other.total < row.total).length +
        rows.filter((other, o) => o < t && other.named && other.total === row.total).length,
      allInPence: kwh > 0 ? ((row.energy + row.standing) * 100) / kwh : null,
      offPeakShare: kwh > 0 ? row.offPeakKwh / kwh : null,
      breakEvenOffPeakShare: today === undefined ? null : breakEvenShare(row, today, kwh),
      headroomPence: today === undefined || kwh <= 0 ? null : ((today.total - row.total) * 100) / kwh,
      coverage: period.coverage,
    };
  });
}

const BLANK_TOTALS: TariffTotals = {
  named: false,
  energyPounds: null,
  standingPounds: null,
  exportCreditPounds: null,
  totalPounds: null,
  differencePounds: null,
  differenceAfterExitPounds: null,
  rank: null,
  allInPence: null,
  offPeakShare: null,
  breakEvenOffPeakShare: null,
  headroomPence: null,
  coverage: null,
};

/** A tariff's lines summed over the chosen period, named or not. */
export interface TariffSums {
  energy: number;
  standing: number;
  exportCredit: number;
  total: number;
  offPeakKwh: number;
  offPeakCost: number;
}

/** Off-peak share at which the tariff, at its own average rates of the period, costs what today's does. */
function breakEvenShare(row: TariffSums, today: TariffSums, kwh: number): number | null {
  const peakKwh = kwh - row.offPeakKwh;
  if (row.offPeakKwh <= 0 || peakKwh <= 0) return null;
  const offPeakPence = row.offPeakCost / row.offPeakKwh;
  const peakPence = (row.energy * 100 - row.offPeakCost) / peakKwh;
  if (peakPence - offPeakPence <= 0) return null;
  const targetPence = ((today.total - row.standing + row.exportCredit) * 100) / kwh;
  return (peakPence - targetPence) / (peakPence - offPeakPence);
}
