import { InputError } from '../../errors.js';
import { parseCell } from '../cell-address.js';
import { BILL_FIELDS } from '../fields/bill-fields.js';
import { inputValue, readCells } from '../inputs/read-cells.js';
import { hasName } from '../inputs/workbook-inputs.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { TARIFF_ROW, TODAYS_TARIFF_CELL, tariffInputRanges, tariffLetters } from '../model/tariff-rows.js';
import type { WorkbookPackage } from '../package/index.js';
import { openOurWorkbook } from './open-our-workbook.js';

/**
 * Empties every input of a tariff, and nothing else: for programs whose name box can't select them all.
 *
 * @param bytes the workbook
 * @param file its name, for messages
 * @param name the tariff's name, case aside
 * @returns the workbook with an empty column; stored values are still the old ones
 * @throws InputError when the workbook is not ours, has no such tariff, has it as today's, or as that of a bill
 * @example clearTariff(bytes, 'home.xlsx', 'Old night meter')
 */
export function clearTariff(bytes: Uint8Array, file: string, name: string): Uint8Array {
  const { workbook } = openOurWorkbook(bytes, file);
  const cells = readCells(workbook, SHEETS.tariffs);
  const place = { file, sheet: SHEETS.tariffs };
  const same = (a: unknown): boolean => String(a ?? '').toLowerCase() === name.toLowerCase();
  const names = Array.from({ length: TARIFF_COUNT }, (_, t) =>
    inputValue(cells, `${tariffLetters(t)}${TARIFF_ROW.name}`, place),
  );
  const tariff = names.findIndex((found) => hasName(found) && same(found));
  if (tariff < 0) {
    const there = names.filter(hasName).join(', ');
    throw new InputError(
      `no tariff is called "${name}"`,
      there === '' ? 'None is typed.' : `Give one of: ${there}.`,
      { file, line: SHEETS.tariffs },
    );
  }
  if (same(inputValue(cells, TODAYS_TARIFF_CELL, place)) && names.filter(hasName).length > 1) {
    throw new InputError(
      `"${name}" is today's tariff, with which the others are compared`,
      "Choose another as today's first.",
      { file, line: `${SHEETS.tariffs}!${TODAYS_TARIFF_CELL}` },
    );
  }
  const billed = billOn(workbook, same);
  if (billed !== undefined) {
    throw new InputError(
      `"${name}" is the tariff of a bill`,
      `Clear that row of ${SHEETS.bills}, or name another tariff in it, first.`,
      { file, line: `${SHEETS.bills}!${billed}` },
    );
  }
  const ranges = tariffInputRanges(tariff);
  if (same(inputValue(cells, TODAYS_TARIFF_CELL, place))) ranges.push(TODAYS_TARIFF_CELL);
  workbook.editSheet(SHEETS.tariffs, {
    inputs: ranges.map((range) => {
      const [from = '', to = from] = range.split(':');
      const { row, column } = parseCell(from);
      return {
        column,
        firstRow: row,
        values: Array.from({ length: parseCell(to).row - row + 1 }, () => null),
      };
    }),
  });
  return workbook.toBytes();
}

/** Cell of the first bill that names the tariff. */
function billOn(workbook: WorkbookPackage, isNamed: (found: unknown) => boolean): string | undefined {
  const cells = readCells(workbook, SHEETS.bills);
  const place = { file: workbook.fileName, sheet: SHEETS.bills };
  return BILL_FIELDS.find(({ tariff }) => isNamed(inputValue(cells, tariff.at, place)))?.tariff.at;
}
