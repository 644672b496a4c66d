import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LARGEST_GROWTH, machinePace, scaledLimitMs } from '../../scripts/lib/calc/time-limit.js';

describe('the time limit of a request to a spreadsheet program', () => {
  const cases: [loadPerCore: number, slowness: number, seconds: number, why: string][] = [
    [0, 1, 120, 'the limit itself where nothing else runs'],
    [0.5, 1, 180, 'longer by what else wants to run'],
    [1, 1, 240, 'twice with one other a core'],
    [0, 1.5, 180, 'longer on a slower machine'],
    [1, 1.5, 360, 'both together'],
    [0, 0.5, 120, 'never shorter on a quicker machine'],
    [50, 9, 480, 'never beyond what lets a hang be noticed'],
  ];
  it.each(cases)(
    'with %s others a core and %s times the work: %s s, %s',
    (loadPerCore, slowness, seconds) => {
      expect(scaledLimitMs(120_000, { loadPerCore, slowness })).toBe(seconds * 1000);
    },
  );

  it('never shrinks and never falls as load or slowness rise', () => {
    const amount = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(amount, amount, amount, amount, (load, slowness, moreLoad, moreSlowness) => {
        const limit = scaledLimitMs(1000, { loadPerCore: load, slowness });
        const more = { loadPerCore: load + moreLoad, slowness: slowness + moreSlowness };
        expect(limit).toBeGreaterThanOrEqual(1000);
        expect(scaledLimitMs(1000, more)).toBeGreaterThanOrEqual(limit);
        expect(scaledLimitMs(1000, more)).toBeLessThanOrEqual(1000 * LARGEST_GROWTH);
      }),
      { seed: 9 },
    );
  });

  it('is measured on this machine where nothing is said', () => {
    const { loadPerCore, slowness } = machinePace();
    expect(loadPerCore).toBeGreaterThanOrEqual(0);
    expect(slowness).toBeGreaterThan(0);
    expect(machinePace().slowness).toBe(slowness);
    expect(scaledLimitMs(1000)).toBeGreaterThanOrEqual(1000);
  });
});
