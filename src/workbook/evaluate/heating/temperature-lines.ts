import { dailyDegreeDays } from '../../../heating/daily-degree-days.js';
import type { TemperatureCells } from '../../inputs/heating-cells.js';

/** What is wrong with a row of the temperatures sheet. */
export const TEMPERATURE_PROBLEM = { none: 0, unusable: 1, repeatedOrOutOfOrder: 2 } as const;

/** Days with degree days from the temperatures sheet, by date; a date that stands twice counts with its mean. */
export interface TemperatureLines {
  /** One entry a row of the sheet; '' where the row has none. */
  degreeDays: (number | '')[];
  /** One entry a row, of {@link TEMPERATURE_PROBLEM}. */
  problem: number[];
  byDate: ReadonlyMap<number, { sum: number; count: number }>;
  /** Degree days of the last `yearDays` days of the sheet; null where one of them has none. */
  yearDegreeDays: (yearDays: number) => number | null;
}

/** Degree days of each row of the temperatures sheet. */
export function temperatureLines(rows: readonly TemperatureCells[], baseC: number): TemperatureLines {
  const degreeDays = rows.map((row) => degreeDaysOf(row, baseC));
  const byDate = new Map<number, { sum: number; count: number }>();
  let last = 0;
  degreeDays.forEach((value, i) => {
    const { date } = rows[i]!;
    if (typeof date === 'number') last = Math.max(last, date);
    if (value === '') return;
    const held = byDate.get(date as number) ?? { sum: 0, count: 0 };
    byDate.set(date as number, { sum: held.sum + value, count: held.count + 1 });
  });
  return {
    degreeDays,
    problem: rows.map((row, i) => problemOf(row, rows[i - 1], degreeDays[i]!)),
    byDate,
    yearDegreeDays: (yearDays) => {
      const found = degreeDaysBetween(byDate, last - yearDays + 1, last);
      return found.count === yearDays ? found.sum : null;
    },
  };
}

/** Degree days and their count from a day to a day, both counted. */
export function degreeDaysBetween(
  byDate: TemperatureLines['byDate'],
  first: number,
  last: number,
): { sum: number; count: number } {
  const total = { sum: 0, count: 0 };
  for (const [date, { sum, count }] of byDate) {
    if (date < first || date > last) continue;
    total.sum += sum;
    total.count += count;
  }
  return total;
}

function degreeDaysOf({ date, meanC, maxC, minC }: TemperatureCells, baseC: number): number | '' {
  if (typeof date !== 'number' || !Number.isInteger(date)) return '';
  if (typeof maxC === 'number' && typeof minC === 'number') {
    return maxC < minC ? '' : dailyDegreeDays({ serialDay: date, maxC, minC }, baseC)!.degreeDays;
  }
  return typeof meanC === 'number' ? dailyDegreeDays({ serialDay: date, meanC }, baseC)!.degreeDays : '';
}

function problemOf(
  row: TemperatureCells,
  above: TemperatureCells | undefined,
  degreeDays: number | '',
): number {
  const isFilled = Object.values(row).some((cell) => cell !== null);
  if (isFilled && degreeDays === '') return TEMPERATURE_PROBLEM.unusable;
  const previous = above?.date;
  if (typeof row.date === 'number' && typeof previous === 'number' && row.date <= previous) {
    return TEMPERATURE_PROBLEM.repeatedOrOutOfOrder;
  }
  return TEMPERATURE_PROBLEM.none;
}
