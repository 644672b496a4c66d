import { describe, expect, test } from 'vitest';
import {
  formatImportReport,
  type ImportOptions,
  importFiles,
  importGasFiles,
} from '../../src/readings/index.js';
import { messageOf, utcTexts } from './import-text.js';

const read = (lines: readonly string[], options: Partial<ImportOptions> = {}) =>
  importFiles([{ name: 'may.csv', bytes: Buffer.from(`${lines.join('\r\n')}\r\n`) }], {
    timeZone: 'Australia/Sydney',
    ...options,
  });

/**
 * A day of the published example of a remotely read meter: AEMO, Meter Data File Format Specification NEM12 & NEM13, appendix with examples
 * of files (its register E1 of 1 March 2005).
 */
const PUBLISHED_DAY =
  '0,0,0,0,0,0,0,0,0,0,0,0,0.461,0.810,0.568,1.234,1.353,1.507,1.344,1.773,0.848,1.271,0.895,1.327,1.013,1.793,0.988,0.985,0.876,0.555,0.760,0.938,0.566,0.512,0.970,0.760,0.731,0.615,0.886,0.531,0.774,0.712,0.598,0.670,0.587,0.657,0.345,0.231';
const HEAD = '100,NEM12,200506081149,MDP1,RET1';
const register = (suffix: string, minutes = 30, unit = 'kWh', nmi = 'NEM1201009'): string =>
  `200,${nmi},E1E2B1Q1,1,${suffix},N1,01009,${unit},${minutes},20050610`;
const day = (date: string, values: string | readonly number[], quality = 'A'): string =>
  `300,${date},${typeof values === 'string' ? values : values.join(',')},${quality},,,20050310121004,20050310182204`;
const all = (value: number, count = 48): number[] => Array<number>(count).fill(value);

describe('a NEM12 file', () => {
  test('the published example: a day in market time, whatever the zone of the home', () => {
    const imported = read([
      HEAD,
      register('E1'),
      day('20050301', PUBLISHED_DAY),
      '500,O,S01009,20050310121004,',
      '900',
    ]);
    const { startUtcMs, channels } = imported.readings;
    // Midnight of UTC+10, an hour before that of Sydney in summer.
    expect(utcTexts(startUtcMs)[0]).toBe('2005-02-28T14:00');
    expect(Array.from(channels.importKwh!)).toEqual(PUBLISHED_DAY.split(',').map(Number));
    // The sum of the day's values as other readers of the example give it.
    expect(Array.from(channels.importKwh!).reduce((a, b) => a + b)).toBeCloseTo(31.444, 9);
    expect(imported.report.channels[0]?.from).toBe('2005-03-01 01:00');
    expect(formatImportReport(imported.report)).toContain(
      [
        'may.csv',
        '  values    48',
        '  of        5 lines: 1 with readings, 3 of records 100, 200, 900, 1 of records',
        '            500, manual reads, not read',
        '  file      NEM12, meter (NMI) NEM1201009, market time: UTC+10, no daylight',
        '            saving',
        '  column    register E1: import, kWh',
      ].join('\n'),
    );
  });

  test('with both directions, and registers of reactive energy, which are told and left out', () => {
    const { readings, report } = read([
      HEAD,
      register('E1'),
      day('20260301', all(0.5)),
      register('B1'),
      day('20260301', all(0.25)),
      register('Q1', 30, 'kVArh'),
      day('20260301', all(9)),
      '900',
    ]);
    expect(readings.channels).toEqual({
      importKwh: Float64Array.from(all(0.5)),
      exportKwh: Float64Array.from(all(0.25)),
    });
    expect(report.files[0]?.lines.other).toContainEqual({
      count: 1,
      what: 'of register Q1 (kVArh), not read',
    });
  });

  test.each<[number, number]>([
    [5, 6],
    [15, 2],
    [30, 1],
  ])('of %i minutes, in Wh', (minutes, parts) => {
    const values = all(100, 48 * parts).map((value, i) => value + i);
    const { readings } = read([HEAD, register('E1', minutes, 'Wh'), day('20260301', values), '900']);
    expect(readings.startUtcMs.length).toBe(48);
    const first = values.slice(0, parts).reduce((a, b) => a + b) / 1000;
    expect(readings.channels.importKwh![0]).toBeCloseTo(first, 12);
  });

  test('adds registers of one kind, says so, and leaves one out where told', () => {
    const lines = [
      HEAD,
      register('E1'),
      day('20260301', all(0.5)),
      register('E2', 5),
      day('20260301', all(0.1, 288)),
      '900',
    ];
    const both = read(lines);
    expect(both.readings.channels.importKwh![0]).toBeCloseTo(1.1, 12);
    expect(both.report.files[0]?.assumptions).toContain(
      'E1 and E2 are added to importKwh, as each counts a part of it (--channel "E2=ignore" leaves one out)',
    );
    expect(read(lines, { channels: { E2: 'ignore' } }).readings.channels.importKwh![0]).toBe(0.5);
    expect(Object.keys(read(lines, { channels: { E2: 'carKwh' } }).readings.channels)).toEqual([
      'importKwh',
      'carKwh',
    ]);
    lines.splice(3, 0, day('20260302', all(0.5)));
    expect(messageOf(() => read(lines))).toBe(
      'InputError: may.csv, line 4: E1 has values of 2026-03-02, and E2, which counts a part of the same, has none. Give a file with both, or leave one out: --channel "E2=ignore".',
    );
  });

  test('marks estimated and substituted reads, by the day and by intervals, and leaves null ones out', () => {
    const { readings, report } = read([
      HEAD,
      register('E1'),
      day('20260301', all(0.5), 'S14'),
      day('20260302', all(0.5), 'V'),
      '400,1,20,A,,',
      '400,21,24,E52,,',
      '400,25,48,N,,',
      day('20260303', all(0.5), 'F16'),
      day('20260304', all(0), 'N'),
      '900',
    ]);
    const marks = Array.from(readings.estimated!);
    expect(marks).toEqual([...all(1), ...all(0, 20), ...all(1, 4), ...all(1)]);
    expect(readings.startUtcMs.length).toBe(48 + 24 + 48);
    expect(report.files[0]?.findings.map(({ kind, count }) => [kind, count])).toEqual([
      ['gap', 24],
      ['estimated', 100],
    ]);
    const { all: lines, readings: days, withoutValue, other } = report.files[0]!.lines;
    const others = other!.reduce((sum, { count }) => sum + count, 0);
    expect([lines, days, withoutValue, others]).toEqual([10, 3, 1, 6]);
  });

  test('takes no word about stamp, zone or unit meant for other files, and says so', () => {
    const { readings, report } = read([HEAD, register('E1'), day('20260301', all(0.5)), '900'], {
      stamp: 'end',
      stampZone: 'local',
      unit: 'Wh',
    });
    expect(utcTexts(readings.startUtcMs)[0]).toBe('2026-02-28T14:00');
    expect(readings.channels.importKwh![0]).toBe(0.5);
    expect(report.files[0]?.assumptions).toContain(
      '--stamp, --stamp-zone, --unit say nothing of this file, as it states that itself',
    );
  });

  const good = [HEAD, register('E1'), day('20260301', all(0.5)), '900'];
  const without = (line: number): string[] => good.filter((_, i) => i !== line);
  const instead = (line: number, ...text: string[]): string[] => good.toSpliced(line, 1, ...text);
  test.each<[string, string[], string]>([
    ['without its end', without(3), 'line 3: no record 900 ends the file: it is cut'],
    ['without its beginning', without(0), 'line 1: the file has no record 100 at its beginning'],
    ['without a register', without(1), 'line 2: a day of values stands above any record 200'],
    [
      'of reads months apart',
      instead(0, '100,NEM13,200506081149,MDP1,RET1'),
      'line 1: the file is NEM13, which holds reads months apart',
    ],
    [
      'with a value too few',
      instead(2, day('20260301', all(0.5, 47))),
      'line 3: the day has 47 values, and 48 intervals of 30 minutes',
    ],
    [
      'with a value too many',
      instead(2, day('20260301', all(0.5, 49))),
      'line 3: the day has 49 values, and 48 intervals of 30 minutes',
    ],
    [
      'with a word among the values',
      instead(2, day('20260301', 'x,'.repeat(47) + 1)),
      'line 3: "x" is not a number',
    ],
    [
      'of another length',
      instead(1, register('E1', 60)),
      'line 2: "60" is no interval of 5, 15 or 30 minutes',
    ],
    ['with a wrong date', instead(2, day('20260231', all(0.5))), 'line 3: "20260231" is no date'],
    ['with an unknown record', instead(3, '301,x', '900'), 'line 4: "301" is no record of a NEM12 file'],
    [
      'with quality for a part of a day',
      instead(2, day('20260301', all(0.5), 'V'), '400,1,47,A,,'),
      'line 3: the quality of the day varies, and its records 400 give it for 47 of 48 intervals',
    ],
    [
      'with quality that overrides none',
      instead(3, '400,1,48,A,,', '900'),
      'line 4: record 400 stands below a day whose quality does not vary',
    ],
    [
      'with quality beyond the day',
      instead(2, day('20260301', all(0.5), 'V'), '400,1,49,A,,'),
      'line 4: "1" to "49" are no intervals of a day of 48',
    ],
    [
      'of several meters',
      good.toSpliced(3, 0, register('E1', 30, 'kWh', 'NEM1201010'), day('20260301', all(1))),
      'line 4: the file holds 2 meters (NMI NEM1201009, NEM1201010). Leave out what is not this home\'s: --channel "NEM1201010=ignore"',
    ],
    [
      'of reactive energy alone',
      instead(1, register('Q1', 30, 'kVArh')),
      'the file holds no register of what came from the grid (E) or went to it (B), but Q1',
    ],
    [
      'in a unit of no energy',
      instead(1, register('E1', 30, 'kVArh')),
      'line 2: the unit of register E1 is "kVArh", which is no energy',
    ],
    [
      'with a record below its end',
      [...good, day('20260302', all(1))],
      'line 5: the file has no record 100 at its beginning',
    ],
    [
      'with a day given twice and different',
      good.toSpliced(3, 0, day('20260301', all(0.7))),
      'line 4: importKwh of 2026-03-01 01:00 is 0.7 here and 0.5 in may.csv, line 3',
    ],
  ])('%s is refused', (_, lines, message) => {
    expect(messageOf(() => read(lines))).toContain(
      `InputError: may.csv${message.startsWith('line') ? ', ' : ': '}${message}`,
    );
  });

  test('reads one of several meters, and a file joined of two', () => {
    const two = good.toSpliced(3, 0, register('E1', 30, 'kWh', 'NEM1201010'), day('20260301', all(1)));
    expect(read(two, { channels: { NEM1201010: 'ignore' } }).readings.channels.importKwh![0]).toBe(0.5);
    const joined = [...good, HEAD, register('E1'), day('20260302', all(0.7)), '900'];
    expect(read(joined).readings.startUtcMs.length).toBe(96);
  });

  test('is no gas', () => {
    const file = { name: 'gas.csv', bytes: Buffer.from(good.join('\n')) };
    expect(messageOf(() => importGasFiles([file], { timeZone: 'Australia/Sydney' }))).toBe(
      'InputError: gas.csv: the file is NEM12, which holds electricity. Give it among the readings.',
    );
  });
});
