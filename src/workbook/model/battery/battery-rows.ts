import { TARIFF_COUNT } from '../../layout.js';
import type { Shape } from '../../sheets/shape.js';

/** Rows and letters of the table with a row a tariff. */
export const BATTERY_RESULTS = { heading: 22, header: 23, first: 24, last: 23 + TARIFF_COUNT } as const;
/** Letters of what the fill stores for each tariff. */
export const STORED = { leastCost: 'P', fingerprint: 'Q', computedAt: 'R' } as const;
/** Letters of the share of the best saving that the rule reaches, and of whether what the fill stored is current. */
export const REACHED = { share: 'N', status: 'O' } as const;
/** Row of a tariff (from 0) in that table. */
export function batteryResultRow(tariff: number): number {
  return BATTERY_RESULTS.first + tariff;
}

/** Rows of the table of what energy really cost, month by month; a hint stands between it and the tariffs. */
export const REAL_COST = {
  heading: BATTERY_RESULTS.last + 3,
  tariff: BATTERY_RESULTS.last + 4,
  header: BATTERY_RESULTS.last + 5,
  first: BATTERY_RESULTS.last + 6,
} as const;

/** Letters of the sizing table; the fill stores all but price and payback. */
export const SIZING = { size: 'B', ruleCost: 'C', leastCost: 'D', cycles: 'E', payback: 'I' } as const;

/**
 * Rows and single cells of the sizing table, which stands below the months.
 *
 * @param shape how much the workbook holds
 */
export function sizingRows({ monthRows }: Pick<Shape, 'monthRows'>): {
  heading: number;
  status: number;
  header: number;
  first: number;
  fingerprint: string;
  liveFingerprint: string;
  computedAt: string;
} {
  const heading = REAL_COST.first + monthRows + 3;
  const status = heading + 1;
  return {
    heading,
    status,
    header: heading + 3,
    first: heading + 4,
    // Beside those of the tariffs, right of all that is to be read.
    fingerprint: `${STORED.fingerprint}${status}`,
    liveFingerprint: `${STORED.computedAt}${status}`,
    computedAt: `E${status}`,
  };
}
