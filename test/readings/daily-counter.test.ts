import { describe, expect, test } from 'vitest';
import { importGasFiles } from '../../src/readings/index.js';
import { importText, messageOf } from './import-text.js';

/** Solar energy of a half-hour: as a bell from 08:00 to 16:00. */
const energy = (slot: number): number =>
  slot < 16 || slot >= 32 ? 0 : 0.02 * (1 + Math.min(slot - 15, 32 - slot));
const DAYS = 4;
const stamp = (i: number): string =>
  new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16).replace('T', ' ');

/** Reads of a counter of the day at each half-hour; the read at midnight shows the day that ends, or the new one. */
function reads(atMidnight: 'day that ends' | 'new day'): string[] {
  let counter = 0;
  return Array.from({ length: DAYS * 48 + 1 }, (_, i) => {
    if (i > 0) counter += energy((i - 1) % 48);
    const before = counter;
    if (i % 48 === 0) counter = 0;
    return `${stamp(i)},${(atMidnight === 'new day' ? counter : before).toFixed(3)}`;
  });
}
const TOTAL = DAYS * Array.from({ length: 48 }, (_, slot) => energy(slot)).reduce((a, b) => a + b);

describe('a counter that restarts each midnight', () => {
  const lines = ['time,Solar today kWh', ...reads('day that ends')];
  test('is asked about, and never taken for energy of half-hours', () => {
    const says =
      'InputError: readings.csv, line 1: "Solar today kWh" rises through each day and starts again, like a counter of the day. Say what it is: --register daily or --register no.';
    expect(messageOf(() => importText(lines))).toBe(says);
    expect(messageOf(() => importText([lines[0]!, ...lines.slice(1).reverse()]))).toBe(says);
    expect(messageOf(() => importText(lines.slice(0, 80)))).toBe(says);
  });
  test('read at midnight before it restarts gives all half-hours', () => {
    const { readings, report } = importText(lines, { register: 'daily' });
    const solar = Array.from(readings.channels.solarKwh!);
    expect(solar.length).toBe(DAYS * 48);
    solar.forEach((kwh, i) => {
      expect(kwh).toBeCloseTo(energy(i % 48), 9);
    });
    expect(report.files[0]!.findings).toEqual([]);
    expect(report.files[0]!.columns.at(-1)!.meaning).toBe('solarKwh, counter that restarts each day');
  });
  test('read at midnight after it restarted lacks the last half-hour of each day, and says so', () => {
    const { readings, report } = importText(['time,Solar today kWh', ...reads('new day')], {
      register: 'daily',
    });
    const solar = readings.channels.solarKwh!;
    expect(solar.length).toBe(DAYS * 48 - DAYS);
    expect(solar.reduce((a, b) => a + b)).toBeCloseTo(TOTAL, 9);
    expect(report.files[0]!.findings.find(({ kind }) => kind === 'register restarted')).toMatchObject({
      count: DAYS,
    });
  });
  test('nothing that comes by the month is a counter of the day', () => {
    const months = [10, 72, 132, 180, 210, 225, 233, 3, 30, 41].map(
      (value, i) => `${new Date(Date.UTC(2025, i, 1)).toISOString().slice(0, 10)},${value}`,
    );
    const bytes = Buffer.from(['Date,Gas (m3)', ...months].join('\n'));
    const call = () => importGasFiles([{ name: 'gas.csv', bytes }], { timeZone: 'Europe/London' });
    expect(messageOf(call)).not.toContain('counter of the day');
  });
  test('energy of half-hours is not asked about', () => {
    const sunny = Array.from({ length: DAYS * 48 }, (_, i) => `${stamp(i)},${energy(i % 48).toFixed(3)}`);
    expect(importText(['start,Solar kWh', ...sunny]).readings.startUtcMs.length).toBe(DAYS * 48);
  });
});
