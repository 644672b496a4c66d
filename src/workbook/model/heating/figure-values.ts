import type { DailyFit } from '../../evaluate/heating/heating-day-lines.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import type { CellValue } from '../sheet-model.js';
import { type DAILY_LINE_KEYS, TARIFF_PLACE } from './heating-figures-rows.js';

type DailyKey = (typeof DAILY_LINE_KEYS)[number];
const DAILY: Readonly<Record<DailyKey, keyof DailyFit>> = {
  dailyFitDays: 'days',
  dailyBaseKwh: 'baseKwhPerDay',
  dailyKwhPerDegreeDay: 'kwhPerDegreeDay',
  dailyRSquared: 'rSquared',
  dailyFromDegreeDays: 'fromDegreeDays',
  dailyFromKwh: 'fromKwh',
  dailyToDegreeDays: 'toDegreeDays',
  dailyToKwh: 'toKwh',
};

/** The library's value of a figure of the heating figures sheet; '' where it can't be said. */
export function figureValue({ heating }: WorkbookResults, key: string): CellValue {
  if (key === TARIFF_PLACE) return heating.tariff + 1;
  const { gasFit, totals, year } = heating.comparison;
  for (const figures of [heating.settings, gasFit, totals, year]) {
    if (Object.hasOwn(figures, key)) return figures[key] ?? '';
  }
  return heating.days.line[DAILY[key as DailyKey]];
}
