import { InputError } from '../../errors.js';
import type { GasPeriod, OnConflict } from '../../readings/index.js';
import { serialToIsoDate } from '../../time/serial.js';
import { GAS_ROWS } from '../fields/gas-fields.js';
import { BLANK_GAS, type GasCells, padded } from '../inputs/heating-cells.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { GAS } from '../model/heating/heating-rows.js';
import { type GasStretch, gasStretches } from './gas-rows.js';
import type { MergedRows } from './merged-rows.js';

/**
 * Puts gas from files among the rows of the gas sheet.
 *
 * @param held rows of the sheet, checked
 * @param periods gas of the files
 * @param file name of the workbook, for messages
 * @param onConflict different gas for days that the workbook holds already
 * @returns rows by first day, with what was done
 * @throws InputError when days overlap with a row that says otherwise, or there are more rows than the workbook holds
 */
export function mergeGas(
  held: readonly GasCells[],
  periods: readonly GasPeriod[],
  file: string,
  onConflict: OnConflict,
): MergedRows<GasCells> {
  const counts = { added: 0, duplicates: 0, replaced: 0 };
  const kept = held.map((row, i) => ({ row, place: `${SHEETS.gas}!${GAS.firstDay}${FIRST_ROW + i}` }));
  let rows = kept.filter(({ row }) => row.firstDay !== null);
  for (const stretch of gasStretches(periods, file)) {
    const over = rows.filter(({ row }) => overlaps(row, stretch));
    const same = over.find(({ row }) => isSameSpan(row, stretch));
    if (over.length === 1 && same !== undefined && holds(same.row, stretch)) {
      counts.duplicates++;
      continue;
    }
    const isOpen =
      over.length === 1 && same !== undefined && same.row.kwh === null && same.row.volume === null;
    if (over.length > 0 && !isOpen && onConflict === 'refuse') {
      throw new InputError(
        `the workbook holds other gas for these days than the files (${spanText(stretch)}: ${stretch.value} ${stretch.unit})`,
        'Take the wrong one out, or let the files win: --replace.',
        { file, line: over[0]!.place },
      );
    }
    counts[over.length === 0 || isOpen ? 'added' : 'replaced']++;
    rows = rows.filter((row) => !over.includes(row));
    rows.push({ row: rowOf(stretch, same?.row), place: '' });
  }
  if (rows.length > GAS_ROWS) {
    throw new InputError(
      `the gas is ${rows.length} stretches, the workbook holds ${GAS_ROWS}`,
      'Give the last year before the heat pump, by months.',
      { file, line: SHEETS.gas },
    );
  }
  rows.sort((a, b) => (a.row.firstDay as number) - (b.row.firstDay as number));
  return {
    rows: padded(
      rows.map(({ row }) => row),
      GAS_ROWS,
      BLANK_GAS,
    ),
    ...counts,
  };
}

const day = (cell: GasCells['firstDay']): number => Math.floor(cell as number);

function overlaps(row: GasCells, { firstDay, lastDay }: GasStretch): boolean {
  return day(row.firstDay) <= lastDay && day(row.lastDay) >= firstDay;
}

function isSameSpan(row: GasCells, { firstDay, lastDay }: GasStretch): boolean {
  return day(row.firstDay) === firstDay && day(row.lastDay) === lastDay;
}

function holds(row: GasCells, { value, unit }: GasStretch): boolean {
  const isCubicMetres = row.volumeUnit === null || String(row.volumeUnit).toLowerCase() === 'm3';
  const own = unit === 'kWh' ? row.kwh : isCubicMetres ? row.volume : null;
  return typeof own === 'number' && Math.abs(own - value) <= 1e-9 * Math.max(1, value);
}

/** A row with the gas of the files; calorific value and degree days that were typed for these very days stay. */
function rowOf({ firstDay, lastDay, value, unit }: GasStretch, same: GasCells | undefined): GasCells {
  return {
    ...(same ?? BLANK_GAS),
    firstDay,
    lastDay,
    kwh: unit === 'kWh' ? value : null,
    volume: unit === 'm3' ? value : null,
    volumeUnit: unit === 'm3' ? 'm3' : null,
  };
}

function spanText({ firstDay, lastDay }: GasStretch): string {
  return `${serialToIsoDate(firstDay)} to ${serialToIsoDate(lastDay)}`;
}
