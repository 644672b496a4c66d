import { describe, expect, it } from 'vitest';
import { importFiles } from '../../src/readings/index.js';
import { importText, messageOf } from './import-text.js';
import { zipOf } from './sheet-bytes.js';

const two = (n: number): string => String(n).padStart(2, '0');
/** Lines of a day, every so many minutes. */
const day = (header: string, cells: (i: number) => string, minutes = 30): string[] => [
  header,
  ...Array.from({ length: 1440 / minutes }, (_, i) => {
    const at = i * minutes;
    return `2026-05-20 ${two(Math.floor(at / 60))}:${two(at % 60)},${cells(i)}`;
  }),
];
const value = (i: number): number => ((i * 37) % 101) + 1;

describe('files as people have them', () => {
  it('power of the grid with a sign, beside other columns, is asked about: it was left out', () => {
    const header = 'Date,Grid power (kW),Solar power (kW)';
    const signed = day(header, (i) => `${i % 3 === 0 ? '-' : ''}${value(i) / 100},${value(i + 5) / 100}`);
    expect(messageOf(() => importText(signed))).toContain(
      'Say it: --channel "Grid power (kW)=gridNetKwh" where export is below nought',
    );
    const plain = day(header, (i) => `${value(i) / 100},${value(i + 5) / 100}`);
    expect(messageOf(() => importText(plain))).toContain(
      '"Grid power (kW)" does not say whether it is what came from the grid or went to it. Say it: --channel "Grid power (kW)=importKwh"',
    );
    const options = { channels: { 'Grid power (kW)': 'gridNetKwh' } } as const;
    expect(Object.keys(importText(signed, options).readings.channels)).toEqual([
      'importKwh',
      'exportKwh',
      'solarKwh',
    ]);
    // What is no energy is no question.
    const volts = day('Date,Grid voltage (V),Solar power (kW)', (i) => `230,${value(i) / 100}`);
    expect(Object.keys(importText(volts).readings.channels)).toEqual(['solarKwh']);
  });

  it('power without a unit is not advised to be energy: that would be twelve times too much of five minutes', () => {
    const lines = day('timestamp,pv_power', (i) => String(value(i) * 9), 5);
    expect(messageOf(() => importText(lines))).toContain(
      'Say the unit: --unit W (or --unit kWh if it is so).',
    );
    const energy = day('timestamp,pv_energy', (i) => String(value(i) * 9), 5);
    expect(messageOf(() => importText(energy))).toContain('Say the unit: --unit Wh');
  });

  it('a charger that says when the car was plugged in and unplugged', () => {
    const sessions = [5, 6, 7].map(
      (d) => `2026-05-${two(d)} 22:1${d},2026-05-${two(d + 1)} 07:0${d},${d * 2}`,
    );
    const { readings } = importText(['Plugged in,Unplugged,EV energy (kWh)', ...sessions]);
    expect(readings.channels.carKwh?.reduce((a, b) => a + b)).toBeCloseTo(36, 9);
  });

  it('a word to the reader beside the readings in a zip file is told, and not read', () => {
    const bytes = zipOf({
      'README.txt': 'Thank you for your download of 2026-05-20.',
      'may.csv': `${day('start,import kWh', (i) => String(value(i) / 100)).join('\n')}\n`,
    });
    const { report } = importFiles([{ name: 'may.zip', bytes }], { timeZone: 'Europe/London' });
    expect(report.files.map(({ file }) => file)).toEqual(['may.zip/may.csv']);
    expect(report.notRead).toEqual([{ file: 'may.zip/README.txt', why: 'by its name a word to the reader' }]);
  });

  it.each(['[{"start":"2026-05-01T00:00","kwh":0.2}]', '{ "readings": [] }', '[[1,2]]'])(
    '%s is told for what it is',
    (text) => {
      expect(messageOf(() => importText(text))).toBe(
        'InputError: readings.csv: the file is JSON. Download the readings as CSV or .xlsx.',
      );
    },
  );
});
