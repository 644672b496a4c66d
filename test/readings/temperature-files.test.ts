import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { formatImportReport, type ImportOptions, importTemperatureFiles } from '../../src/readings/index.js';
import { isoDateToSerial } from '../../src/time/serial.js';
import { messageOf } from './import-text.js';

const importTemperature = (lines: string[], options: Partial<ImportOptions> = {}) =>
  importTemperatureFiles([{ name: 'weather.csv', bytes: Buffer.from(`${lines.join('\n')}\n`) }], {
    timeZone: 'Europe/London',
    ...options,
  });
const day = isoDateToSerial('2026-01-25');

describe('daily temperatures', () => {
  test.each<[string, string[]]>([
    [
      'mean, maximum and minimum',
      ['Date,Mean temp °C,Max temp °C,Min temp °C', '2026-01-25,5,8,2', '2026-01-26,6,9,3'],
    ],
    ['other names and order', ['day;tmin;tavg;tmax;rain', '25/01/2026;2;5;8;0,5', '26/01/2026;3;6;9;0']],
    [
      'a remark beyond the header',
      ['Date,Mean °C,Max °C,Min °C', '2026-01-25,5,8,2', '2026-01-26,6,9,3,snow'],
    ],
    ['°F', ['Date,Mean (°F),High (°F),Low (°F)', '1/25/2026,41,46.4,35.6', '1/26/2026,42.8,48.2,37.4']],
  ])('%s', (_, lines) => {
    const { daily, halfHourly } = importTemperature(lines);
    expect(halfHourly).toBeUndefined();
    expect(daily.length).toBe(2);
    expect(daily[0]!.serialDay).toBe(day);
    expect(daily[0]!.meanC).toBeCloseTo(5, 9);
    expect(daily[0]!.maxC).toBeCloseTo(8, 9);
    expect(daily[0]!.minC).toBeCloseTo(2, 9);
  });

  test('maximum and minimum alone; mean alone', () => {
    expect(importTemperature(['Date,Max °C,Min °C', '2026-01-25,8,2', '2026-01-26,9,3']).daily[0]).toEqual({
      serialDay: day,
      maxC: 8,
      minC: 2,
    });
    expect(importTemperature(['Date,Temperature °C', '2026-01-25,5', '2026-01-26,6']).daily[0]).toEqual({
      serialDay: day,
      meanC: 5,
    });
  });

  test('two files of one place are set side by side', () => {
    const file = (name: string, lines: string[]) => ({ name, bytes: Buffer.from(lines.join('\n')) });
    const { daily } = importTemperatureFiles(
      [
        file('max.csv', ['Date,Max °C', '2026-01-25,8', '2026-01-26,9']),
        file('min.csv', ['Date,Min °C', '2026-01-26,3', '2026-01-27,1']),
      ],
      { timeZone: 'Europe/London' },
    );
    expect(daily).toEqual([
      { serialDay: day, maxC: 8 },
      { serialDay: day + 1, maxC: 9, minC: 3 },
      { serialDay: day + 2, minC: 1 },
    ]);
  });

  test('missing days and values out of the ordinary are told with their lines', () => {
    const { report } = importTemperature(['Date,Mean °C', '2026-01-25,5', '2026-01-28,99', '2026-01-29,4']);
    expect(report.files[0]!.findings).toMatchObject([
      {
        kind: 'missing day',
        count: 2,
        places: [{ line: 2, text: '2026-01-26 to 2026-01-27, 2 after this line' }],
      },
      { kind: 'outlier', count: 1, places: [{ line: 3, text: '2026-01-28: 99 °C' }] },
    ]);
    expect(formatImportReport(report)).toContain('days      2026-01-25 to 2026-01-29, 3 days');
  });

  test('real weather: Seattle 2012 to 2015 (NOAA, in the npm package vega-datasets)', () => {
    const path = new URL('../../node_modules/vega-datasets/data/seattle-weather.csv', import.meta.url);
    const { daily, report } = importTemperatureFiles(
      [{ name: 'seattle-weather.csv', bytes: readFileSync(path) }],
      {
        timeZone: 'America/Los_Angeles',
      },
    );
    expect(daily.length).toBe(1461);
    expect(daily[0]).toEqual({ serialDay: isoDateToSerial('2012-01-01'), maxC: 12.8, minC: 5 });
    expect(report.files[0]!.unusedColumns).toEqual(['"precipitation"', '"wind"', '"weather"']);
  });
});

describe('temperatures through the day', () => {
  const hours = (n: number, value: (h: number) => string, first = Date.UTC(2026, 0, 25)): string[] =>
    Array.from({ length: n }, (_, h) => `${new Date(first + h * 3_600_000).toISOString()},${value(h)}`);

  test('hours are held for both half-hours; a whole day has its mean, maximum and minimum', () => {
    const { daily, halfHourly } = importTemperature(['time,temp °C', ...hours(30, (h) => String(h % 24))]);
    expect(Array.from(halfHourly!.outdoorC.slice(0, 4))).toEqual([0, 0, 1, 1]);
    // The second day has six hours only: no day is made of them.
    expect(daily).toEqual([{ serialDay: day, meanC: 11.5, maxC: 23, minC: 0 }]);
  });

  test('a spring day of 23 hours is whole', () => {
    const { daily } = importTemperature(['time,temp °C', ...hours(23, () => '7', Date.UTC(2026, 2, 29))]);
    expect(daily).toEqual([{ serialDay: isoDateToSerial('2026-03-29'), meanC: 7, maxC: 7, minC: 7 }]);
  });
});

describe('what could mean two things, and what is wrong', () => {
  test.each<[string, string[], string]>([
    [
      '°F that nothing states',
      ['Date,Temperature', '2026-07-25,68', '2026-07-26,70', '2026-07-27,71', '2026-07-28,66'],
      'weather.csv, line 1: no unit is stated for meanC, and half of its values are 70 or more, which cannot be degC. Say the unit: --unit degF (or --unit degC if it is so).',
    ],
    [
      'columns changed about',
      ['Date,Max °C,Min °C', '2026-01-25,2,8', '2026-01-26,3,9'],
      'weather.csv: the maximum of 2026-01-25 (2) is below its minimum (8). Check which column is which: --channel COLUMN=maxC, --channel COLUMN=minC.',
    ],
    [
      'two means',
      ['Date,Mean temp A °C,Mean temp B °C', '2026-01-25,2,8', '2026-01-26,3,9'],
      'weather.csv, line 1: columns "Mean temp A °C" and "Mean temp B °C" both look like meanC. Say which one is: --channel "Mean temp A °C=meanC".',
    ],
  ])('%s', (_, lines, says) => {
    expect(messageOf(() => importTemperature(lines))).toBe(`InputError: ${says}`);
  });
});
