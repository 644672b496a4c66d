import { describe, expect, test } from 'vitest';
import type { ImportOptions } from '../../src/readings/index.js';
import { importText, messageOf, utcTexts } from './import-text.js';

const DAY = '2026-01-25';
const STARTS = ['22:30', '23:00', '23:30'];
const stampsOf = (lines: string[], options: Partial<ImportOptions> = {}): string[] =>
  utcTexts(importText(lines, options).readings.startUtcMs);
const EXPECTED = STARTS.map((time) => `${DAY}T${time}`);
const withEnds = (ends: readonly string[]): string[] => [
  'start,end,import kWh',
  ...STARTS.map((time, i) => `${DAY} ${time},${ends[i]},0.${i + 1}`),
];

describe('the end of a line', () => {
  test('at midnight may be written under the date that it ends', () => {
    expect(stampsOf(withEnds([`${DAY} 23:00`, `${DAY} 23:30`, `${DAY} 00:00`]))).toEqual(EXPECTED);
  });

  test('of the last interval, still open, may come early; of any other not', () => {
    const open = withEnds([`${DAY} 23:00`, `${DAY} 23:30`, `${DAY} 23:40`]);
    expect(stampsOf(open)).toEqual(EXPECTED);
    expect(stampsOf([open[0]!, ...open.slice(1).reverse()])).toEqual(EXPECTED);
    const early = withEnds([`${DAY} 23:00`, `${DAY} 23:10`, '2026-01-26 00:00']);
    expect(messageOf(() => importText(early))).toContain('line 3: the line runs from 2026-01-25 23:00 to');
  });

  const wrong = withEnds([`${DAY} 23:00`, `${DAY} 23:30`, '2026-01-26 00:30']);
  test.each<[string, Partial<ImportOptions>]>([
    ['the end is left out', { channels: { end: 'ignore' } }],
    ['the interval is stated', { intervalMinutes: 30 }],
  ])('does not count where %s, as the message says', (_, options) => {
    expect(messageOf(() => importText(wrong))).toMatch(/line 4: .*"end=ignore".*--interval 30\.$/);
    expect(stampsOf(wrong, options)).toEqual(EXPECTED);
  });

  test('in a column of times does not count where it is left out', () => {
    const lines = ['date,from,to,import kWh', ...STARTS.map((time) => `${DAY},${time},${time},0.1`)];
    expect(stampsOf(lines, { channels: { to: 'ignore' } })).toEqual(EXPECTED);
  });

  test('a line of another length is read in a file by itself, as the message says', () => {
    expect(stampsOf([wrong[0]!, wrong[3]!])).toEqual([`${DAY}T23:30`, '2026-01-26T00:00']);
  });
});

describe('an end beyond all years', () => {
  const openEnd = (header: string): string[] => [
    header,
    ...STARTS.map((time, i) => {
      const end = ['23:00:00Z', '23:30:00Z'][i];
      return `${DAY}T${time}:00Z,${end === undefined ? '9999-12-31T23:59:59Z' : `${DAY}T${end}`},12.${i}`;
    }),
  ];

  test('leaves a price open', () => {
    const lines = openEnd('valid_from,valid_to,price p/kWh');
    expect(stampsOf(lines)).toEqual(EXPECTED);
    const before = lines.map((line) => line.replace('9999-12-31', '1026-01-26'));
    expect(messageOf(() => importText(before))).toContain(
      'line 4: the line runs from 2026-01-25 23:30 to 1026-',
    );
  });

  test('is a slip beside energy', () => {
    expect(messageOf(() => importText(openEnd('from,to,import kWh')))).toBe(
      'InputError: readings.csv, line 4: "9999-12-31T23:59:59Z" is outside the years 1990 to 2099. Correct the date.',
    );
  });
});
