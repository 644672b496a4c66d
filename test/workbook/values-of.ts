import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';

/** What a workbook comes to, worked out from its inputs alone. */
export function valuesOf(bytes: Uint8Array): WorkbookValues {
  return verifyWorkbook(bytes, 'home.xlsx').values;
}
