import { describe, expect, test } from 'vitest';
import { importFiles } from '../../src/readings/index.js';
import { importText, messageOf, utcTexts } from './import-text.js';

const HEAD = 'start,import kWh';
const SPRING = '2026-03-29';
const AUTUMN = '2026-10-25';
const two = (n: number): string => String(n).padStart(2, '0');
const label = (i: number): string => `${two(Math.floor(i / 2))}:${i % 2 ? '30' : '00'}`;
/** Lines of a day's labels, each with a value that tells it apart. */
const lines = (day: string, slots: number[], value = (i: number) => `0.${two(i + 1)}`): string[] =>
  slots.map((i) => `${day} ${label(i)},${value(i)}`);
const span = (from: number, to: number): number[] => Array.from({ length: to - from }, (_, i) => from + i);

describe('the hour that autumn repeats, in local stamps without offset', () => {
  test('each label twice: the first occurrence in the file is the earlier', () => {
    const { readings, report } = importText([
      HEAD,
      ...lines(AUTUMN, [1, 2, 3]),
      ...lines(AUTUMN, [2, 3, 4], (i) => `0.9${i}`),
    ]);
    expect(utcTexts(readings.startUtcMs)).toEqual([
      '2026-10-24T23:30',
      '2026-10-25T00:00',
      '2026-10-25T00:30',
      '2026-10-25T01:00',
      '2026-10-25T01:30',
      '2026-10-25T02:00',
    ]);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.02, 0.03, 0.04, 0.92, 0.93, 0.94]);
    expect(report.files[0]!.findings).toEqual([]);
  });

  test('lines out of order there: which of the two they are is the order alone, which is told', () => {
    const { report } = importText([HEAD, ...lines(AUTUMN, [0, 1, 3, 2]), ...lines(AUTUMN, [2, 3, 4, 5])]);
    expect(report.files[0]!.findings).toMatchObject([
      { kind: 'repeated hour order', count: 1, places: [{ line: 5, text: '2026-10-25 01:00' }] },
    ]);
    const sorted = [...lines(AUTUMN, [0, 1, 2, 3]), ...lines(AUTUMN, [2, 3, 4, 5])];
    for (const rows of [sorted, sorted.toReversed()])
      expect(importText([HEAD, ...rows]).report.files[0]!.findings).toEqual([]);
  });

  test('newest first: the order is turned round', () => {
    const all = [...lines(AUTUMN, [0, 1, 2, 3]), ...lines(AUTUMN, [2, 3, 4, 5], (i) => `0.9${i}`)];
    const { readings } = importText([HEAD, ...all.reverse()]);
    expect(Array.from(readings.channels.importKwh!)).toEqual([
      0.01, 0.02, 0.03, 0.04, 0.92, 0.93, 0.94, 0.95,
    ]);
  });

  test('stamped by end, the labels of ends repeat', () => {
    const all = [...lines(AUTUMN, [1, 2, 3]), ...lines(AUTUMN, [2, 3, 4], (i) => `0.9${i}`)];
    const { readings } = importText(['end,import kWh', ...all]);
    expect(utcTexts(readings.startUtcMs)[0]).toBe('2026-10-24T23:00');
    expect(readings.startUtcMs.length).toBe(6);
  });

  test('ends made by adding half an hour to the label of the start are understood', () => {
    const ends = [1, 2, 3, 4, 3, 4, 5, 6].map((i, k) => `${AUTUMN} ${label(i)},0.${k + 1}`);
    const { readings, report } = importText(['end,import kWh', ...ends]);
    expect(utcTexts(readings.startUtcMs).slice(1, 7)).toEqual([
      '2026-10-24T23:30',
      '2026-10-25T00:00',
      '2026-10-25T00:30',
      '2026-10-25T01:00',
      '2026-10-25T01:30',
      '2026-10-25T02:00',
    ]);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8]);
    expect(report.files[0]!.findings).toEqual([]);
    const spring = [1, 2, 5, 6].map((i, k) => `${SPRING} ${label(i)},0.${k + 1}`);
    expect(utcTexts(importText(['end,import kWh', ...spring]).readings.startUtcMs)).toEqual([
      '2026-03-29T00:00',
      '2026-03-29T00:30',
      '2026-03-29T01:00',
      '2026-03-29T01:30',
    ]);
  });

  test('a file that begins inside it: the labels lead on to 02:00, so they are the second', () => {
    const { readings, report } = importText([HEAD, ...lines(AUTUMN, [2, 3, 4, 5])]);
    expect(utcTexts(readings.startUtcMs)[0]).toBe('2026-10-25T01:00');
    expect(report.files[0]!.findings).toEqual([]);
  });

  test('a file that ends inside it: the labels follow 00:30, so they are the first', () => {
    const { readings, report } = importText([HEAD, ...lines(AUTUMN, [0, 1, 2, 3])]);
    expect(utcTexts(readings.startUtcMs).at(-1)).toBe('2026-10-25T00:30');
    expect(report.files[0]!.findings).toEqual([]);
  });

  test('one of the two missing: either could be, so it is taken as the first and told', () => {
    const { readings, report } = importText([HEAD, ...lines(AUTUMN, span(0, 8))]);
    expect(readings.startUtcMs.length).toBe(8);
    expect(report.files[0]!.findings).toMatchObject([
      {
        kind: 'gap',
        count: 2,
        places: [{ line: 5, text: '2026-10-25 01:00 to 2026-10-25 02:00, 2 after this line' }],
      },
      { kind: 'repeated hour', count: 2, places: [{ line: 4 }, { line: 5 }] },
    ]);
  });

  test('the two channels of a file with a channel column are told apart', () => {
    const pair = (i: number, v: string): string[] => [
      `${AUTUMN} ${label(i)},import,${v}`,
      `${AUTUMN} ${label(i)},export,0`,
    ];
    const { readings } = importText([
      'start,flow,kWh',
      ...[1, 2, 3, 2, 3, 4].flatMap((i, k) => pair(i, `0.${k + 1}`)),
    ]);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.2, 0.3, 0.4, 0.5, 0.6]);
    expect(readings.channels.exportKwh!.length).toBe(6);
  });

  test('cut inside the repeated hour, and the later file given first', () => {
    const all = [...lines(AUTUMN, span(0, 4)), ...lines(AUTUMN, span(2, 12), (i) => `0.5${i}`)];
    for (const cut of [3, 4, 5, 6]) {
      const files = [all.slice(cut), all.slice(0, cut)].map((part, i) => ({
        name: `${i}.csv`,
        bytes: Buffer.from([HEAD, ...part].join('\n')),
      }));
      const whole = importText([HEAD, ...all]).readings;
      expect(importFiles(files, { timeZone: 'Europe/London' }).readings).toEqual(whole);
    }
  });
});

describe('the hour that spring skips', () => {
  test('energy in it is told with its place and left out', () => {
    const { readings, report } = importText([HEAD, ...lines(SPRING, span(0, 8))]);
    expect(readings.startUtcMs.length).toBe(6);
    expect(report.files[0]!.findings).toMatchObject([
      {
        kind: 'skipped hour',
        channel: 'importKwh',
        count: 2,
        places: [
          { line: 4, text: '2026-03-29 01:00 holds 0.03 kWh' },
          { line: 5, text: '2026-03-29 01:30 holds 0.04 kWh' },
        ],
      },
    ]);
  });

  test('noughts in it, as some loggers write, are no finding', () => {
    const { readings, report } = importText([
      HEAD,
      ...lines(SPRING, span(0, 8), (i) => (i === 2 || i === 3 ? '0' : '0.2')),
    ]);
    expect(readings.startUtcMs.length).toBe(6);
    expect(report.files[0]!.findings).toEqual([]);
  });

  test('a clock that never changes is read by its own offset', () => {
    const day = lines(SPRING, span(0, 8));
    const { readings, report } = importText([HEAD, ...day], { stampZone: 'utc' });
    expect(readings.startUtcMs.length).toBe(8);
    expect(report.files[0]!.findings).toEqual([]);
    const sydney = importText([HEAD, '2027-10-03 01:30,0.1', '2027-10-03 02:00,0.2'], {
      timeZone: 'Australia/Sydney',
      stampZone: '+10:00',
    });
    expect(utcTexts(sydney.readings.startUtcMs)).toEqual(['2027-10-02T15:30', '2027-10-02T16:00']);
  });
});

describe('lines with both ends, on the days of the change', () => {
  const HEAD_BOTH = 'from,to,import kWh';
  const both = (day: string, pairs: [number, number][]): string[] =>
    pairs.map(([from, to], k) => `${day} ${label(from)},${day} ${label(to)},0.${two(k + 1)}`);
  const starts = (text: string[]): string[] => {
    const { readings, report } = importText(text);
    expect(report.files[0]!.findings).toEqual([]);
    return utcTexts(readings.startUtcMs);
  };
  const SPRING_STARTS = ['2026-03-29T00:00', '2026-03-29T00:30', '2026-03-29T01:00', '2026-03-29T01:30'];
  const AUTUMN_STARTS = [
    '2026-10-24T23:30',
    '2026-10-25T00:00',
    '2026-10-25T00:30',
    '2026-10-25T01:00',
    '2026-10-25T01:30',
    '2026-10-25T02:00',
  ];

  test.each<[string, [number, number]]>([
    ['follow the clock', [1, 4]],
    ['count on from the start', [1, 2]],
  ])('spring: ends that %s', (_, pair) => {
    expect(starts([HEAD_BOTH, ...both(SPRING, [[0, 1], pair, [4, 5], [5, 6]])])).toEqual(SPRING_STARTS);
  });

  test.each<[string, [number, number]]>([
    ['follow the clock', [3, 2]],
    ['count on from the start', [3, 4]],
  ])('autumn: ends that %s', (_, pair) => {
    const pairs: [number, number][] = [[1, 2], [2, 3], pair, [2, 3], [3, 4], [4, 5]];
    expect(starts([HEAD_BOTH, ...both(AUTUMN, pairs)])).toEqual(AUTUMN_STARTS);
  });

  test('autumn: an end that goes back beside the one date', () => {
    const pairs = [
      [1, 2],
      [2, 3],
      [3, 2],
      [2, 3],
      [3, 4],
      [4, 5],
    ];
    const list = pairs.map(([from, to]) => `${AUTUMN},${label(from!)},${label(to!)},0.1`);
    expect(starts(['date,from,to,import kWh', ...list])).toEqual(AUTUMN_STARTS);
  });

  test('an hour among half-hours is no change of the clock, even on that day', () => {
    const pairs: [number, number][] = [
      [0, 1],
      [1, 4],
      [4, 5],
      [5, 6],
      [6, 8],
      [8, 9],
    ];
    expect(messageOf(() => importText([HEAD_BOTH, ...both(SPRING, pairs)]))).toMatch(
      /^InputError: readings.csv, line 6: the line runs from 2026-03-29 03:00 to 2026-03-29 04:00, 60 minutes/,
    );
  });

  test('a clock that never changes has no such ends', () => {
    const lines = [
      HEAD_BOTH,
      ...both(SPRING, [
        [0, 1],
        [1, 4],
        [4, 5],
        [5, 6],
      ]),
    ];
    expect(messageOf(() => importText(lines, { stampZone: 'utc' }))).toMatch(/line 3: .*, 90 minutes/);
  });
});

describe('a line a day, on the days of the change', () => {
  const header48 = ['Date', ...span(0, 48).map(label)].join(',');
  const header50 = ['Date', ...span(1, 51)].join(',');
  const value = (i: number): string => `0.${two(i + 1)}`;
  const cells = (n: number, blank: number[] = [], filler = ''): string[] =>
    span(0, n).map((i) => (blank.includes(i) ? filler : value(i)));
  const row = (day: string, list: string[]): string => `${day},${list.join(',')}`;
  const ordinary = row('2026-03-28', cells(48));

  test.each([
    ['the labels of the skipped hour blank', cells(48, [2, 3])],
    ['noughts under the labels of the skipped hour', cells(48, [2, 3], '0')],
  ])('spring: %s', (_, list) => {
    const { readings, report } = importText([header48, ordinary, row(SPRING, list)]);
    expect(readings.startUtcMs.length).toBe(48 + 46);
    expect(Array.from(readings.channels.importKwh!).slice(48)).toEqual(
      span(0, 48)
        .filter((i) => i !== 2 && i !== 3)
        .map((i) => Number(value(i))),
    );
    expect(report.files[0]!.findings).toEqual([]);
  });

  test.each([
    ['46 cells', cells(46)],
    ['the last two blank', cells(48, [46, 47])],
    ['the last two nought', cells(48, [46, 47], '0')],
  ])('spring: %s, packed to the left', (_, list) => {
    const { readings, report } = importText([header48, ordinary, row(SPRING, list)]);
    expect(readings.startUtcMs.length).toBe(48 + 46);
    expect(Array.from(readings.channels.importKwh!).slice(48)).toEqual(
      span(0, 46).map((i) => Number(value(i))),
    );
    expect(report.files[0]!.findings).toEqual([]);
  });

  test('spring: 48 values for 46 half-hours are told, none is moved', () => {
    const { readings, report } = importText([header48, ordinary, row(SPRING, cells(48))]);
    expect(readings.startUtcMs.length).toBe(48 + 46);
    expect(report.files[0]!.findings).toMatchObject([
      { kind: 'skipped hour', count: 2, places: [{ line: 3 }, { line: 3 }] },
    ]);
  });

  test.each([
    ['under a header of 50', header50],
    ['beyond a header of 48', header48],
  ])('autumn: 50 cells %s', (_, header) => {
    const list = span(0, 50).map((i) => `0.${two(i + 1)}`);
    const { readings, report } = importText([header, row('2026-10-24', cells(48)), row(AUTUMN, list)]);
    expect(readings.startUtcMs.length).toBe(48 + 50);
    expect(Array.from(readings.channels.importKwh!).slice(48)).toEqual(list.map(Number));
    expect(report.files[0]!.findings).toEqual([]);
  });

  test('autumn: labels of the repeated hour twice in the header, blank on other days', () => {
    const labels = [...span(0, 4), 2, 3, ...span(4, 48)];
    const header = ['Date', ...labels.map(label)].join(',');
    const plain = labels.map((_, i) => (i === 4 || i === 5 ? '' : '0.1'));
    const change = labels.map((_, i) => `0.${two(i + 1)}`);
    const { readings } = importText([header, row('2026-10-24', plain), row(AUTUMN, change)]);
    expect(readings.startUtcMs.length).toBe(48 + 50);
    expect(Array.from(readings.channels.importKwh!).slice(48)).toEqual(change.map(Number));
  });

  test('autumn: 48 cells hold the repeated hour once, which is told', () => {
    const { readings, report } = importText([header48, row('2026-10-24', cells(48)), row(AUTUMN, cells(48))]);
    expect(readings.startUtcMs.length).toBe(96);
    expect(report.files[0]!.findings).toMatchObject([
      { kind: 'gap', count: 2 },
      { kind: 'repeated hour', count: 2 },
    ]);
  });
});
