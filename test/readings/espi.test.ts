import { describe, expect, test } from 'vitest';
import {
  formatImportReport,
  type ImportOptions,
  importFiles,
  importGasFiles,
  importTemperatureFiles,
} from '../../src/readings/index.js';
import { messageOf, utcTexts } from './import-text.js';

/** 1 March 2026, 05:00 UTC: midnight of the east coast of the Americas. */
const START = Date.UTC(2026, 2, 1, 5) / 1000;

interface Point {
  id: string;
  title?: string;
  /** 0 electricity, 1 gas. */
  service?: number;
}
interface Type {
  id: string;
  fields: Record<string, number>;
}
type Value = number | { value?: number; cost?: number; quality?: number };
interface Block {
  point: string;
  type: string;
  from?: number;
  seconds?: number;
  values: readonly Value[];
}

const WH = {
  accumulationBehaviour: 4,
  commodity: 1,
  flowDirection: 1,
  kind: 12,
  powerOfTenMultiplier: 0,
  uom: 72,
};

/** A feed as REQ.21 describes it: entries that refer to each other by links; structure from memory. */
function entriesOf(
  points: readonly Point[],
  types: readonly Type[],
  blocks: readonly Block[],
  prefix = '',
): string[] {
  const base = 'https://utility.example/espi/1_1/resource';
  const e = (name: string, content: string): string => `<${prefix}${name}>${content}</${prefix}${name}>`;
  const entry = (title: string, links: string, content: string): string =>
    `<entry><title>${title}</title>${links}<content>${content}</content></entry>`;
  const link = (rel: string, path: string): string => `<link rel="${rel}" href="${base}/${path}"/>`;
  const point = points.map(({ id, title = '', service = 0 }) =>
    entry(
      title,
      link('self', `UsagePoint/${id}`),
      e('UsagePoint', e('ServiceCategory', e('kind', String(service)))),
    ),
  );
  const type = types.map(({ id, fields }) =>
    entry(
      '',
      link('self', `ReadingType/${id}`),
      e(
        'ReadingType',
        Object.entries(fields)
          .map(([name, value]) => e(name, String(value)))
          .join(''),
      ),
    ),
  );
  const pairs = [...new Set(blocks.map((block) => `${block.point} ${block.type}`))];
  const meter = pairs.map((pair, i) => {
    const [pointId, typeId] = pair.split(' ');
    const at = `UsagePoint/${pointId}/MeterReading/${i}`;
    return entry(
      '',
      `${link('self', at)}${link('up', `UsagePoint/${pointId}/MeterReading`)}${link('related', `ReadingType/${typeId}`)}`,
      e('MeterReading', ''),
    );
  });
  const block = blocks.map(({ point: pointId, type: typeId, from = START, seconds = 3600, values }) => {
    const at = `UsagePoint/${pointId}/MeterReading/${pairs.indexOf(`${pointId} ${typeId}`)}/IntervalBlock`;
    const readings = values.map((one, i) => {
      const { value, cost, quality } =
        typeof one === 'number' ? { value: one, cost: undefined, quality: undefined } : one;
      const period = e(
        'timePeriod',
        `${e('duration', String(seconds))}${e('start', String(from + i * seconds))}`,
      );
      return e(
        'IntervalReading',
        `${cost === undefined ? '' : e('cost', String(cost))}${quality === undefined ? '' : e('ReadingQuality', e('quality', String(quality)))}${period}${value === undefined ? '' : e('value', String(value))}`,
      );
    });
    const interval = e('interval', `${e('duration', '86400')}${e('start', String(from))}`);
    return entry(
      '',
      `${link('self', `${at}/${from}`)}${link('up', at)}`,
      e('IntervalBlock', interval + readings.join('\n')),
    );
  });
  return [...point, ...meter, ...type, ...block];
}

const feedOf = (entries: readonly string[], prefix = ''): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<feed xmlns="http://www.w3.org/2005/Atom" xmlns${prefix === '' ? '' : `:${prefix.slice(0, -1)}`}${prefix === '' ? ':espi' : ''}="http://naesb.org/espi">\n<title>Usage</title>\n${entries.join('\n')}\n</feed>\n`;
const feed = (points: readonly Point[], types: readonly Type[], blocks: readonly Block[]): string =>
  feedOf(entriesOf(points, types, blocks));

const zone = { timeZone: 'America/New_York' };
const inputOf = (xml: string) => [{ name: 'usage.xml', bytes: Buffer.from(xml) }];
const read = (xml: string, options: Partial<ImportOptions> = {}) =>
  importFiles(inputOf(xml), { ...zone, ...options });
const hours = (value: number, count = 24): number[] => Array<number>(count).fill(value);
const home = [{ id: '1', title: 'Home' }];
const both = [
  { id: 'f', fields: WH },
  { id: 'r', fields: { ...WH, flowDirection: 19 } },
];

describe('an ESPI feed', () => {
  test('what flows forward came from the grid, in reverse went to it; seconds are UTC', () => {
    const { readings, report } = read(
      feed(home, both, [
        { point: '1', type: 'f', values: hours(500) },
        { point: '1', type: 'r', values: hours(200) },
      ]),
    );
    expect(utcTexts(readings.startUtcMs)[0]).toBe('2026-03-01T05:00');
    expect(report.channels[0]?.from).toBe('2026-03-01 00:00');
    expect(readings.channels).toEqual({
      importKwh: Float64Array.from(hours(0.25, 48)),
      exportKwh: Float64Array.from(hours(0.1, 48)),
    });
    expect(formatImportReport(report)).toContain(
      [
        'usage.xml',
        '  values    48',
        '  of        48 readings: 48 with readings',
        '  file      ESPI (NAESB REQ.21), "Home"',
        '  column    Home forward: import, Wh',
        '  column    Home reverse: export, Wh',
      ].join('\n'),
    );
  });

  test.each<[string, Record<string, number>, number, number]>([
    ['kWh by the power of ten', { powerOfTenMultiplier: 3 }, 2, 1],
    ['tenths of Wh', { powerOfTenMultiplier: -1 }, 5000, 0.25],
    ['W as mean power', { uom: 38, kind: 8 }, 500, 0.25],
    ['primary metered', { commodity: 2 }, 500, 0.25],
  ])('%s', (_, fields, value, kwh) => {
    const { readings } = read(
      feed(
        home,
        [{ id: 'f', fields: { ...WH, ...fields } }],
        [{ point: '1', type: 'f', values: hours(value) }],
      ),
    );
    expect(Array.from(readings.channels.importKwh!)).toEqual(hours(kwh, 48));
  });

  test('entries, blocks and readings may come in any order, with any prefix', () => {
    const blocks = [
      { point: '1', type: 'f', values: hours(500).map((value, i) => value + i) },
      { point: '1', type: 'r', values: hours(200) },
      { point: '1', type: 'f', from: START + 86_400, values: hours(700) },
    ];
    const usual = read(feed(home, both, blocks)).readings;
    for (const prefix of ['', 'espi:', 'ns0:']) {
      const entries = entriesOf(home, both, blocks, prefix);
      const turned = feedOf([...entries].reverse(), prefix);
      expect(read(turned).readings).toEqual(usual);
    }
  });

  test.each([900, 1800, 3600])('of %i s', (seconds) => {
    const count = 86_400 / seconds;
    const xml = feed(home, both, [{ point: '1', type: 'f', seconds, values: hours(24_000 / count, count) }]);
    const { readings, report } = read(xml);
    expect(readings.startUtcMs.length).toBe(48);
    expect(report.channels[0]?.totalKwh).toBeCloseTo(24, 9);
  });

  test('two lengths of interval in one file, and sums of days beside them', () => {
    const { readings, report } = read(
      feed(
        home,
        [...both, { id: 'd', fields: WH }],
        [
          { point: '1', type: 'f', values: hours(500) },
          { point: '1', type: 'r', seconds: 900, values: hours(50, 96) },
          { point: '1', type: 'd', seconds: 86_400, values: [12_000] },
        ],
      ),
    );
    expect(readings.channels.importKwh![0]).toBe(0.25);
    expect(readings.channels.exportKwh![0]).toBe(0.1);
    expect(report.files.map(({ lines }) => lines.all)).toEqual([25, 96]);
    expect(report.files[0]?.lines.other).toEqual([{ count: 1, what: 'of sums of days, not read' }]);
  });

  test('marks what is estimated, and tells what else was made up', () => {
    const values = [
      { value: 500, quality: 17 },
      { value: 500, quality: 8 },
      { value: 500, quality: 10 },
      ...hours(500, 21).map((value) => ({ value, quality: 19 })),
    ];
    const { readings, report } = read(feed(home, both, [{ point: '1', type: 'f', values }]));
    expect(Array.from(readings.estimated!)).toEqual([0, 0, 1, 1, 1, 1, ...hours(0, 42)]);
    expect(report.files[0]?.assumptions).toContain(
      'readings of quality 10, questionable are marked as estimated',
    );
  });

  test('several meters are asked about by name, and left out or added as told', () => {
    const xml = feed([...home, { id: '2', title: 'Garage' }], both, [
      { point: '1', type: 'f', values: hours(500) },
      { point: '2', type: 'f', values: hours(100, 20) },
    ]);
    expect(messageOf(() => read(xml))).toMatch(
      /^InputError: usage.xml, line \d+: "Home forward" and "Garage forward" could both be importKwh. Say which is: leave one out with --channel "Garage forward=ignore"/,
    );
    expect(read(xml, { channels: { Garage: 'ignore' } }).readings.channels.importKwh![0]).toBe(0.25);
    expect(Object.keys(read(xml, { channels: { Garage: 'carKwh' } }).readings.channels)).toEqual([
      'importKwh',
      'carKwh',
    ]);
    const added = read(xml, { channels: { 'Home forward': 'importKwh', 'Garage forward': 'importKwh' } });
    expect(Array.from(added.readings.channels.importKwh!)).toEqual(hours(0.3, 40));
    expect(added.report.files[0]?.lines).toMatchObject({ all: 44, readings: 40, withoutValue: 4 });
    expect(added.report.files[0]?.assumptions).toContain(
      '"Home forward" and "Garage forward" are added, where all of them have a value',
    );
  });

  test('reactive energy, registers and maxima are told and left out', () => {
    const types = [
      { id: 'f', fields: WH },
      { id: 'q', fields: { ...WH, uom: 73 } },
      { id: 's', fields: { ...WH, accumulationBehaviour: 9 } },
      { id: 'm', fields: { ...WH, uom: 38, dataQualifier: 8 } },
      { id: 'n', fields: { ...WH, flowDirection: 4 } },
    ];
    const { report } = read(
      feed(
        home,
        types,
        types.map(({ id }) => ({ point: '1', type: id, values: hours(500) })),
      ),
    );
    expect(report.channels.map(({ channel }) => channel)).toEqual(['importKwh']);
    expect(report.files[0]?.lines.other?.map(({ what }) => what)).toEqual([
      'in varh, not read',
      'states of a register, not read',
      'maxima, not read',
      'net of both directions, not read',
    ]);
    expect(report.files[0]?.lines.all).toBe(120);
  });

  const gasPoint = [{ id: 'g', title: 'Gas', service: 1 }];
  const gasType = (uom: number, powerOfTenMultiplier = 0) => [
    { id: 'g', fields: { ...WH, commodity: 7, uom, powerOfTenMultiplier } },
  ];
  test.each<[string, number, number, number, number, 'm3' | 'kWh']>([
    ['cubic metres', 42, -3, 2500, 2.5, 'm3'],
    ['cubic feet', 119, 0, 100, 2.83168, 'm3'],
    ['therms', 169, -2, 150, 43.96065, 'kWh'],
    ['British thermal units', 132, 3, 100, 29.3071, 'kWh'],
  ])('gas in %s is read as gas', (_, uom, power, value, gas, unit) => {
    const xml = feed(gasPoint, gasType(uom, power), [
      { point: 'g', type: 'g', seconds: 86_400, values: hours(value, 5) },
    ]);
    const { periods } = importGasFiles(inputOf(xml), zone);
    expect(periods.length).toBe(5);
    expect(periods[0]?.value).toBeCloseTo(gas, 9);
    expect([periods[0]?.fromSerial, periods[0]?.toSerial, periods[0]?.unit]).toEqual([46_082, 46_083, unit]);
  });

  test('gas and electricity of one file: each reader takes its own and tells of the other', () => {
    const xml = feed(
      [...home, ...gasPoint],
      [...both, ...gasType(42)],
      [
        { point: '1', type: 'f', values: hours(500) },
        { point: 'g', type: 'g', seconds: 86_400, values: hours(2, 3) },
      ],
    );
    const { report } = read(xml);
    expect(report.files[0]?.lines.other).toEqual([
      { count: 3, what: 'of gas, not read (give the file with --gas too)' },
    ]);
    expect(importGasFiles(inputOf(xml), zone).periods.length).toBe(3);
  });

  const plain = feed(home, both, [{ point: '1', type: 'f', values: hours(500) }]);
  test.each<[string, string, string]>([
    [
      'costs alone',
      feed(home, both, [{ point: '1', type: 'f', values: hours(9).map((cost) => ({ cost })) }]),
      'the file holds costs alone, and no energy. Download the usage',
    ],
    [
      'gas alone',
      feed(gasPoint, gasType(42), [{ point: 'g', type: 'g', values: hours(2) }]),
      'the file holds gas and no electricity. Give it as gas: --gas.',
    ],
    ['no readings', feed(home, both, []), 'usage.xml: the file holds no interval readings'],
    ['a cut file', plain.slice(0, -200), 'the XML document is cut or damaged (unclosed tag'],
    [
      'a document type',
      plain.replace('<feed', '<!DOCTYPE feed [<!ENTITY a "b">]><feed'),
      'the XML document declares a document type',
    ],
    [
      'a value that is none',
      plain.replace('<value>500</value>', '<value>5oo</value>'),
      '"5oo" is not a number',
    ],
    [
      'a start that is none',
      plain.replace(`<start>${START}</start></timePeriod>`, '<start>soon</start></timePeriod>'),
      'the reading begins at "soon"',
    ],
    [
      'blocks of no meter',
      feed(home, both, [
        { point: '1', type: 'f', values: hours(500) },
        { point: '1', type: 'r', values: hours(500) },
      ])
        .replaceAll('/MeterReading/1', '/MeterReading/7')
        .replace('UsagePoint/1/MeterReading/7"', 'UsagePoint/1/MeterReading/9"'),
      'a block of readings does not say of which',
    ],
    [
      'a reading outside every entry',
      plain.replace(
        '</entry>\n</feed>',
        '</entry>\n<IntervalReading><value>500</value></IntervalReading></feed>',
      ),
      'a reading stands outside every entry of the feed',
    ],
    [
      'a block by another name',
      plain.replace('<IntervalBlock>', '<IntervalBlack>').replace('</IntervalBlock>', '</IntervalBlack>'),
      'readings stand in an entry of "IntervalBlack", not of IntervalBlock',
    ],
    [
      'days alone',
      feed(home, both, [{ point: '1', type: 'f', seconds: 86_400, values: hours(9000, 3) }]),
      'the file holds one value every day, no half-hourly readings',
    ],
  ])('%s is told', (_, xml, message) => {
    expect(messageOf(() => read(xml))).toContain(message);
  });

  test('is no file of temperatures', () => {
    expect(messageOf(() => importTemperatureFiles(inputOf(plain), zone))).toContain(
      'the file is ESPI, which holds no temperatures',
    );
  });
});
