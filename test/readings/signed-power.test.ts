import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ChannelName, ImportOptions } from '../../src/readings/index.js';
import { importText, messageOf } from './import-text.js';

const at = (i: number, minutes = 30): string =>
  new Date(Date.UTC(2026, 0, 25) + i * minutes * 60_000).toISOString().slice(0, 16);
const file = (header: string, values: readonly number[], minutes = 30): string[] => [
  `start (UTC),${header}`,
  ...values.map((value, i) => `${at(i, minutes)},${value}`),
];
const read = (lines: readonly string[], options: Partial<ImportOptions> = {}) =>
  importText(lines, options, 'power.csv');
const POWER = [1500, -800, 0, -700, 400, -60];
const kWh = (watts: readonly number[]): number[] => watts.map((value) => (value * 0.001) / 2);

describe('a column of power with a sign', () => {
  const above = kWh(POWER.map((value) => Math.max(0, value)));
  const below = kWh(POWER.map((value) => Math.max(0, -value)));

  test.each<[ChannelName, string, string]>([
    ['batteryNetKwh', 'batteryInKwh', 'batteryOutKwh'],
    ['batteryNetOutKwh', 'batteryOutKwh', 'batteryInKwh'],
    ['gridNetKwh', 'importKwh', 'exportKwh'],
    ['gridNetExportKwh', 'exportKwh', 'importKwh'],
  ])('%s: above nought is %s, below is %s', (channel, plus, minus) => {
    for (const options of [{ channels: { 'power (W)': channel } }, { defaultChannel: channel }]) {
      const { readings, report } = read(file('power (W)', POWER), options);
      const channels = readings.channels as Record<string, Float64Array>;
      expect(Object.keys(channels).sort()).toEqual([plus, minus].sort());
      expect(Array.from(channels[plus]!)).toEqual(above);
      expect(Array.from(channels[minus]!)).toEqual(below);
      expect(report.files[0]?.assumptions).toContain(
        `"power (W)" is ${plus} above nought and ${minus} below; what flowed both ways within one interval cancels out`,
      );
      expect(report.files[0]?.findings).toEqual([]);
    }
  });

  test('both directions of one half-hour are kept where intervals are shorter', () => {
    const { readings } = read(file('battery power (kW)', [6, -6, 0, 0, 0, 0], 5), {
      defaultChannel: 'batteryNetKwh',
    });
    expect(readings.channels.batteryInKwh![0]).toBeCloseTo(0.5, 12);
    expect(readings.channels.batteryOutKwh![0]).toBeCloseTo(0.5, 12);
  });

  test('above less below is what the file says, whatever the values', () => {
    const values = fc.array(fc.integer({ min: -9000, max: 9000 }), { minLength: 2, maxLength: 40 });
    fc.assert(
      fc.property(values, (watts) => {
        const { channels } = read(file('power (W)', watts), { defaultChannel: 'gridNetKwh' }).readings;
        watts.forEach((value, i) => {
          const both = [channels.importKwh![i]!, channels.exportKwh![i]!];
          expect(both[0]! - both[1]!).toBeCloseTo(value / 2000, 12);
          expect(Math.min(...both)).toBe(0);
        });
      }),
      { numRuns: 60, seed: 3 },
    );
  });

  test('in lines of a day each', () => {
    const day = Array.from({ length: 48 }, (_, i) => (i % 2 === 0 ? 0.5 : -0.25));
    const { readings } = read(
      ['2026-01-25', '2026-01-26'].map((date) => `${date},${day.join(',')}`),
      {
        defaultChannel: 'gridNetKwh',
      },
    );
    expect(readings.channels.importKwh!.slice(0, 2)).toEqual(Float64Array.of(0.5, 0));
    expect(readings.channels.exportKwh!.slice(0, 2)).toEqual(Float64Array.of(0, 0.25));
  });

  test.each<[string, string, readonly number[], string]>([
    [
      'a battery with both signs',
      'battery power (W)',
      POWER,
      '"battery power (W)" holds values above and below nought, and does not say which way the battery charges. Say it: --channel "battery power (W)=batteryNetKwh" where it charges above nought, --channel "battery power (W)=batteryNetOutKwh" where it charges below.',
    ],
    [
      'a battery without a direction',
      'battery kWh',
      [1, 0.2, 0, 1],
      '"battery kWh" does not say whether it is what went into the battery or came out of it. Say it: --channel "battery kWh=batteryInKwh" or --channel "battery kWh=batteryOutKwh".',
    ],
    [
      'a grid with both signs',
      'grid power (W)',
      POWER,
      '"grid power (W)" holds 3 values below nought, and nothing says whether those are export. Say it: --channel "grid power (W)=gridNetKwh" where export is below nought, --channel "grid power (W)=gridNetExportKwh" where import is, or --channel "grid power (W)=importKwh" to keep them as they are.',
    ],
  ])('%s is asked about, not taken for the import', (_, header, values, says) => {
    expect(messageOf(() => read(file(header, values)))).toContain(says);
  });

  test('beside other columns, a battery with both signs is asked about, its level is not', () => {
    const lines = file('import kWh,battery W,battery level %', [1, 2, 3]).map((line, i) =>
      i === 0 ? line : `${line},${i % 2 === 0 ? -5 : 5},80`,
    );
    expect(messageOf(() => read(lines))).toContain('"battery W" holds values above and below nought');
    const { readings } = read(lines, { channels: { 'battery W': 'batteryNetKwh' } });
    expect(Object.keys(readings.channels)).toEqual(['importKwh', 'batteryInKwh', 'batteryOutKwh']);
  });

  test('a second column of one direction is refused', () => {
    const lines = file('battery W,battery out kWh', [1, -2, 3]).map((line, i) =>
      i === 0 ? line : `${line},0.1`,
    );
    expect(messageOf(() => read(lines, { channels: { 'battery W': 'batteryNetKwh' } }))).toContain(
      '"battery W" holds batteryOutKwh too, and so does "battery out kWh". Leave one of them out: --channel "battery W=ignore".',
    );
  });

  test('a meter that is named keeps its corrections below nought', () => {
    const { readings } = read(file('import kWh', [1, -0.1, -0.2, 1]));
    expect(Array.from(readings.channels.importKwh!)).toEqual([1, -0.1, -0.2, 1]);
  });
});
