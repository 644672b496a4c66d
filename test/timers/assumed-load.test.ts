import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assumedLoad } from '../../src/timers/assumed-load.js';
import { hoursMask, slotOfDay } from '../../src/timers/timer.js';
import { anyHours, kwhBySession, startsFrom, weekLoad } from './random-weeks.js';

const TEA_TIME = { fromMinutes: 960, toMinutes: 1140 };

describe('a load without a meter of its own', () => {
  it('is spread over its hours as the home’s use was', () => {
    const localSerial = startsFrom('Europe/London', Date.UTC(2026, 0, 5, 15), 8);
    const metered = Float64Array.of(9, 9, 2, 0, 4, 2, 9, 9);
    const hours = { fromMinutes: 960, toMinutes: 1080 };
    const assumed = assumedLoad(localSerial, metered, { kwhPerDay: 4, hours });
    expect([...assumed.loadKwh]).toEqual([0, 0, 1, 0, 2, 1, 0, 0]);
    expect(assumed.missingKwh).toBe(0);
  });

  it('says for how many kWh too little was metered, but not where the readings lack the hours', () => {
    const localSerial = startsFrom('Europe/London', Date.UTC(2026, 0, 5, 16), 48);
    const assumed = assumedLoad(localSerial, new Float64Array(48).fill(0.5), {
      kwhPerDay: 4,
      hours: TEA_TIME,
    });
    expect(assumed.missingKwh).toBe(1);
    const morning = startsFrom('Europe/London', Date.UTC(2026, 0, 5, 6), 12);
    const heating = { kwhPerDay: 4, hours: TEA_TIME };
    expect(assumedLoad(morning, new Float64Array(12), heating).missingKwh).toBe(0);
  });

  it('never takes more than was metered, or than its kWh a day; only in its hours', () => {
    fc.assert(
      fc.property(weekLoad, anyHours, fc.integer({ min: 0, max: 60 }), (home, hours, tenths) => {
        const kwhPerDay = tenths / 10;
        const { localSerial, loadKwh: metered } = home;
        const { loadKwh, missingKwh } = assumedLoad(localSerial, metered, { hours, kwhPerDay });
        const mask = hoursMask(hours);
        const excess = loadKwh.map((kwh, i) => {
          const most = mask[slotOfDay(localSerial[i]!)] === 1 ? metered[i]! : 0;
          return Math.max(-kwh, kwh - most);
        });
        expect(Math.max(...excess)).toBeLessThanOrEqual(0);
        const days = [...kwhBySession(localSerial, loadKwh).values()];
        for (const kwh of days) expect(kwh).toBeLessThanOrEqual(kwhPerDay + 1e-9);
        const total = days.reduce((sum, kwh) => sum + kwh, 0);
        expect(total + missingKwh).toBeLessThanOrEqual(days.length * kwhPerDay + 1e-6);
      }),
      { seed: 13, numRuns: 100 },
    );
  });

  it('refuses kWh a day below 0', () => {
    expect(() =>
      assumedLoad(new Float64Array(0), new Float64Array(0), { kwhPerDay: -1, hours: TEA_TIME }),
    ).toThrow('kwhPerDay is -1');
  });
});
