import { describe, expect, test } from 'vitest';
import { formatImportReport, importFiles, mergeReadings } from '../../src/readings/index.js';
import { importText, messageOf, utcTexts } from './import-text.js';

const at = (i: number): string => new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16);
const lines = (values: (string | undefined)[]): string[] =>
  values.flatMap((value, i) => (value === undefined ? [] : [`${at(i)}Z,${value}`]));
const findingsOf = (text: string[], header = 'start,import kWh') =>
  importText([header, ...text]).report.files[0]!.findings;

describe('what is found is told with its place, and nothing is dropped or invented', () => {
  test('gaps: lines missing and cells blank', () => {
    expect(findingsOf(lines(['0.1', undefined, undefined, '0.1', '', '0.1', '0.1', '0.1']))).toEqual([
      {
        kind: 'gap',
        channel: 'importKwh',
        count: 3,
        message: 'half-hours missing',
        done: '',
        places: [
          { file: 'readings.csv', line: 2, text: '2026-01-25 00:30 to 2026-01-25 01:30, 2 after this line' },
          { file: 'readings.csv', line: 3, text: '2026-01-25 02:00 to 2026-01-25 02:30, 1 after this line' },
        ],
        placeCount: 2,
      },
    ]);
  });

  test.each<[number, string | undefined]>([
    [2, undefined],
    [3, undefined],
    [4, 'and 1 more'],
    [5, 'and 2 more'],
  ])('of %i gaps, three are told by their places, then %s', (gaps, more) => {
    const run = ['0.1', '0.2', '0.1'];
    const values = [...run, ...Array.from({ length: gaps }, () => [undefined, undefined, ...run]).flat()];
    const { report } = importText(['start,import kWh', ...lines(values)]);
    const told = formatImportReport(report).split('\n');
    expect(told.filter((line) => line.endsWith('2 after this line'))).toHaveLength(Math.min(gaps, 3));
    expect(told.find((line) => line.includes('more'))?.trim()).toBe(more);
  });

  test('a half-hour with a part missing is left out', () => {
    const { readings, report } = importText([
      'start,import kWh',
      '2026-01-25 00:00,0.1',
      '2026-01-25 00:15,0.1',
      '2026-01-25 00:30,0.1',
      '2026-01-25 01:00,0.1',
      '2026-01-25 01:15,0.1',
    ]);
    expect(utcTexts(readings.startUtcMs)).toEqual(['2026-01-25T00:00', '2026-01-25T01:00']);
    expect(report.files[0]!.findings).toMatchObject([
      { kind: 'gap', count: 1 },
      {
        kind: 'incomplete half-hour',
        count: 1,
        places: [{ line: 4, text: '2026-01-25 00:30 has 1 of 2 parts' }],
      },
    ]);
  });

  test('the same value twice is counted once', () => {
    const { readings, report } = importText([
      'start,import kWh',
      ...lines(['0.1', '0.2']),
      ...lines(['0.1']),
    ]);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.2]);
    expect(report.files[0]!.findings).toMatchObject([
      {
        kind: 'duplicate',
        count: 1,
        places: [{ line: 4, text: '2026-01-25 00:00, also readings.csv, line 2: 0.1' }],
      },
    ]);
  });

  test('a different value: refused, or the later file wins where told so', () => {
    const file = (name: string, value: string) => ({
      name,
      bytes: Buffer.from(['start,import kWh', ...lines([value, '0.2'])].join('\n')),
    });
    const options = { timeZone: 'Europe/London' };
    expect(messageOf(() => importFiles([file('a.csv', '0.1'), file('b.csv', '0.3')], options))).toBe(
      'InputError: b.csv, line 2: importKwh of 2026-01-25 00:00 is 0.3 here and 0.1 in a.csv, line 2. Remove the wrong one, or let the later file win: --replace.',
    );
    const { readings, report } = importFiles([file('a.csv', '0.1'), file('b.csv', '0.3')], {
      ...options,
      onConflict: 'replace',
    });
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.3, 0.2]);
    expect(report.files[1]!.findings).toMatchObject([
      { kind: 'duplicate', count: 1 },
      { kind: 'conflict', count: 1 },
    ]);
  });

  test('negative energy is told and kept; temperatures and prices may be negative', () => {
    const { readings, report } = importText([
      'start,import kWh,outdoor °C,price p/kWh',
      `${at(0)}Z,-0.1,-3,-2.5`,
      `${at(1)}Z,0.1,-3,-2.5`,
    ]);
    expect(readings.channels.importKwh![0]).toBe(-0.1);
    expect(report.files[0]!.findings).toMatchObject([
      { kind: 'negative', channel: 'importKwh', count: 1, places: [{ line: 2 }] },
    ]);
  });

  test('outliers: above 12 kWh, or five times the 99th percentile and above 2 kWh; told and kept', () => {
    const usual = Array.from({ length: 400 }, (_, i) => `0.${1 + (i % 5)}`);
    expect(findingsOf(lines([...usual, '2.6', '2.4']))).toMatchObject([
      { kind: 'outlier', count: 1, places: [{ line: 402, text: '2026-02-02 08:00: 2.6' }] },
    ]);
    const car = Array.from({ length: 400 }, (_, i) => (i % 20 === 0 ? '3.5' : '0.2'));
    expect(findingsOf(lines([...car, '12.5', '11']))).toMatchObject([
      { kind: 'outlier', count: 1, places: [{ text: '2026-02-02 08:00: 12.5' }] },
    ]);
  });

  test('estimated reads are told and their marks carried on', () => {
    for (const [header, marks] of [
      ['Read type', ['A', 'E', 'A']],
      ['Estimated', ['no', 'yes', 'no']],
      ['quality', ['actual', 'estimated', 'actual']],
    ] as const) {
      const { readings, report } = importText([
        `start,import kWh,${header}`,
        ...marks.map((m, i) => `${at(i)}Z,0.1,${m}`),
      ]);
      expect(Array.from(readings.estimated!)).toEqual([0, 1, 0]);
      expect(report.files[0]!.findings).toMatchObject([
        { kind: 'estimated', count: 1, places: [{ line: 3 }] },
      ]);
    }
    expect(importText(['start,import kWh', ...lines(['0.1', '0.1'])]).readings.estimated).toBeUndefined();
  });

  test('where a column names the channel, each line is told of for its own channel and unit', () => {
    const { report } = importText([
      'start,channel,value,unit',
      ...['00:00', '00:30', '01:00', '02:00'].flatMap((time) => [
        `2026-03-29 ${time},import,250,Wh`,
        `2026-03-29 ${time},outdoor temperature,7,degC`,
      ]),
    ]);
    const skipped = report.files[0]!.findings.filter(({ kind }) => kind === 'skipped hour');
    expect(skipped).toMatchObject([
      { channel: 'importKwh', count: 1, places: [{ line: 6, text: '2026-03-29 01:00 holds 250 Wh' }] },
      { channel: 'outdoorC', count: 1, places: [{ line: 7, text: '2026-03-29 01:00 holds 7 degC' }] },
    ]);
  });

  test('a register that goes backwards, rolls over, or misses reads', () => {
    const register = (values: (string | undefined)[]) => {
      const { readings, report } = importText(['time,import register kWh', ...lines(values)]);
      return {
        kwh: Array.from(readings.channels.importKwh!, (v) => Number(v.toFixed(6))),
        findings: report.files[0]!.findings,
      };
    };
    const backwards = register(['100', '100.5', '3', '3.5']);
    expect(backwards.kwh).toEqual([0.5, 0.5]);
    expect(backwards.findings).toMatchObject([
      { kind: 'gap', count: 1 },
      { kind: 'register backwards', count: 1, places: [{ line: 4, text: '2026-01-25 01:00: 100.5 then 3' }] },
    ]);
    const over = register(['99998.5', '99999.5', '0.25', '1']);
    expect(over.kwh).toEqual([1, 0.75, 0.75]);
    expect(over.findings).toMatchObject([{ kind: 'register rolled over', count: 1, places: [{ line: 4 }] }]);
    const missing = register(['100', '100.5', undefined, '102', '102.25']);
    expect(missing.kwh).toEqual([0.5, 0.25]);
    expect(missing.findings).toMatchObject([
      { kind: 'gap', count: 2 },
      {
        kind: 'register gap',
        count: 1,
        places: [{ line: 4, text: '2026-01-25 00:30 to 2026-01-25 01:30: 1.5 in all' }],
      },
    ]);
  });
});

describe('files of different channels and months', () => {
  const file = (name: string, header: string, from: number, to: number) => ({
    name,
    bytes: Buffer.from(
      [
        header,
        ...Array.from({ length: to - from }, (_, i) => `${at(from + i)}Z,0.${1 + ((from + i) % 7)}`),
      ].join('\n'),
    ),
  });
  const files = [
    file('a.csv', 'start,import kWh', 0, 10),
    file('b.csv', 'start,solar kWh', 4, 14),
    file('c.csv', 'start,import kWh', 10, 20),
  ];

  test('are set side by side; a channel is missing where no file has it', () => {
    const { readings } = importFiles(files, { timeZone: 'Europe/London' });
    expect(readings.startUtcMs.length).toBe(20);
    expect(readings.channels.solarKwh!.map((v) => (Number.isNaN(v) ? 0 : 1)).reduce((a, b) => a + b)).toBe(
      10,
    );
    expect(importFiles([files[2]!, files[1]!, files[0]!], { timeZone: 'Europe/London' }).readings).toEqual(
      readings,
    );
  });

  test('merging readings says the same as importing the files together', () => {
    const parts = files.map((one) => importFiles([one], { timeZone: 'Europe/London' }));
    const whole = importFiles(files, { timeZone: 'Europe/London' }).readings;
    expect(mergeReadings(parts)).toEqual({ readings: whole, duplicates: 0, replaced: 0 });
    expect(mergeReadings([...parts, parts[0]!]).duplicates).toBe(10);
  });

  test('merging refuses a different value and names both places', () => {
    const one = importText(['start,import kWh', ...lines(['0.1', '0.2'])], {}, 'one.csv');
    const other = importText(['start,import kWh', ...lines(['0.1', '0.9'])], {}, 'other.csv');
    expect(messageOf(() => mergeReadings([one, other]))).toBe(
      'InputError: other.csv, line 3: importKwh of 2026-01-25 00:30 is 0.9 here and 0.2 in one.csv, line 3. Remove the wrong one, or let the later file win: --replace.',
    );
    const merged = mergeReadings([one, other], 'replace');
    expect(Array.from(merged.readings.channels.importKwh!)).toEqual([0.1, 0.9]);
    expect(merged.replaced).toBe(1);
  });
});

describe('the report as text', () => {
  test('says what was understood and found, in at most 80 columns', () => {
    const { report } = importText(
      [
        'Our home',
        '',
        'When;Import;Cost (p);Read type',
        '25/01/2026 00:00;0,125;3,1;A',
        '25/01/2026 00:30;0,25;6,2;E',
        '25/01/2026 02:00;0,5;9,3;A',
      ],
      {},
      'a-folder-with-a-long-name/and-another-one-below-it/readings-of-january-2026-from-our-own-meter.csv',
    );
    const text = formatImportReport(report);
    expect(text.split('\n').every((line) => line.length <= 80)).toBe(true);
    expect(text).toBe(`a-folder-with-a-long-name/and-another-one-below-it/readings-of-january-2026-from
  -our-own-meter.csv
  lines     3, one line an interval, header on line 3
  of        6 lines: 3 with readings, 1 of the header, 1 above the readings, not
            read (line 1), 1 blank
  text      UTF-8, semicolon between cells, decimal comma
  column    "When": stamp
  column    "Import": import, kWh
  column    "Read type": estimated or actual
  not used  "Cost (p)"
  stamps    local time of Europe/London; start of the interval; dates day first,
            settled by line 4
  interval  30 minutes
  from, to  2026-01-25 00:00, 2026-01-25 02:00
  assumed   "Import" is in kWh, as no unit is stated (--unit says otherwise)
  assumed   stamps mark the start of the interval, as nothing says which
            (--stamp end says otherwise)
  found     import, half-hours missing: 2
              line 5: 2026-01-25 01:00 to 2026-01-25 02:00, 2 after this line
  found     import, reads marked as estimated: 1 (kept with their marks)
              line 5: 2026-01-25 00:30: 0.25

Together
  import    2026-01-25 00:00 to 2026-01-25 02:00, 3 half-hours, 2 missing, 0.9
            kWh
`);
  });
});
