import { TARIFF_COUNT } from '../layout.js';
import { batteryResultRow, SIZING, STORED, sizingRows } from '../model/battery/battery-rows.js';
import type { CellValue } from '../model/sheet-model.js';
import type { Shape } from '../sheets/shape.js';
import { SIZES_KWH, type StoredBatteryResults } from './battery-cells.js';

/**
 * What an earlier fill stored on the battery sheet.
 *
 * @param cell value of a cell of the battery sheet, by name
 * @param shape how much the workbook holds
 * @returns stored values, blank where no fill has run
 */
export function readStoredBatteryResults(
  cell: (at: string) => CellValue,
  shape: Shape,
): StoredBatteryResults {
  const { first, fingerprint, computedAt } = sizingRows(shape);
  return {
    tariffs: Array.from({ length: TARIFF_COUNT }, (_, tariff) => {
      const row = batteryResultRow(tariff);
      return {
        leastCostPounds: cell(`${STORED.leastCost}${row}`),
        fingerprint: cell(`${STORED.fingerprint}${row}`),
        computedAt: cell(`${STORED.computedAt}${row}`),
      };
    }),
    sizing: {
      fingerprint: cell(fingerprint),
      computedAt: cell(computedAt),
      rows: SIZES_KWH.map((_, i) => ({
        ruleCostPounds: cell(`${SIZING.ruleCost}${first + i}`),
        leastCostPounds: cell(`${SIZING.leastCost}${first + i}`),
        cyclesPerYear: cell(`${SIZING.cycles}${first + i}`),
      })),
    },
  };
}
