import { startCalc } from '../../scripts/lib/calc/start-calc.js';
import type { EngineResult } from './compare-cells.js';

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

/**
 * Has LibreOffice calculate every formula of a workbook again.
 *
 * @param path the .xlsx; it is not changed
 * @returns its values in the shape that `compareCells` takes
 */
export async function recalculateWithCalc(path: string): Promise<EngineResult> {
  const calc = await startCalc();
  try {
    return { engine: 'LibreOffice', values: await (await calc.open(path)).readAll() };
  } finally {
    await calc.stop();
  }
}
