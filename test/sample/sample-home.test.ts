import { describe, expect, it } from 'vitest';
import { CHANNELS } from '../../src/readings/channels.js';
import { SAMPLE_HOME } from '../../src/sample/home.js';
import { sampleFacts } from '../../src/sample/sample-facts.js';
import { sampleExtraMonth, sampleYear } from '../../src/sample/sample-year.js';
import type { SampleYear } from '../../src/sample/simulate-home.js';

const ENERGY_CHANNELS = CHANNELS.filter((name) => name.endsWith('Kwh'));
const wattHours = (kwh: number): number => Math.round(kwh * 1000);
const localDay = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/London', dateStyle: 'short' });
const localTime = new Intl.DateTimeFormat('en-GB', { timeZone: 'Europe/London', timeStyle: 'short' });

/** Indices at which a law is broken. */
function breaches(readings: SampleYear, holds: (i: number) => boolean): number[] {
  return Array.from(readings.startUtcMs.keys()).filter((i) => !holds(i));
}

describe('the sample home', () => {
  const year = sampleYear();
  const extraMonth = sampleExtraMonth();
  const facts = sampleFacts();

  it('is the same every time', () => {
    expect(sampleYear()).toEqual(year);
    expect(sampleFacts()).toEqual(facts);
  });

  it('runs half-hour by half-hour from local midnight to local midnight, the extra month following the year', () => {
    expect(new Date(year.startUtcMs[0]!).toISOString()).toBe('2025-09-30T23:00:00.000Z');
    expect(year.startUtcMs).toHaveLength(17_520);
    expect(extraMonth.startUtcMs).toHaveLength(1_490);
    const all = [...year.startUtcMs, ...extraMonth.startUtcMs];
    expect(all.every((utcMs, i) => i === 0 || utcMs - all[i - 1]! === 1_800_000)).toBe(true);
    expect(new Date(all.at(-1)!).toISOString()).toBe('2026-10-31T23:30:00.000Z');
    for (const name of CHANNELS) {
      expect(year[name]).toHaveLength(17_520);
      expect(year[name].every(Number.isFinite)).toBe(true);
    }
  });

  it('has a day of 50 and a day of 46 half-hours', () => {
    const halfHours = new Map<string, number>();
    for (const utcMs of year.startUtcMs) {
      const day = localDay.format(utcMs);
      halfHours.set(day, (halfHours.get(day) ?? 0) + 1);
    }
    expect(halfHours.size).toBe(365);
    expect([...halfHours].filter(([, count]) => count !== 48)).toEqual([
      ['2025-10-26', 50],
      ['2026-03-29', 46],
    ]);
  });

  it('balances at the meter in every half-hour, to the watt-hour', () => {
    for (const readings of [year, extraMonth]) {
      const wh = (name: (typeof ENERGY_CHANNELS)[number] | 'householdKwh', i: number) =>
        wattHours(readings[name][i]!);
      const unbalanced = breaches(
        readings,
        (i) =>
          wh('importKwh', i) - wh('exportKwh', i) ===
          wh('householdKwh', i) +
            wh('heatPumpKwh', i) +
            wh('carKwh', i) +
            wh('batteryInKwh', i) -
            wh('batteryOutKwh', i) -
            wh('solarKwh', i),
      );
      expect(unbalanced).toEqual([]);
    }
  });

  it('is metered to 0.001 kWh, 0.1 °C and 0.01 p, with no energy below zero', () => {
    for (const name of ENERGY_CHANNELS) {
      expect(
        breaches(year, (i) => year[name][i]! >= 0 && wattHours(year[name][i]!) / 1000 === year[name][i]),
      ).toEqual([]);
    }
    expect(breaches(year, (i) => Number(year.outdoorC[i]!.toFixed(1)) === year.outdoorC[i])).toEqual([]);
    expect(breaches(year, (i) => Number(year.pricePence[i]!.toFixed(2)) === year.pricePence[i])).toEqual([]);
  });

  it('runs its battery within capacity and power, and never both ways at once', () => {
    const { usableKwh, chargeKw, dischargeKw, chargeEfficiency, dischargeEfficiency } = SAMPLE_HOME.battery;
    let levelKwh: number = SAMPLE_HOME.battery.startLevelKwh;
    const wrong = breaches(year, (i) => {
      const [inKwh, outKwh] = [year.batteryInKwh[i]!, year.batteryOutKwh[i]!];
      levelKwh += inKwh * chargeEfficiency - outKwh / dischargeEfficiency;
      const levelFits = levelKwh > -1e-6 && levelKwh < usableKwh + 1e-6;
      return levelFits && inKwh * 2 <= chargeKw && outKwh * 2 <= dischargeKw && inKwh * outKwh === 0;
    });
    expect(wrong).toEqual([]);
    const out = breaches(
      year,
      (i) => !['2026-02-03', '2026-02-04'].includes(localDay.format(year.startUtcMs[i]!)),
    );
    expect(out).toHaveLength(96);
    expect(out.every((i) => year.batteryInKwh[i] === 0 && year.batteryOutKwh[i] === 0)).toBe(true);
  });

  it('charges the car by night on some days, and not while the family is away', () => {
    const charging = breaches(year, (i) => year.carKwh[i] === 0);
    const byNight = charging.filter((i) => {
      const time = localTime.format(year.startUtcMs[i]!);
      return time >= '01:30' && time < '05:00';
    });
    expect(byNight.length / charging.length).toBeGreaterThan(0.9);
    const days = new Set(charging.map((i) => localDay.format(year.startUtcMs[i]!)));
    expect(days.size).toBeGreaterThan(120);
    expect(days.size).toBeLessThan(250);
    expect([...days].filter((day) => day >= '2026-08-08' && day < '2026-08-16')).toEqual([]);
  });

  it('uses what such a home would in a year', () => {
    const between = (value: number, low: number, high: number) => {
      expect(value).toBeGreaterThan(low);
      expect(value).toBeLessThan(high);
    };
    expect(facts.yearKwh.householdKwh).toBeCloseTo(2_900, 1);
    between(facts.yearKwh.carKwh, 2_700, 2_900);
    between(facts.yearKwh.solarKwh, 2_300, 2_700);
    between(facts.yearKwh.exportKwh, 300, 1_000);
    between(facts.cop, 3.3, 4);
    between(facts.nightShareOfImport, 0.6, 0.85);
    between(facts.degreeDays, 1_900, 2_300);
    between(facts.degreeDaysOnGas, 1_900, 2_300);
    between(facts.meanPricePence, 17, 22);
    between(facts.negativePriceHalfHours, 20, 100);
  });

  it('needs the heat that its heat loss and the degree days call for, in both years', () => {
    const expectedKwh = (degreeDays: number) => 0.21 * 24 * degreeDays + 4 * 365;
    expect(Math.abs(facts.yearKwh.heatOutputKwh / expectedKwh(facts.degreeDays) - 1)).toBeLessThan(0.01);
    expect(Math.abs(facts.heatOnGasKwh / expectedKwh(facts.degreeDaysOnGas) - 1)).toBeLessThan(0.01);
    expect(facts.gasKwh * facts.boilerEfficiency).toBeCloseTo(facts.heatOnGasKwh, 6);
  });

  it('pays most in the evening and least in wind and by night', () => {
    const meanAt = (from: string, until: string) => {
      const within = breaches(year, (i) => {
        const time = localTime.format(year.startUtcMs[i]!);
        return time < from || time >= until;
      });
      return within.reduce((sum, i) => sum + year.pricePence[i]!, 0) / within.length;
    };
    expect(meanAt('16:30', '19:30')).toBeGreaterThan(1.5 * facts.meanPricePence);
    expect(meanAt('01:30', '05:00')).toBeLessThan(0.9 * facts.meanPricePence);
  });
});
