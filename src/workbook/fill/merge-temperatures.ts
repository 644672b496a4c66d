import { InputError } from '../../errors.js';
import type { DailyTemperature, OnConflict } from '../../readings/index.js';
import { serialToIsoDate } from '../../time/serial.js';
import { TEMPERATURE_ROWS } from '../fields/temperature-fields.js';
import { BLANK_TEMPERATURE, padded, type TemperatureCells } from '../inputs/heating-cells.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { TEMPERATURE } from '../model/heating/heating-rows.js';
import type { MergedRows } from './merged-rows.js';

const FIGURES = ['meanC', 'maxC', 'minC'] as const;

/**
 * Puts days of temperatures among the rows of the temperatures sheet.
 *
 * @param held rows of the sheet, checked
 * @param days days of the files
 * @param file name of the workbook, for messages
 * @param onConflict a different temperature for a day that the workbook holds already
 * @returns rows by day, with what was done
 * @throws InputError when a day's temperature differs, or there are more days than the workbook holds
 */
export function mergeTemperatures(
  held: readonly TemperatureCells[],
  days: readonly DailyTemperature[],
  file: string,
  onConflict: OnConflict,
): MergedRows<TemperatureCells> {
  const counts = { added: 0, duplicates: 0, replaced: 0 };
  const rows = new Map<number, { row: TemperatureCells; place: string }>();
  held.forEach((row, i) => {
    if (typeof row.date === 'number') {
      rows.set(row.date, { row, place: `${SHEETS.temperatures}!${TEMPERATURE.date}${FIRST_ROW + i}` });
    }
  });
  for (const day of days) {
    const found = rows.get(day.serialDay);
    const given = FIGURES.filter((key) => day[key] !== undefined);
    const row: TemperatureCells = { ...(found?.row ?? BLANK_TEMPERATURE), date: day.serialDay };
    for (const key of given) row[key] = Number(day[key]!.toFixed(6));
    if (found === undefined) counts.added++;
    else if (given.every((key) => found.row[key] === row[key])) counts.duplicates++;
    else if (given.every((key) => found.row[key] === null || found.row[key] === row[key])) counts.added++;
    else if (onConflict === 'replace') counts.replaced++;
    else {
      throw new InputError(
        `the workbook holds another temperature for ${serialToIsoDate(day.serialDay)} than the files`,
        'Take the wrong one out, or let the files win: --replace.',
        { file, line: found.place },
      );
    }
    rows.set(day.serialDay, { row, place: found?.place ?? '' });
  }
  if (rows.size > TEMPERATURE_ROWS) {
    throw new InputError(
      `the temperatures are ${rows.size} days, the workbook holds ${TEMPERATURE_ROWS}`,
      'Give the gas year and the year of the readings only.',
      { file, line: SHEETS.temperatures },
    );
  }
  const sorted = [...rows.values()].map(({ row }) => row);
  sorted.sort((a, b) => (a.date as number) - (b.date as number));
  return { rows: padded(sorted, TEMPERATURE_ROWS, BLANK_TEMPERATURE), ...counts };
}
