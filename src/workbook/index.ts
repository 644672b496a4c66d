export { buildWorkbook } from './build/build-workbook.js';
export { type FillOptions, type FillResult, fillWorkbook } from './fill/fill-workbook.js';
export { parseStartingInputs } from './inputs/parse-starting-inputs.js';
export { type Verification, verifyWorkbook } from './verify/verify-workbook.js';
