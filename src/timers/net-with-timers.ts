import { assertColumn } from './timer.js';

/** What the grid connection sees. */
export interface NetUse {
  /** kWh of import of each half-hour. */
  importKwh: Float64Array;
  /** kWh of export of each half-hour. */
  exportKwh: Float64Array;
}

/**
 * Import and export with loads moved: the net of each half-hour changes by what the loads change. What a meter counted both
 * ways within the half-hour stays counted both ways, which is cautious: less is saved so. Half-hours without a change keep
 * their figures bit for bit. Source: the balance of the connection; the part counted both ways is an assumption.
 *
 * @param metered import and export as metered, kWh, 0 or more, one a half-hour
 * @param loads what each load took as metered and what it takes moved, kWh, 0 or more, one a half-hour
 * @returns import and export, kWh, one a half-hour; import less export changes by just what the loads changed
 * @throws InputError when lengths differ or an energy is missing or negative
 * @example netWithTimers({ importKwh: of(3.5, 0), exportKwh: of(0, 1) }, [{ loadKwh: of(3.5, 0), movedKwh: of(0, 3.5) }])
 *   // import 0 and 2.5, export 0 and 0
 */
export function netWithTimers(
  metered: NetUse,
  loads: readonly { loadKwh: Float64Array; movedKwh: Float64Array }[],
): NetUse {
  const count = metered.importKwh.length;
  assertColumn('importKwh', metered.importKwh, count, 0);
  assertColumn('exportKwh', metered.exportKwh, count, 0);
  for (const { loadKwh, movedKwh } of loads) {
    assertColumn('loadKwh', loadKwh, count, 0);
    assertColumn('movedKwh', movedKwh, count, 0);
  }
  const importKwh = metered.importKwh.slice();
  const exportKwh = metered.exportKwh.slice();
  for (let i = 0; i < count; i++) {
    const more = loads.reduce((sum, { loadKwh, movedKwh }) => sum + (movedKwh[i]! - loadKwh[i]!), 0);
    if (more === 0) continue;
    const bothWays = Math.min(importKwh[i]!, exportKwh[i]!);
    const net = importKwh[i]! - exportKwh[i]! + more;
    importKwh[i] = bothWays + Math.max(0, net);
    exportKwh[i] = bothWays + Math.max(0, -net);
  }
  return { importKwh, exportKwh };
}
