import { absolute } from '../../cell-address.js';
import type { BatteryCells } from '../../inputs/battery-cells.js';
import { SHEETS } from '../../layout.js';

/** Row of each input on the battery sheet, in the column {@link BATTERY_INPUT_LETTERS}. */
export const BATTERY_INPUT_ROW: Readonly<Record<keyof BatteryCells, number>> = {
  usableKwh: 6,
  chargeKw: 7,
  dischargeKw: 8,
  chargeEfficiency: 9,
  dischargeEfficiency: 10,
  roundTripEfficiency: 11,
  reserveKwh: 12,
  startKwh: 13,
  wearPencePerKwh: 14,
  chargeFromGrid: 15,
  mayFeedCar: 16,
  mayExport: 17,
  priceFixed: 18,
  pricePerKwh: 19,
  tariff: 20,
};
export const BATTERY_INPUT_LETTERS = 'C';

/** Reference to an input of the battery. */
export function batteryInput(key: keyof BatteryCells): string {
  return absolute(SHEETS.battery, BATTERY_INPUT_LETTERS, BATTERY_INPUT_ROW[key]);
}

/** Rows and letters of the table with a row a tariff. */
export const BATTERY_RESULTS = { heading: 22, header: 23, first: 24 } as const;
/** Letters of what the fill stores for each tariff. */
export const STORED = { leastCost: 'O', fingerprint: 'P', computedAt: 'Q' } as const;
/** Row of a tariff (from 0) in that table. */
export function batteryResultRow(tariff: number): number {
  return BATTERY_RESULTS.first + tariff;
}

/** Rows of the table of what energy really cost, month by month. */
export const REAL_COST = { heading: 32, tariff: 33, header: 34, first: 35 } as const;

/** Rows and letters of the sizing table; the fill stores all but price and payback. */
export const SIZING = {
  heading: 53,
  status: 54,
  header: 56,
  first: 57,
  size: 'B',
  ruleCost: 'C',
  leastCost: 'D',
  cycles: 'E',
  fingerprint: 'H54',
  liveFingerprint: 'I54',
  computedAt: 'E54',
} as const;
