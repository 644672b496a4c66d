import type { BATTERY_FIELDS } from '../fields/battery-fields.js';
import type { CellValue } from '../fields/cell-value.js';
import type { CellsOf } from '../fields/field.js';
import { TARIFF_COUNT } from '../layout.js';

/** The battery as the cells of its sheet hold it. */
export type BatteryCells = CellsOf<typeof BATTERY_FIELDS>;

/** Usable capacities of the sizing table, kWh. */
export const SIZES_KWH: readonly number[] = Array.from({ length: 21 }, (_, kwh) => kwh);

/** What the fill worked out for one tariff, which no formula can: the least cost of any schedule. */
export interface StoredLeastCost {
  leastCostPounds: CellValue;
  /** The workbook's fingerprint of the inputs when it was worked out. */
  fingerprint: CellValue;
  /** Local date and time, serial. */
  computedAt: CellValue;
}

/** One size of the stored sizing table. */
export interface StoredSize {
  ruleCostPounds: CellValue;
  leastCostPounds: CellValue;
  cyclesPerYear: CellValue;
}

/** All that the fill works out beside the formulas. */
export interface StoredBatteryResults {
  /** One entry a column of the tariffs sheet. */
  tariffs: StoredLeastCost[];
  sizing: { fingerprint: CellValue; computedAt: CellValue; rows: StoredSize[] };
}

/** Nothing worked out yet. */
export function blankStoredBatteryResults(): StoredBatteryResults {
  return {
    tariffs: Array.from({ length: TARIFF_COUNT }, () => ({
      leastCostPounds: null,
      fingerprint: null,
      computedAt: null,
    })),
    sizing: {
      fingerprint: null,
      computedAt: null,
      rows: SIZES_KWH.map(() => ({ ruleCostPounds: null, leastCostPounds: null, cyclesPerYear: null })),
    },
  };
}
