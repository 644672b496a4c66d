import { isoDateToSerial, serialToIsoDate } from '../time/serial.js';
import { type DayTemperatures, dailyDegreeDays } from './daily-degree-days.js';

/** Degree days of a month, as the comparison takes them. */
export interface MonthDegreeDays {
  /** First day of the month, spreadsheet serial day. */
  monthSerial: number;
  /** Heating degree days of the days that have a temperature, °C·day. */
  degreeDays: number;
  /** How many days those are. */
  daysWithTemperature: number;
}

/**
 * Heating degree days month by month. Days without a temperature are not filled in: the count says how many there are.
 * Source: those of the daily equations.
 *
 * @param days local days in any order, each once
 * @param baseC base temperature, °C
 * @returns months that have a day, in order of time
 * @throws InputError when a maximum is below its minimum or the base is no number
 * @example degreeDaysByMonth([{ serialDay: 46023, meanC: 5 }], 15.5) // [{ monthSerial: 46023, degreeDays: 10.5, daysWithTemperature: 1 }]
 */
export function degreeDaysByMonth(days: readonly DayTemperatures[], baseC: number): MonthDegreeDays[] {
  const months = new Map<number, MonthDegreeDays>();
  for (const day of [...days].sort((a, b) => a.serialDay - b.serialDay)) {
    const monthSerial = isoDateToSerial(`${serialToIsoDate(day.serialDay).slice(0, 7)}-01`);
    const month = months.get(monthSerial) ?? { monthSerial, degreeDays: 0, daysWithTemperature: 0 };
    const found = dailyDegreeDays(day, baseC);
    if (found !== null) {
      month.degreeDays += found.degreeDays;
      month.daysWithTemperature++;
    }
    months.set(monthSerial, month);
  }
  return [...months.values()];
}
