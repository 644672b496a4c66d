import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { largestImport } from '../../src/timers/largest-import.js';
import { movedLoad } from '../../src/timers/moved-load.js';
import { netWithTimers } from '../../src/timers/net-with-timers.js';
import { anyTimer, weekLoad } from './random-weeks.js';

const of = (...values: number[]): Float64Array => Float64Array.from(values);
const energies = (count: number): fc.Arbitrary<Float64Array> =>
  fc
    .array(
      fc.integer({ min: 0, max: 5000 }).map((wh) => wh / 1000),
      { minLength: count, maxLength: count },
    )
    .map((values) => Float64Array.from(values));

describe('import and export with timers', () => {
  it('take the surplus before they import, and free import before they export', () => {
    const net = { importKwh: of(3.5, 0, 1), exportKwh: of(0, 1, 0) };
    const moved = netWithTimers(net, [{ loadKwh: of(3.5, 0, 1.5), movedKwh: of(0, 3.5, 0) }]);
    expect([...moved.importKwh]).toEqual([0, 2.5, 0]);
    expect([...moved.exportKwh]).toEqual([0, 0, 0.5]);
  });

  it('leave counted both ways what the meter counted both ways within the half-hour', () => {
    const net = { importKwh: of(0.25), exportKwh: of(1) };
    const moved = netWithTimers(net, [{ loadKwh: of(0), movedKwh: of(3.5) }]);
    expect(moved).toEqual({ importKwh: of(3), exportKwh: of(0.25) });
  });

  it('change import less export by just what the loads changed, and nothing where they changed nothing', () => {
    fc.assert(
      fc.property(
        weekLoad.chain((load) =>
          fc.tuple(fc.constant(load), energies(load.loadKwh.length), energies(load.loadKwh.length)),
        ),
        anyTimer,
        anyTimer,
        ([load, rest, exportKwh], first, second) => {
          const importKwh = load.loadKwh.map((kwh, i) => kwh + rest[i]!);
          const loads = [first, second].map((timer) => ({
            loadKwh: load.loadKwh.map((kwh) => kwh / 2),
            movedKwh: movedLoad({ ...load, loadKwh: load.loadKwh.map((kwh) => kwh / 2) }, timer).movedKwh,
          }));
          const moved = netWithTimers({ importKwh, exportKwh }, loads);
          const errors = importKwh.map((kwh, i) => {
            const more = loads.reduce((sum, each) => sum + each.movedKwh[i]! - each.loadKwh[i]!, 0);
            const change = moved.importKwh[i]! - moved.exportKwh[i]! - (kwh - exportKwh[i]!);
            return Math.abs(change - more);
          });
          expect(Math.max(...errors)).toBeLessThan(1e-9);
          expect(Math.min(...moved.importKwh, ...moved.exportKwh)).toBeGreaterThanOrEqual(0);
          const asMetered = loads.map(({ loadKwh }) => ({ loadKwh, movedKwh: loadKwh }));
          expect(netWithTimers({ importKwh, exportKwh }, asMetered)).toEqual({ importKwh, exportKwh });
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  it('refuse a column of another length', () => {
    expect(() =>
      netWithTimers({ importKwh: of(1), exportKwh: of(0) }, [{ loadKwh: of(1), movedKwh: of() }]),
    ).toThrow('movedKwh has 0 half-hours and localStart 1');
  });
});

describe('the largest import', () => {
  it('is a mean power over its half-hour, the first of equals, held to the limit of the supply', () => {
    expect(largestImport(of(1, 5, 5, 4.6), 9)).toEqual({ halfHour: 1, importKw: 10, halfHoursAboveLimit: 3 });
    expect(largestImport(of(1, 4.5), 9).halfHoursAboveLimit).toBe(0);
  });

  it('is not checked without a limit, and none without half-hours', () => {
    expect(largestImport(of(2)).halfHoursAboveLimit).toBeUndefined();
    expect(largestImport(of())).toEqual({ halfHour: -1, importKw: 0, halfHoursAboveLimit: undefined });
    expect(() => largestImport(of(2), 0)).toThrow('supplyLimitKw is 0');
  });
});
