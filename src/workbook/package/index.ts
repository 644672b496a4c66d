export { defaultZipLimits, type ZipLimits } from '../../zip/zip-container.js';
export {
  type CellPosition,
  type CellRange,
  cellName,
  columnName,
  columnNumber,
  LAST_COLUMN,
  LAST_ROW,
  parseCellRef,
  parseRangeRef,
  rangeName,
} from './cell-reference.js';
export { type CachedValue, CellError, type CellValue, DROP, type InputValue } from './cell-value.js';
export { comparableFormula } from './comparable-formula.js';
export type { EditCounts, SheetEdits } from './edit-sheet-xml.js';
export { type FormulaToken, formulaTokens } from './formula-tokens.js';
export type { InputColumn } from './input-plan.js';
export { normaliseFormula } from './normalise-formula.js';
export { relativeFormula } from './relative-formula.js';
export { type SaveFileSystem, type SaveOptions, saveBeside } from './save-beside.js';
export { type SheetRange, sheetRange } from './sheet-range.js';
export type { CellKind, SheetReader } from './sheet-reader.js';
export { translateFormula } from './translate-formula.js';
export { removeLeftovers } from './unfinished-saves.js';
export { whyNotSaved } from './why-not-saved.js';
export { openWorkbookPackage, type PackageOptions, type WorkbookPackage } from './workbook-package.js';
export type { DefinedName } from './workbook-structure.js';
export { decodeXml, encodeCellText, escapeXml } from './xml-text.js';
