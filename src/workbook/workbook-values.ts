import type { Calculated } from './calculate.js';
import type { WorkbookInputs } from './inputs/workbook-inputs.js';
import type { Book } from './model/book.js';

/** A workbook worked out: what its input cells hold, its lines, and their values. */
export interface WorkbookValues {
  inputs: WorkbookInputs;
  book: Book;
  calculated: Calculated;
}
