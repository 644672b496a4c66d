export { findCalc } from '../../scripts/lib/calc/find-calc.js';
export { type EngineCell, SheetValues } from '../../scripts/lib/calc/sheet-values.js';
export {
  Calc,
  type CalcChart,
  CalcDocument,
  type CalcOptions,
  type CellSetting,
  startCalc,
} from '../../scripts/lib/calc/start-calc.js';
