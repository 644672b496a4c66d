import { describe, expect, test } from 'vitest';
import { type ImportOptions, importFiles } from '../../src/readings/index.js';
import { importText, messageOf, utcTexts } from './import-text.js';

const JUNE = ['2026-06-01', '2026-06-02', '2026-06-03'];
const kwhOf = (i: number): number => ((i * 7) % 13) / 100;
/** Lines of days whose intervals are numbered from 1, each with a value that tells it apart. */
const numbered = (days: readonly string[], count: number): string[] =>
  days.flatMap((day) => Array.from({ length: count }, (_, i) => `${day},${i + 1},${kwhOf(i)}`));
const imported = (lines: string[], options: Partial<ImportOptions> = {}, header = 'Date,Interval,kWh') => {
  const { readings, report } = importText([header, ...lines], options);
  return {
    starts: utcTexts(readings.startUtcMs),
    kwh: Array.from(readings.channels.importKwh!),
    file: report.files[0]!,
  };
};

describe('intervals numbered in each day', () => {
  test.each([
    [24, '60 minutes, split into two equal halves'],
    [48, '30 minutes'],
    [96, '15 minutes, summed to half-hours'],
    [288, '5 minutes, summed to half-hours'],
  ])('%i a day fill the day', (count, interval) => {
    const { starts, kwh, file } = imported(numbered(JUNE, count));
    expect(starts.length).toBe(3 * 48);
    expect([starts[0], starts.at(-1)]).toEqual(['2026-05-31T23:00', '2026-06-03T22:30']);
    const dayKwh = Array.from({ length: count }, (_, i) => kwhOf(i)).reduce((a, b) => a + b);
    expect(kwh.reduce((a, b) => a + b)).toBeCloseTo(3 * dayKwh, 9);
    expect(file.interval).toBe(interval);
    expect(file.findings).toEqual([]);
  });

  test('a length other than half-hours is said with its reason', () => {
    expect(imported(numbered(JUNE, 24)).file.assumptions).toContain(
      'the interval is 60 minutes, as "Interval" goes up to 24 (--interval says otherwise)',
    );
    expect(imported(numbered(JUNE, 48)).file.assumptions.join()).not.toContain('the interval is');
  });

  test('a stated interval is the step of the numbers', () => {
    const stated = imported(numbered(JUNE, 24), { intervalMinutes: 60 });
    expect(stated.starts).toEqual(imported(numbered(JUNE, 24)).starts);
    // Half a day of half-hours has numbers to 24 as well.
    const half = imported(numbered(JUNE.slice(0, 1), 24), { intervalMinutes: 30 });
    expect([half.starts[0], half.starts.at(-1)]).toEqual(['2026-05-31T23:00', '2026-06-01T10:30']);
  });

  test.each([
    [60, 23, 25],
    [30, 46, 50],
    [15, 92, 100],
  ])('%i minutes: days of the clock change have their own numbers', (minutes, spring, autumn) => {
    const lines = [...numbered(['2026-03-29'], spring), ...numbered(['2026-10-25'], autumn)];
    const { starts } = imported(lines);
    expect(starts.length).toBe(46 + 50);
    expect([starts[0], starts[45], starts[46], starts.at(-1)]).toEqual([
      '2026-03-29T00:00',
      '2026-03-29T22:30',
      '2026-10-24T23:00',
      '2026-10-25T23:30',
    ]);
    expect(imported(lines, { intervalMinutes: minutes }).starts).toEqual(starts);
  });

  test('hours are shown by several whole days, not by one that half-hours cut at noon would be too', () => {
    expect(imported(numbered(JUNE.slice(0, 2), 24)).file.interval).toContain('60 minutes');
    const oneDay = [...numbered(JUNE.slice(0, 1), 24), ...numbered(JUNE.slice(1), 9)];
    expect(messageOf(() => imported(oneDay))).toBe(
      'InputError: readings.csv, line 25: 24 is the highest number in "Interval", which does not show how long an interval is. Say it in minutes: --interval 30 where a day has 48, 60 where it has 24, 15 where it has 96.',
    );
  });

  test.each(['Half hour', 'half-hour', 'HalfHour', 'HALF_HOUR', 'HH', 'hh'])(
    '"%s" says half-hours',
    (name) => {
      for (const days of [JUNE.slice(0, 1), JUNE]) {
        const { starts, file } = imported(numbered(days, 24), {}, `Date,${name},kWh`);
        expect(starts.slice(0, 2)).toEqual(['2026-05-31T23:00', '2026-05-31T23:30']);
        expect(starts.length).toBe(24 * days.length);
        expect(file.assumptions.join()).not.toContain('the interval is');
      }
    },
  );

  const linesOf = (numbers: readonly number[]): string[] =>
    JUNE.flatMap((day) => numbers.map((number) => `${day},${number},${kwhOf(number)}`));
  test.each<[string, number[], string]>([
    ['the first hours of a day', [1, 2, 3, 4, 5], '2026-06-01T01:00'],
    ['hours of daylight', Array.from({ length: 20 }, (_, i) => 15 + i), '2026-06-01T15:30'],
    ['a car at night, noughts left out', [1, 2, 47, 48], '2026-06-01T22:30'],
  ])('%s are half-hours, said as assumed', (_, numbers, last) => {
    const { starts, file } = imported(linesOf(numbers));
    expect(starts[numbers.length - 1]).toBe(last);
    expect(file.assumptions).toContain(
      `the interval is 30 minutes, as the numbers in "Interval", up to ${Math.max(...numbers)}, do not show it (--interval says otherwise)`,
    );
  });

  test('the same number in each line counts no intervals', () => {
    expect(messageOf(() => imported(linesOf([30])))).toContain('30 is the highest number in "Interval"');
  });

  test.each([
    ['a number of something else', 'Date,Tariff period,Half hour,kWh', (i: number) => 1 + (i % 2)],
    ['a length', 'Date,Interval,Period,kWh', () => 30],
  ])('the numbers that count stand beside %s', (_, header, other) => {
    const lines = numbered(JUNE, 48).map((line, i) => line.replace(',', `,${other(i)},`));
    expect(imported(lines, {}, header).starts).toEqual(imported(numbered(JUNE, 48)).starts);
  });

  const file = (name: string, lines: string[]) => ({
    name,
    bytes: Buffer.from(['Date,Period,kWh', ...lines].join('\n')),
  });
  const startsOf = (...files: ReturnType<typeof file>[]): string[] =>
    utcTexts(importFiles(files, { timeZone: 'Europe/London' }).readings.startUtcMs);
  test.each([10, 20, 24])('a file cut after %i follows a whole one of the same export', (count) => {
    const [cut, whole] = [
      file('today.csv', numbered(['2026-06-02'], count)),
      file('yesterday.csv', numbered(['2026-06-01'], 48)),
    ];
    const starts = startsOf(cut, whole);
    expect(starts.length).toBe(48 + count);
    expect(starts.at(-1)).toBe(
      new Date(Date.parse('2026-06-01T22:30Z') + count * 1_800_000).toISOString().slice(0, 16),
    );
    expect(startsOf(whole, cut)).toEqual(starts);
  });

  test('files of one day of hours each show hours together', () => {
    const starts = startsOf(...JUNE.map((day) => file(`${day}.csv`, numbered([day], 24))));
    expect(starts.length).toBe(3 * 48);
  });

  test.each([
    [48, 96],
    [24, 48],
  ])('of %i a day, one mistyped as %i does not make them shorter', (count, slip) => {
    const lines = numbered(JUNE, count);
    lines[count - 1] = `2026-06-01,${slip},0.5`;
    expect(messageOf(() => imported(lines))).toContain(
      `readings.csv, line ${count + 1}: ${slip} is the highest number in "Interval", which does not show`,
    );
  });

  test('values in columns of Slot 1 to Slot 48 are no such numbers', () => {
    const header = ['Date', ...Array.from({ length: 48 }, (_, i) => `Slot ${i + 1}`), 'Unit'].join(',');
    const wh = Array.from({ length: 48 }, (_, i) => 100 + i).join(',');
    const { readings } = importText([header, ...JUNE.map((day) => `${day},${wh},Wh`)], { unit: 'Wh' });
    expect(readings.startUtcMs.length).toBe(3 * 48);
  });
});

describe('intervals numbered by a clock that never changes', () => {
  test.each<[string, string, Partial<ImportOptions>, string]>([
    ['an option', 'Date,Period,kWh', { stampZone: 'utc' }, '2026-06-01T00:00'],
    ['the header of the date', 'Date (UTC),Period,kWh', {}, '2026-06-01T00:00'],
    ['the header of the number', 'Date,Period (UTC),kWh', {}, '2026-06-01T00:00'],
    ['an offset', 'Date (UTC+10:00),Period,kWh', {}, '2026-05-31T14:00'],
  ])('%s states it', (_, header, options, first) => {
    const { starts, file } = imported(numbered(JUNE, 48), options, header);
    expect(starts[0]).toBe(first);
    expect(starts.length).toBe(3 * 48);
    expect(file.findings).toEqual([]);
  });

  test('each of its days has 48 half-hours, those of the clock change too', () => {
    const days = ['2026-03-28', '2026-03-29', '2026-03-30', '2026-10-25', '2026-10-26'];
    const { starts } = imported(numbered(days, 48), { stampZone: 'utc' });
    expect(starts).toEqual(
      days.flatMap((day) =>
        Array.from({ length: 48 }, (_, i) =>
          new Date(Date.parse(`${day}T00:00Z`) + i * 1_800_000).toISOString().slice(0, 16),
        ),
      ),
    );
    const tooMany = numbered(['2026-10-25'], 50);
    expect(messageOf(() => imported(tooMany, { stampZone: 'utc' }))).toMatch(
      /line 50: "49" is no half-hour of a day that has 48/,
    );
  });
});
