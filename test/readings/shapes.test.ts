import { describe, expect, test } from 'vitest';
import type { ImportOptions } from '../../src/readings/index.js';
import { importText, utcTexts } from './import-text.js';

// Every shape below says the same: four half-hours from midnight on 25 January 2026 in London.
const STARTS = ['2026-01-25T00:00', '2026-01-25T00:30', '2026-01-25T01:00', '2026-01-25T01:30'];
const KWH = [0.1, 0.25, 1.5, 0];

interface Shape {
  shape: string;
  lines: string[];
  options?: Partial<ImportOptions>;
}

const rows = (stamps: string[], cells = ['0.1', '0.25', '1.5', '0']): string[] =>
  stamps.map((stamp, i) => `${stamp},${cells[i]}`);
const ISO = ['2026-01-25 00:00', '2026-01-25 00:30', '2026-01-25 01:00', '2026-01-25 01:30'];
const ISO_EAST = ['2026-01-25 01:00', '2026-01-25 01:30', '2026-01-25 02:00', '2026-01-25 02:30'];
const ISO_END = ['2026-01-25 00:30', '2026-01-25 01:00', '2026-01-25 01:30', '2026-01-25 02:00'];

const SHAPES: Shape[] = [
  { shape: 'ISO stamps with a blank', lines: ['start,import kWh', ...rows(ISO)] },
  {
    shape: 'ISO stamps with T, seconds and fraction',
    lines: ['start,import kWh', ...rows(ISO.map((s) => `${s.replace(' ', 'T')}:00.000`))],
  },
  {
    shape: 'ISO stamps with Z',
    lines: ['start,import kWh', ...rows(ISO.map((s) => `${s.replace(' ', 'T')}Z`))],
  },
  {
    shape: 'ISO stamps with an offset',
    lines: ['start,import kWh', ...rows(ISO.map((s) => `${s.replace(' ', 'T')}+00:00`))],
  },
  {
    shape: 'ISO stamps with another zone’s offset',
    lines: [
      'start,import kWh',
      ...rows([
        '2026-01-25T05:30+05:30',
        '2026-01-25T06:00+0530',
        '2026-01-25T06:30+05:30',
        '2026-01-25T07:00+05:30',
      ]),
    ],
  },
  { shape: 'UTC said in the header', lines: ['start (UTC),import kWh', ...rows(ISO)] },
  {
    shape: 'a fixed offset in the header',
    lines: ['start (UTC+01:00),import kWh', ...rows(ISO_EAST)],
  },
  {
    shape: 'a fixed offset in the header, digits alone',
    lines: ['startUTC+1,import kWh', ...rows(ISO_EAST)],
  },
  { shape: 'no header', lines: rows(ISO) },
  {
    shape: 'day first',
    lines: [
      'start,import kWh',
      ...rows(['25/01/2026 00:00', '25/01/2026 00:30', '25/01/2026 01:00', '25/01/2026 01:30']),
    ],
  },
  {
    shape: 'day first with points',
    lines: [
      'start,import kWh',
      ...rows(['25.01.2026 00:00', '25.01.2026 00:30', '25.01.2026 01:00', '25.01.2026 01:30']),
    ],
  },
  {
    shape: 'month first, 12 hours',
    lines: [
      'start,import kWh',
      ...rows(['1/25/2026 12:00 AM', '1/25/2026 12:30 AM', '1/25/2026 1:00 am', '1/25/2026 1:30 a.m.']),
    ],
  },
  {
    shape: 'month named',
    lines: [
      'start,import kWh',
      ...rows(['25 Jan 2026 00:00', '25-Jan-2026 00:30', '25 January 2026 01:00', '25-Jan-26 01:30']),
    ],
  },
  {
    shape: 'digits alone',
    lines: ['start,import kWh', ...rows(['202601250000', '202601250030', '202601250100', '20260125013000'])],
  },
  {
    shape: 'time dropped at midnight',
    lines: [
      'start,import kWh',
      ...rows(['25/01/2026', '25/01/2026 00:30', '25/01/2026 01:00', '25/01/2026 01:30']),
    ],
  },
  {
    shape: 'date and time apart',
    lines: [
      'Date,Start time,Import kWh',
      ...rows(['25/01/2026,00:00', '25/01/2026,00:30', '25/01/2026,01:00', '25/01/2026,01:30']),
    ],
  },
  {
    shape: 'time as a range',
    lines: [
      'Date,Time,Import kWh',
      ...rows([
        '25/01/2026,00:00 - 00:30',
        '25/01/2026,00:30 - 01:00',
        '25/01/2026,01:00 - 01:30',
        '25/01/2026,01:30 - 02:00',
      ]),
    ],
  },
  {
    shape: 'time of four digits',
    lines: [
      'Date,Start time,Import kWh',
      ...rows(['25/01/2026,0000', '25/01/2026,0030', '25/01/2026,0100', '25/01/2026,0130']),
    ],
  },
  {
    shape: 'half-hours numbered',
    lines: [
      'Date,Period,Import kWh',
      ...rows(['2026-01-25,1', '2026-01-25,2', '2026-01-25,3', '2026-01-25,4']),
    ],
  },
  { shape: 'both ends', lines: ['From,To,Import kWh', ...rows(ISO.map((s, i) => `${s},${ISO_END[i]}`))] },
  {
    shape: 'both ends, the end first',
    lines: ['To,From,Import kWh', ...rows(ISO.map((s, i) => `${ISO_END[i]},${s}`))],
  },
  { shape: 'end in the header', lines: ['interval end,import kWh', ...rows(ISO_END)] },
  {
    shape: 'end written as the last second',
    lines: [
      'when,import kWh',
      ...rows(['2026-01-25 00:29:59', '2026-01-25 00:59:59', '2026-01-25 01:29:59', '2026-01-25 01:59:59']),
    ],
  },
  {
    shape: 'weekday before the date',
    lines: [
      'start,import kWh',
      ...rows([
        'Sun 25 Jan 2026 00:00',
        'Sun 25 Jan 2026 00:30',
        '"Sunday, 25 Jan 2026 01:00"',
        'Sun 25/01/2026 01:30',
      ]),
    ],
  },
  {
    shape: 'a number of the line beside the values',
    lines: ['id,start,kWh', ...ISO.map((s, i) => `${i + 1},${s},${KWH[i]}`)],
  },
  {
    shape: 'blanks around cells and before quotation marks',
    lines: ['start, "import kWh"', ...ISO.map((s, i) => `"${s}", "${KWH[i]}"`)],
  },
  { shape: 'end said by option', lines: ['when,import kWh', ...rows(ISO_END)], options: { stamp: 'end' } },
  {
    shape: 'semicolons and decimal commas',
    lines: ['start;import kWh', ...rows(ISO, ['0,1', '0,25', '1,5', '0']).map((l) => l.replace(',', ';'))],
  },
  {
    shape: 'commas and quoted decimal commas',
    lines: ['start,import kWh', ...rows(ISO, ['"0,1"', '"0,25"', '"1,5"', '0'])],
  },
  { shape: 'tabs', lines: ['start\timport kWh', ...rows(ISO).map((l) => l.replace(',', '\t'))] },
  { shape: 'pipes', lines: ['start|import kWh', ...rows(ISO).map((l) => l.replace(',', '|'))] },
  {
    shape: 'everything quoted',
    lines: ['"start","import kWh"', ...rows(ISO).map((l) => `"${l.replace(',', '","')}"`)],
  },
  {
    shape: 'a preamble with blank lines',
    lines: ['Our home, readings', '', 'Meter,12345678', '', 'start,import kWh', ...rows(ISO)],
  },
  {
    shape: 'no header, and a line about the meter above',
    lines: ['Meter;0012345', ...ISO.map((s, i) => `${s.replace(' ', ';')};${KWH[i]}`)],
  },
  {
    shape: 'no header, and lines about the customer and a blank line above',
    lines: ['Customer,J Doe', 'Tariff,Day C', '', ...rows(ISO.map((s) => s.replace(' ', ',')))],
  },
  {
    shape: 'no header, a line about the meter above and marks after',
    lines: ['Meter,12345', ...rows(ISO).map((l) => `${l},A`)],
  },
  { shape: 'marks beyond the header', lines: ['start,import kWh', ...rows(ISO).map((l) => `${l},A`)] },
  { shape: 'units in a line of their own', lines: ['start,import', ',kWh', ...rows(ISO)] },
  {
    shape: 'blank lines between and after',
    lines: ['start,import kWh', ...rows(ISO).flatMap((l) => [l, '']), '', ''],
  },
  { shape: 'commas at the end of lines', lines: ['start,import kWh,', ...rows(ISO).map((l) => `${l},`)] },
  { shape: 'newest first', lines: ['start,import kWh', ...rows(ISO).reverse()] },
  { shape: 'shuffled', lines: ['start,import kWh', ...[2, 0, 3, 1].map((i) => rows(ISO)[i]!)] },
  { shape: 'Wh', lines: ['start,import Wh', ...rows(ISO, ['100', '250', '1500', '0'])] },
  {
    shape: 'Wh with thousands commas',
    lines: ['start,import (Wh)', ...rows(ISO, ['100', '250', '"1,500.0"', '0'])],
  },
  { shape: 'average kW', lines: ['start,import kW', ...rows(ISO, ['0.2', '0.5', '3', '0'])] },
  { shape: 'average W', lines: ['start,import [W]', ...rows(ISO, ['200', '500', '3000', '0'])] },
  {
    shape: 'unit said by option',
    lines: ['start,import', ...rows(ISO, ['200', '500', '3000', '0'])],
    options: { unit: 'W' },
  },
  {
    shape: 'unit in a column',
    lines: ['start,import,unit', ...rows(ISO, ['100', '250', '1500', '0']).map((l) => `${l},Wh`)],
  },
  {
    shape: 'unit in a column, words for nothing on some lines',
    lines: [
      'start,import,of',
      ...rows(ISO, ['100', '250', '1500', '0']).map((l, i) => `${l},${['Wh', '-', 'n/a', ''][i]}`),
    ],
  },
  {
    shape: 'a cumulative register',
    lines: [
      'time,import register kWh',
      ...rows([...ISO, ISO_END[3]!], ['1000.0', '1000.1', '1000.35', '1001.85', '1001.85']),
    ],
  },
  {
    shape: 'a column of readings that only rises',
    lines: [
      'time,import reading kWh',
      ...rows([...ISO, ISO_END[3]!], ['1000.0', '1000.1', '1000.35', '1001.85', '1001.85']),
    ],
  },
  {
    shape: 'a register said by option',
    lines: [
      'time,import kWh',
      ...rows([...ISO, ISO_END[3]!], ['1000.0', '1000.1', '1000.35', '1001.85', '1001.85']),
    ],
    options: { register: true },
  },
  {
    shape: 'quarters',
    lines: [
      'start,import kWh',
      ...['0.04,0.06', '0.2,0.05', '1,0.5', '0,0'].flatMap((pair, i) => {
        const [a, b] = pair.split(',');
        return [`${ISO[i]},${a}`, `${ISO[i]!.replace(':00', ':15').replace(':30', ':45')},${b}`];
      }),
    ],
  },
  {
    shape: 'an export column, a cost column and a meter number beside it',
    lines: [
      'Meter,start,import kWh,export kWh,Cost (p)',
      ...ISO.map((s, i) => `12345678,${s},${KWH[i]},0.000,3.21`),
    ],
  },
  {
    shape: 'a column that names the channel',
    lines: ['start,flow,kWh', ...ISO.flatMap((s, i) => [`${s},Import,${KWH[i]}`, `${s},Export,0.5`])],
  },
  {
    shape: 'a column named by option',
    lines: ['start,A,B', ...ISO.map((s, i) => `${s},${KWH[i]},9.9`)],
    options: { channels: { A: 'importKwh' } },
  },
  {
    shape: 'a column numbered by option',
    lines: ISO.map((s, i) => `${s},9.9,${KWH[i]}`),
    options: { channels: { 3: 'importKwh' } },
  },
];

describe('one line an interval', () => {
  test.each(SHAPES)('$shape', ({ lines, options }) => {
    const { readings } = importText(lines, {
      intervalMinutes: lines.some((l) => l.includes(':15')) ? 15 : 30,
      ...options,
    });
    expect(utcTexts(readings.startUtcMs)).toEqual(STARTS);
    KWH.forEach((kwh, i) => {
      expect(readings.channels.importKwh![i]).toBeCloseTo(kwh, 12);
    });
  });

  test('a register listed newest first, however long', () => {
    const reads = Array.from(
      { length: 150 },
      (_, i) =>
        `${new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16)}Z,${1000 + i / 4}`,
    );
    const { readings, report } = importText(['time,import reading kWh', ...reads.toReversed()]);
    expect(utcTexts(readings.startUtcMs).slice(0, 4)).toEqual(STARTS);
    expect(Array.from(readings.channels.importKwh!)).toEqual(new Array(149).fill(0.25));
    expect(report.files[0]!.assumptions).toContain(
      '"import reading kWh" is a cumulative register, as it only rises (--register no says otherwise)',
    );
  });

  test('each channel has the unit of its own lines', () => {
    const { readings, report } = importText([
      'start,channel,value,unit',
      ...ISO.flatMap((s) => [
        `${s},import,250,Wh`,
        `${s},outdoor temperature,50,degF`,
        `${s},price,0.20,GBP/kWh`,
      ]),
    ]);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.25, 0.25, 0.25, 0.25]);
    expect(readings.channels.outdoorC![3]).toBeCloseTo(10, 12);
    expect(Array.from(readings.channels.pricePence!)).toEqual([20, 20, 20, 20]);
    const [file] = report.files;
    expect(file!.columns.filter(({ unit }) => unit !== undefined)).toEqual([
      { column: '"value"', meaning: 'importKwh', unit: 'Wh' },
      { column: '"value"', meaning: 'outdoorC', unit: 'degF' },
      { column: '"value"', meaning: 'pricePence', unit: 'GBP/kWh' },
    ]);
    expect(file!.unusedColumns).toEqual([]);
    expect(file!.assumptions.join()).not.toContain('no unit is stated');
  });

  test('a channel without a unit in its lines has the usual one, and the report says so', () => {
    const { readings, report } = importText([
      'start,channel,value,unit',
      ...ISO.flatMap((s) => [`${s},import,250,Wh`, `${s},price,20,`]),
    ]);
    expect(readings.channels.importKwh![0]).toBe(0.25);
    expect(readings.channels.pricePence![0]).toBe(20);
    expect(report.files[0]!.assumptions).toContain(
      '"value" of pricePence is in p/kWh, as no unit is stated (--unit says otherwise)',
    );
  });

  test('whole kWh side by side, where the user says so or their lengths do', () => {
    const lines = (exported: string[]): string[] => [
      'start,import kWh,export kWh',
      ...ISO.map((s, i) => `${s},1,${exported[i]}`),
    ];
    const exportOf = (exported: string[], options: Partial<ImportOptions> = {}): number[] =>
      Array.from(importText(lines(exported), options).readings.channels.exportKwh!);
    expect(exportOf(['10', '11', '10', '12'], { decimalMark: '.' })).toEqual([10, 11, 10, 12]);
    expect(exportOf(['0', '11', '10', '12'])).toEqual([0, 11, 10, 12]);
  });

  test.each<[string, string, string[]]>([
    ['an export of two digits', 'export kWh', ['10', '14', '11', '12']],
    ['an export of two digits that never changes', 'export kWh', ['00', '00', '00', '00']],
    ['a year without a name', '', ['2026', '2026', '2026', '2026']],
    ['a code without a name', '', ['17', '21', '17', '21']],
  ])('whole kWh beside %s are no decimal commas', (_, header, beside) => {
    const lines = ISO.map((s, i) => `${s},${i},${beside[i]}`);
    const { readings } = importText([`start,import kWh,${header}`, ...lines], { register: false });
    expect(Array.from(readings.channels.importKwh!)).toEqual([0, 1, 2, 3]);
  });

  test.each([1, 2])('a remark beyond the header on some lines is not read, and the report says so', (at) => {
    const remarked = rows(ISO).map((l, i) => (i === at ? `${l},car charged` : l));
    const { readings, report } = importText(['start,import kWh', ...remarked]);
    expect(Array.from(readings.channels.importKwh!)).toEqual(KWH);
    expect(report.files[0]!.unusedColumns).toEqual(['column 3']);
  });

  test('a remark far down is told of too', () => {
    const lines = Array.from({ length: 400 }, (_, i) => {
      const start = new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16);
      return `${start},0.${1 + (i % 7)}${i === 301 ? ',away' : ''}`;
    });
    expect(importText(['start,import kWh', ...lines]).report.files[0]!.unusedColumns).toEqual(['column 3']);
  });

  test('a column of units that the user leaves out', () => {
    const { readings } = importText(
      ['start,import,unit', '2026-01-25 00:00,100,kWh', '2026-01-25 00:30,250,Wh'],
      { channels: { unit: 'ignore' }, unit: 'Wh' },
    );
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.25]);
  });

  test.each([
    ['Consumption (kWh)', 'Solar generation (kWh)', true],
    ['Consumption (kWh)', 'Battery discharge (kWh)', true],
    ['Consumption (kWh)', 'Export (kWh)', false],
    ['Import (kWh)', 'Solar generation (kWh)', false],
  ])('%s beside %s: assumed to be the import and said so? %s', (header, other, said) => {
    const { readings, report } = importText([`start,${header},${other}`, ...ISO.map((s) => `${s},0.3,0.1`)]);
    expect(readings.channels.importKwh![0]).toBe(0.3);
    expect(
      report.files[0]!.assumptions.includes(
        `"${header}" is importKwh, what came from the grid, though beside "${other}" it could be all that the home used (--channel "${header}=ignore" leaves it out)`,
      ),
    ).toBe(said);
  });

  test('hours are split into two equal halves, temperatures and prices held, and the report says so', () => {
    const { readings, report } = importText([
      'start,import kWh,outdoor temperature °C,price p/kWh',
      '2026-01-25 00:00,0.5,4.5,20',
      '2026-01-25 01:00,0.25,-1.5,-3',
    ]);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.25, 0.25, 0.125, 0.125]);
    expect(Array.from(readings.channels.outdoorC!)).toEqual([4.5, 4.5, -1.5, -1.5]);
    expect(Array.from(readings.channels.pricePence!)).toEqual([20, 20, -3, -3]);
    expect(report.files[0]!.interval).toBe('60 minutes, split into two equal halves');
  });

  test('temperatures and prices of quarters are averaged; °F and pounds are turned into °C and pence', () => {
    const { readings } = importText([
      'start,outdoor temp (°F),price (£/kWh)',
      '2026-01-25 00:00,32,0.10',
      '2026-01-25 00:15,50,0.30',
    ]);
    expect(readings.channels.outdoorC![0]).toBeCloseTo(5, 12);
    expect(readings.channels.pricePence![0]).toBeCloseTo(20, 12);
  });
});

describe('one line a day', () => {
  const two = (n: number): string => String(n).padStart(2, '0');
  const label = (i: number): string => `${two(Math.floor(i / 2))}:${i % 2 ? '30' : '00'}`;
  const values = Array.from({ length: 48 }, (_, i) => (0.1 + (i % 7) / 10).toFixed(1));
  const headers: Record<string, string[]> = {
    'times of start': ['Date', ...Array.from({ length: 48 }, (_, i) => label(i))],
    'times of end': ['Date', ...Array.from({ length: 48 }, (_, i) => label(i + 1))],
    'times of end, the last 00:00': ['Date', ...Array.from({ length: 48 }, (_, i) => label((i + 1) % 48))],
    ranges: ['Date', ...Array.from({ length: 48 }, (_, i) => `${label(i)}-${label(i + 1)}`)],
    'digits alone': ['Date', ...Array.from({ length: 48 }, (_, i) => label(i).replace(':', ''))],
    'numbers from 1': ['Date', ...Array.from({ length: 48 }, (_, i) => String(i + 1))],
    'numbers with a word': ['Date', ...Array.from({ length: 48 }, (_, i) => `HH${two(i + 1)}`)],
    'numbers and room for 50': ['Date', ...Array.from({ length: 50 }, (_, i) => String(i + 1))],
  };
  test.each(Object.entries(headers))('header of %s', (_, header) => {
    const { readings } = importText([
      header.join(','),
      `2026-01-25,${values.join(',')}`,
      `2026-01-26,${values.join(',')}`,
    ]);
    expect(utcTexts(readings.startUtcMs).slice(0, 2)).toEqual(STARTS.slice(0, 2));
    expect(Array.from(readings.channels.importKwh!)).toEqual([...values, ...values].map(Number));
  });

  test('no header, and a column before the date', () => {
    const { readings } = importText([
      `home,25/01/2026,${values.join(',')}`,
      `home,26/01/2026,${values.join(',')}`,
    ]);
    expect(readings.startUtcMs.length).toBe(96);
  });

  test.each([
    [24, 60],
    [96, 15],
    [144, 10],
    [288, 5],
  ])('%i columns are intervals of %i minutes', (columns, minutes) => {
    const header = Array.from({ length: columns }, (_, i) => i + 1);
    const { readings, report } = importText([
      `Date,${header.join(',')}`,
      `2026-01-25,${header.map(() => '0.06').join(',')}`,
    ]);
    expect(readings.startUtcMs.length).toBe(48);
    expect(readings.channels.importKwh!.reduce((a, b) => a + b, 0)).toBeCloseTo(0.06 * columns, 9);
    expect(report.files[0]!.interval).toMatch(new RegExp(`^${minutes} minutes`));
  });

  test('a column of totals after the last is no half-hour', () => {
    const { readings, report } = importText([
      `${headers['times of start']!.join(',')},Total`,
      `2026-01-25,${values.join(',')},19.2`,
    ]);
    expect(readings.startUtcMs.length).toBe(48);
    expect(report.files[0]!.unusedColumns).toEqual(['"Total"']);
  });

  test('a column that names the channel', () => {
    const { readings } = importText([
      `Channel,Date,${Array.from({ length: 48 }, (_, i) => i + 1).join(',')}`,
      `Import,2026-01-25,${values.join(',')}`,
      `Solar generation,2026-01-25,${values.map(() => '0').join(',')}`,
    ]);
    expect(Object.keys(readings.channels)).toEqual(['importKwh', 'solarKwh']);
  });
});

describe('a column of values that no word names', () => {
  const readingsOf = (lines: string[], name?: string) => {
    const { readings, report } = importText(lines, { intervalMinutes: 30 }, name);
    return { channels: Object.keys(readings.channels), assumed: report.files[0]!.assumptions[0] };
  };
  const two = (cells: string): string[] => [`2026-01-25 00:00,${cells}`, `2026-01-25 00:30,${cells}`];

  test('goes by the title above the table', () => {
    expect(readingsOf(['Export of our home', 'start,kWh', ...two('0.1')])).toEqual({
      channels: ['exportKwh'],
      assumed: '"kWh" is exportKwh, from line 1 (--default-channel says otherwise)',
    });
  });
  test('else by the name of the file', () => {
    expect(readingsOf(['start,kWh', ...two('0.1')], 'meters/solar-2026.csv')).toEqual({
      channels: ['solarKwh'],
      assumed: '"kWh" is solarKwh, from the name of the file (--default-channel says otherwise)',
    });
  });
  test('else it is import, and said', () => {
    expect(readingsOf(['start,kWh', ...two('0.1')])).toEqual({
      channels: ['importKwh'],
      assumed: '"kWh" is importKwh, as nothing names it (--default-channel says otherwise)',
    });
  });
  test('a unit that only one channel has names it', () => {
    expect(readingsOf(['valid_from,value_p_kwh', ...two('21.5')])).toEqual({
      channels: ['pricePence'],
      assumed: undefined,
    });
    expect(readingsOf(['start,°C', ...two('21.5')])).toEqual({ channels: ['outdoorC'], assumed: undefined });
  });
  test('an option names it', () => {
    const { readings } = importText(['start,kWh', ...two('0.1')], {
      intervalMinutes: 30,
      defaultChannel: 'carKwh',
    });
    expect(Object.keys(readings.channels)).toEqual(['carKwh']);
  });
  test('options of single files go before those of all', () => {
    const { readings } = importText(['start,kWh', ...two('0.1')], {
      defaultChannel: 'carKwh',
      perFile: { 'readings.csv': { defaultChannel: 'heatPumpKwh' } },
    });
    expect(Object.keys(readings.channels)).toEqual(['heatPumpKwh']);
  });
});

describe('start or end, where no word says it', () => {
  const day = (first: number): string[] =>
    Array.from({ length: 48 }, (_, i) => {
      const at = new Date(Date.UTC(2026, 0, 25) + (i + first) * 1_800_000).toISOString().slice(0, 16);
      return `${at.replace('T', ' ')},0.${1 + (i % 7)}`;
    });
  test('whole days from 00:30 to 00:00 are stamped by end, and the report says that it was taken so', () => {
    const { readings, report } = importText(['when,import kWh', ...day(1)]);
    expect(utcTexts(readings.startUtcMs)[0]).toBe(STARTS[0]);
    expect(report.files[0]!.assumptions).toEqual([
      'stamps mark the end of the interval, as they run from 00:30 to 00:00 (--stamp start says otherwise)',
    ]);
  });
  test('24:00 is an end', () => {
    const lines = day(1);
    lines[47] = '2026-01-25 24:00,0.5';
    const { readings } = importText(['when,import kWh', ...lines]);
    expect(utcTexts(readings.startUtcMs)).toEqual(
      utcTexts(importText(['when,import kWh', ...day(1)]).readings.startUtcMs),
    );
  });
  test('whole days from 00:00 to 23:30 are stamped by start', () => {
    const { readings } = importText(['when,import kWh', ...day(0)]);
    expect(utcTexts(readings.startUtcMs)[0]).toBe(STARTS[0]);
  });
  test('without evidence the start is taken, and said', () => {
    const { report } = importText(['when,import kWh', ...day(0).slice(5, 20)]);
    expect(report.files[0]!.assumptions).toEqual([
      'stamps mark the start of the interval, as nothing says which (--stamp end says otherwise)',
    ]);
  });
});

describe('encodings', () => {
  const text = 'start;import kWh;outdoor temp °C\n2026-01-25 00:00;0,1;3,5\n2026-01-25 00:30;0,2;3,5\n';
  test.each([
    ['UTF-8', Buffer.from(text)],
    ['UTF-8 with byte-order mark', Buffer.from(`\ufeff${text}`)],
    ['UTF-16 LE', Buffer.from(`\ufeff${text}`, 'utf16le')],
    ['UTF-16 BE', Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
    ['UTF-16 LE, no byte-order mark', Buffer.from(text, 'utf16le')],
    ['Windows-1252 (Latin-1), as it is not UTF-8', Buffer.from(text, 'latin1')],
    ['UTF-8', Buffer.from(text.replaceAll('\n', '\r\n'))],
    ['UTF-8', Buffer.from(text.replaceAll('\n', '\r'))],
  ])('%s', async (encoding, bytes) => {
    const { importFiles } = await import('../../src/readings/index.js');
    const { readings, report } = importFiles([{ name: 'a.csv', bytes }], { timeZone: 'Europe/London' });
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.2]);
    expect(Array.from(readings.channels.outdoorC!)).toEqual([3.5, 3.5]);
    expect(report.files[0]!.encoding).toBe(encoding);
  });
});
