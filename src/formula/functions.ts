import { COUNTING } from './functions/counting.js';
import { DATES } from './functions/dates.js';
import type { FormulaFunction } from './functions/describe.js';
import { LOGIC } from './functions/logic.js';
import { LOOKUP } from './functions/lookup.js';
import { MATHS } from './functions/maths.js';
import { STATISTICS } from './functions/statistics.js';
import { TEXT } from './functions/text.js';

/** The functions of the language, by their names in spreadsheets; those that choose or refer are in the compiler. */
export const FUNCTIONS: Readonly<Record<string, FormulaFunction>> = {
  ...LOGIC,
  ...MATHS,
  ...COUNTING,
  ...TEXT,
  ...DATES,
  ...LOOKUP,
  ...STATISTICS,
};
