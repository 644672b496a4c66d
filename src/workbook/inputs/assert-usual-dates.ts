import { InputError } from '../../errors.js';
import type { WorkbookPackage } from '../package/index.js';

/**
 * Makes sure that the serials of a workbook count days from the usual date, as formulas and library do.
 *
 * @param workbook an open workbook
 * @throws InputError when they count from 1904
 */
export function assertUsualDates(workbook: WorkbookPackage): void {
  if (!workbook.date1904) return;
  throw new InputError(
    'the workbook counts dates from 1904',
    'Switch the 1904 date system off in the spreadsheet program’s options, check the dates, and save.',
    { file: workbook.fileName },
  );
}
