import { assertColumn } from './timer.js';

/** What the grid connection sees. */
export interface NetUse {
  /** kWh of import of each half-hour. */
  importKwh: Float64Array;
  /** kWh of export of each half-hour. */
  exportKwh: Float64Array;
}

/**
 * Import and export with loads moved. A load that comes to a half-hour takes the surplus that was exported, then import;
 * one that leaves frees import, then adds to export. Half-hours without a change keep their figures bit for bit.
 * Source: the balance of the connection; arithmetic.
 *
 * @param net import and export as metered, kWh
 * @param loads what each load took as metered and what it takes moved, kWh of each half-hour
 * @returns import and export, kWh; import less export changes by just what the loads changed
 * @throws InputError when lengths differ or an energy is missing or negative
 * @example netWithTimers({ importKwh: of(3.5, 0), exportKwh: of(0, 1) }, [{ loadKwh: of(3.5, 0), movedKwh: of(0, 3.5) }])
 *   // import 0 and 2.5, export 0 and 0
 */
export function netWithTimers(
  net: NetUse,
  loads: readonly { loadKwh: Float64Array; movedKwh: Float64Array }[],
): NetUse {
  const count = net.importKwh.length;
  assertColumn('importKwh', net.importKwh, count, 0);
  assertColumn('exportKwh', net.exportKwh, count, 0);
  for (const { loadKwh, movedKwh } of loads) {
    assertColumn('loadKwh', loadKwh, count, 0);
    assertColumn('movedKwh', movedKwh, count, 0);
  }
  const importKwh = net.importKwh.slice();
  const exportKwh = net.exportKwh.slice();
  for (let i = 0; i < count; i++) {
    const more = loads.reduce((sum, { loadKwh, movedKwh }) => sum + (movedKwh[i]! - loadKwh[i]!), 0);
    if (more === 0) continue;
    const kept = more > 0 ? exportKwh : importKwh;
    const grown = more > 0 ? importKwh : exportKwh;
    const taken = Math.min(Math.abs(more), kept[i]!);
    kept[i]! -= taken;
    grown[i]! += Math.abs(more) - taken;
  }
  return { importKwh, exportKwh };
}
