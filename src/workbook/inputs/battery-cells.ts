import { splitRoundTrip } from '../../battery/battery.js';
import { TARIFF_COUNT } from '../layout.js';
import type { CellValue } from '../model/sheet-model.js';

/** The battery as the cells of its sheet hold it. */
export interface BatteryCells {
  usableKwh: CellValue;
  chargeKw: CellValue;
  dischargeKw: CellValue;
  chargeEfficiency: CellValue;
  dischargeEfficiency: CellValue;
  /** Where filled, it stands for both efficiencies. */
  roundTripEfficiency: CellValue;
  reserveKwh: CellValue;
  startKwh: CellValue;
  wearPencePerKwh: CellValue;
  chargeFromGrid: CellValue;
  mayFeedCar: CellValue;
  mayExport: CellValue;
  /** Part of the installed price that every size has, in pounds. */
  priceFixed: CellValue;
  /** Part of it per usable kWh. */
  pricePerKwh: CellValue;
  /** Tariff looked at more closely; blank: today's. */
  tariff: CellValue;
}

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

/** Efficiencies one way, from the two cells or from the round trip's. */
export function oneWayEfficiencies(cells: BatteryCells): { charge: CellValue; discharge: CellValue } {
  const roundTrip = cells.roundTripEfficiency;
  if (roundTrip === null) return { charge: cells.chargeEfficiency, discharge: cells.dischargeEfficiency };
  if (typeof roundTrip !== 'number' || !isEfficiency(roundTrip)) return { charge: null, discharge: null };
  const { chargeEfficiency, dischargeEfficiency } = splitRoundTrip(roundTrip);
  return { charge: chargeEfficiency, discharge: dischargeEfficiency };
}

/** Whether a cell holds a share above 0 and at most 1. */
export function isEfficiency(cell: CellValue): boolean {
  return typeof cell === 'number' && cell > 0 && cell <= 1;
}
