import type { WorkbookInputs } from '../inputs/workbook-inputs.js';
import type { BatteryLines } from './battery/battery-lines.js';
import type { DayLines, TariffDayLines } from './day-lines.js';
import type { HalfHourLines } from './half-hour-lines.js';
import type { HeatingResults } from './heating/heating-results.js';
import type { MonthLines, TariffMonthLines } from './month-lines.js';
import type { RateLines } from './rate-lines.js';
import type { TariffHalfHours } from './tariff-half-hours.js';
import type { PeriodTotals, TariffSums, TariffTotals } from './tariff-totals.js';

/** One tariff, from its rates to its totals. */
export interface TariffResults {
  rates: RateLines;
  days: TariffDayLines;
  halfHours: TariffHalfHours;
  months: TariffMonthLines;
  sums: TariffSums;
  totals: TariffTotals;
}

/** Every line of the workbook as the library works it out. */
export interface WorkbookResults {
  inputs: WorkbookInputs;
  halfHours: HalfHourLines;
  days: DayLines;
  months: MonthLines;
  period: PeriodTotals;
  /** One entry a column of the tariffs sheet. */
  tariffs: TariffResults[];
  battery: BatteryLines;
  heating: HeatingResults;
  /** Place of today's tariff in `tariffs`, -1 where it is not found. */
  todays: number;
}
