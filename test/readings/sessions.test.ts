import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatImportReport, type ImportOptions } from '../../src/readings/index.js';
import { importText, messageOf, utcTexts } from './import-text.js';

const HEADER = 'Start,End,Energy (kWh)';
const LIST = ['2026-01-05 22:10,2026-01-05 23:10,6', '2026-01-06 01:00,2026-01-06 03:00,8'];
const read = (
  lines: readonly string[],
  options: Partial<ImportOptions> = {},
  name = 'charging sessions.csv',
) => importText(lines, options, name);

describe("a charger's list of sessions", () => {
  test('is spread evenly over its half-hours, with nought between sessions, and says so', () => {
    const { readings, report } = read([HEADER, ...LIST]);
    expect(utcTexts(readings.startUtcMs)[0]).toBe('2026-01-05T22:00');
    expect(Array.from(readings.channels.carKwh!)).toEqual([2, 3, 1, 0, 0, 0, 2, 2, 2, 2]);
    expect(formatImportReport(report)).toContain(
      [
        '  stamps    local time of Europe/London; start and end of the session; dates',
        '            year first, or month named',
        '  interval  sessions of 60 to 120 minutes, each spread evenly over its',
        '            half-hours',
      ].join('\n'),
    );
    expect(report.files[0]?.assumptions).toEqual([
      'nothing was used between the first and the last session but in them',
      '"Energy (kWh)" is carKwh, as the file lists sessions of charging (--default-channel says otherwise)',
    ]);
    expect(report.files[0]?.findings).toEqual([]);
  });

  test.each<[string, string, Partial<ImportOptions>, string]>([
    ['by its headers', 'Session start,Session end,kWh', {}, 'list.csv'],
    ['by the name of its column', 'Start,End,EV charge (kWh)', {}, 'list.csv'],
    ['by a title', 'Charger in the drive,,', {}, 'list.csv'],
    ['by the word of the user', HEADER, { defaultChannel: 'carKwh' }, 'list.csv'],
  ])('is known %s', (what, header, options, name) => {
    const lines = what === 'by a title' ? [header, 'Start,End,kWh', ...LIST] : [header, ...LIST];
    const { readings } = read(lines, options, name);
    expect(Object.keys(readings.channels)).toEqual(['carKwh']);
    expect(readings.channels.carKwh!.reduce((a, b) => a + b)).toBeCloseTo(14, 12);
  });

  test('is asked about where nothing says of what it is', () => {
    expect(messageOf(() => read([HEADER, ...LIST], {}, 'list.csv'))).toBe(
      'InputError: list.csv, line 2: the lines last from 60 to 120 minutes, like sessions of a charger, and nothing says of what. Say it: --default-channel carKwh spreads each evenly over its half-hours. If they are intervals of one length, say that: --interval 30.',
    );
  });

  test('the energy of the list is that of the half-hours, whatever the sessions', () => {
    const sessions = fc.array(
      fc.record({
        gap: fc.integer({ min: 1, max: 2000 }),
        length: fc.integer({ min: 61, max: 900 }),
        tenths: fc.integer({ min: 1, max: 700 }),
      }),
      { minLength: 1, maxLength: 30 },
    );
    fc.assert(
      fc.property(sessions, (list) => {
        let minute = 0;
        const stamp = (at: number): string =>
          new Date(Date.UTC(2026, 2, 20) + at * 60_000).toISOString().slice(0, 16);
        const lines = list.map(({ gap, length, tenths }) => {
          const from = minute + gap;
          minute = from + length;
          return `${stamp(from)}Z,${stamp(minute)}Z,${tenths / 10}`;
        });
        const { readings } = read(['Start,End,Car kWh', ...lines]);
        const total = list.reduce((sum, { tenths }) => sum + tenths / 10, 0);
        expect(readings.channels.carKwh!.reduce((a, b) => a + b)).toBeCloseTo(total, 9);
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  test('over a change of the clock lasts as long as it did', () => {
    const { readings } = read([
      'Start,End,Car kWh',
      '2026-03-29 00:30,2026-03-29 02:30,2',
      '2026-03-30 00:15,2026-03-30 01:00,3',
    ]);
    expect(Array.from(readings.channels.carKwh!.slice(0, 2))).toEqual([1, 1]);
  });

  test('tells sessions given twice, and those that overlap', () => {
    const { readings, report } = read([HEADER, ...LIST, LIST[0]!, '2026-01-06 02:00,2026-01-06 04:30,5']);
    expect(readings.channels.carKwh!.reduce((a, b) => a + b)).toBeCloseTo(19, 12);
    expect(report.files[0]?.findings.map(({ kind, count }) => [kind, count])).toEqual([
      ['duplicate', 1],
      ['overlapping sessions', 1],
    ]);
  });

  test.each<[string, string[], string]>([
    [
      'that ends before it begins',
      [...LIST, '2026-01-07 05:00,2026-01-07 03:00,5'],
      'line 4: the session ends at 2026-01-07 03:00, and begins at 2026-01-07 05:00',
    ],
    [
      'that ends before it begins, without its energy',
      [...LIST, '2026-01-07 05:00,2026-01-07 03:00,'],
      'line 4: the session ends at 2026-01-07 03:00, and begins at 2026-01-07 05:00',
    ],
    [
      'whose energy is no number',
      [...LIST, '2026-01-07 03:00,2026-01-07 05:00,much'],
      'line 4: "much" is not a number',
    ],
    ['whose end is missing', [...LIST, '2026-01-07 03:00,,5'], 'line 4: the date is missing'],
  ])('a session %s is refused', (_, lines, message) => {
    expect(messageOf(() => read([HEADER, ...lines]))).toContain(message);
  });

  test('periods of a bill are none, nor is a file of half-hours with one wrong end', () => {
    const bills = ['2026-01-01,2026-01-31,300', '2026-02-01,2026-02-28,280'];
    expect(messageOf(() => read(['From,To,Import kWh', ...bills]))).toMatch(/holds one value every/);
    const halfHours = ['00:00,2026-01-05 00:30,1', '00:30,2026-01-05 01:00,1', '01:00,2026-01-05 02:00,1'];
    expect(
      messageOf(() => read(['Start,End,Car kWh', ...halfHours.map((line) => `2026-01-05 ${line}`)])),
    ).toMatch(
      /line 4: the line runs from 2026-01-05 01:00 to 2026-01-05 02:00, 60 minutes, in a file of 30 minutes/,
    );
  });
});
