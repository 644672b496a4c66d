import { describe, expect, it } from 'vitest';
import { sampleFacts } from '../../src/sample/sample-facts.js';
import { sampleExtraMonthFiles, sampleFiles, sampleGasFiles } from '../../src/sample/sample-files.js';
import { sampleYear } from '../../src/sample/sample-year.js';

const files = [...sampleFiles(), ...sampleGasFiles(), ...sampleExtraMonthFiles()];
const facts = sampleFacts();

const textOf = (name: string): string => {
  const file = files.find((f) => f.name === name);
  if (file === undefined) throw new Error(`no sample file ${name}`);
  return file.text;
};
const rowsOf = (name: string): string[] => textOf(name).trimEnd().split(/\r?\n/);

describe('the files of the sample home', () => {
  it('are the same every time, each with a name of its own', () => {
    expect([...sampleFiles(), ...sampleGasFiles(), ...sampleExtraMonthFiles()]).toEqual(files);
    const names = files.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });

  it('have the meter in four quarters, the repeated hour of autumn told apart by its offset', () => {
    const quarters = ['meter-2025-q4.csv', 'meter-2026-q1.csv', 'meter-2026-q2.csv', 'meter-2026-q3.csv'];
    expect(quarters.map((name) => rowsOf(name).length - 1)).toEqual([4_418, 4_318, 4_368, 4_416]);
    const repeated = rowsOf('meter-2025-q4.csv').filter((row) => row.startsWith('2025-10-26T01:30'));
    expect(repeated.map((row) => row.slice(19, 25))).toEqual(['+01:00', '+00:00']);
    const imported = quarters
      .flatMap((name) => rowsOf(name).slice(1))
      .reduce((sum, row) => sum + Number(row.split(',')[1]), 0);
    expect(imported).toBeCloseTo(facts.yearKwh.importKwh, 6);
  });

  it('have the heat pump in a row a day: 48 values, 50 in October, 46 in March', () => {
    const counts = rowsOf('heat-pump-heat-output.csv')
      .slice(1)
      .map((row) => [row.slice(0, 11), row.split(',').filter((cell) => cell !== '').length - 3] as const);
    expect(counts).toHaveLength(365);
    expect(counts.filter(([, count]) => count !== 48)).toEqual([
      ['26-Oct-2025', 50],
      ['29-Mar-2026', 46],
    ]);
  });

  it('have the car in quarter-hours stamped by their end, all the year round', () => {
    const rows = rowsOf('car-charger.tsv').slice(1);
    expect(rows).toHaveLength(35_040);
    expect(rows[0]).toBe('2025-10-01 00:15\t0.000');
    expect(rows.at(-1)).toMatch(/^2026-10-01 00:00\t/);
  });

  it('have solar and battery with decimal commas behind a byte-order mark', () => {
    expect(textOf('solar-and-battery.csv').charCodeAt(0)).toBe(0xfeff);
    const midsummerNoon = rowsOf('solar-and-battery.csv').find((row) => row.startsWith('21/06/2026 12:00'))!;
    expect(midsummerNoon).toMatch(/^21\/06\/2026 12:00;0,\d{3};\d,\d{3};\d,\d{3}$/);
  });

  it('have a price for every half-hour in UTC', () => {
    const year = sampleYear();
    const rows = rowsOf('half-hourly-price.csv').slice(1);
    expect(rows).toHaveLength(17_520);
    expect(rows[0]).toBe(`2025-09-30T23:00Z,${year.pricePence[0]!.toFixed(2)}`);
  });

  it('have a gas register that rises by what the boiler burnt', () => {
    const registers = rowsOf('gas-meter-2024-2025.csv')
      .slice(1)
      .map((row) => Number(row.split(',')[1]));
    expect(registers).toHaveLength(13);
    expect(registers.every((m3, i) => i === 0 || m3 > registers[i - 1]!)).toBe(true);
    // Gas (Calculation of Thermal Energy) Regulations 1996: m³ × 1.02264 × calorific value ÷ 3.6.
    const kwh = ((registers[12]! - registers[0]!) * 1.02264 * 39.4) / 3.6;
    expect(Math.abs(kwh - facts.gasKwh)).toBeLessThan(1.2);
  });

  it('give back the heat loss from the gas and the daily temperatures', () => {
    const days = rowsOf('daily-mean-temperature-2024-2025.csv')
      .slice(1)
      .map((row) => row.split(','));
    expect(days).toHaveLength(365);
    const readings = rowsOf('gas-meter-2024-2025.csv')
      .slice(1)
      .map((row) => row.split(','));
    const months = readings.slice(1).map(([until, register], i) => {
      const [from, previous] = readings[i]!;
      const within = days.filter(([date]) => date! >= from! && date! < until!);
      return {
        days: within.length,
        degreeDays: within.reduce((sum, [, meanC]) => sum + Math.max(0, 15.5 - Number(meanC)), 0),
        gasKwh: ((Number(register) - Number(previous)) * 1.02264 * 39.4) / 3.6,
      };
    });
    // Least squares of gas a day on degree days a day, weighted by days.
    const total = (of: (m: (typeof months)[number]) => number) => months.reduce((sum, m) => sum + of(m), 0);
    const meanX = total((m) => m.degreeDays) / 365;
    const meanY = total((m) => m.gasKwh) / 365;
    const slope =
      total((m) => m.days * (m.degreeDays / m.days - meanX) * (m.gasKwh / m.days - meanY)) /
      total((m) => m.days * (m.degreeDays / m.days - meanX) ** 2);
    expect((slope * 0.84) / 24).toBeCloseTo(0.21, 2);
    expect((meanY - slope * meanX) * 0.84).toBeGreaterThan(3.5);
    expect((meanY - slope * meanX) * 0.84).toBeLessThan(4.5);
  });

  it('have October 2026 apart, all channels in one file', () => {
    const rows = rowsOf('october-2026.csv');
    expect(rows).toHaveLength(1_491);
    expect(rows[0]!.split(',')).toHaveLength(11);
    expect(rows[1]).toMatch(/^2026-10-01T00:00:00\+01:00,/);
    expect(rows.at(-1)).toMatch(/^2026-10-31T23:30:00\+00:00,/);
  });
});
