import { electricityReader, type FuzzReader, gasReader, temperatureReader } from './fuzz-readers.js';
import { packOds, packXlsx, packZip } from './pack-sheets.js';

/** A file that is read without a question, as its lines. */
export interface FuzzSample {
  name: string;
  lines: string[];
  /** Lines down to the header and its units. */
  headLines: number;
  /** First lines that stay as they are. */
  keptLines: number;
  /** Lines before and after its own that a value may rest upon. */
  reach: number;
  /** Values that one line may hold. */
  valuesOfLine: number;
  /** Mark between cells. */
  delimiter: string;
  /** Whether each line is one value's, so that its columns may change places. */
  isLong: boolean;
  /** Makes the file of its lines, where it is no text; their encoding means nothing then. */
  pack?: (lines: readonly string[]) => Uint8Array;
  /** Packs the file, where it is a text in another. */
  packText?: (bytes: Uint8Array) => Uint8Array;
  read: FuzzReader;
}

const MINUTE_MS = 60_000;
const HALF_HOUR_MS = 30 * MINUTE_MS;
const DAY_MS = 48 * HALF_HOUR_MS;
const START = Date.UTC(2026, 0, 25);
/** Enough lines for whatever looks at a file's looks, few enough for thousands of files. */
const LINES = 30;

const two = (n: number): string => String(n).padStart(2, '0');
const iso = (at: Date): string => at.toISOString().slice(0, 16).replace('T', ' ');
const day = (at: Date): string => at.toISOString().slice(0, 10);
const clock = (at: Date): string => at.toISOString().slice(11, 16);
const dmy = (at: Date): string =>
  `${two(at.getUTCDate())}/${two(at.getUTCMonth() + 1)}/${at.getUTCFullYear()}`;
const later = (at: Date, ms = HALF_HOUR_MS): Date => new Date(at.getTime() + ms);
/** By twelve hours, month first. */
const american = (at: Date): string => {
  const hour = at.getUTCHours();
  const date = `${at.getUTCMonth() + 1}/${at.getUTCDate()}/${at.getUTCFullYear()}`;
  return `${date} ${hour % 12 || 12}:${two(at.getUTCMinutes())} ${hour < 12 ? 'AM' : 'PM'}`;
};

/** A number that neither rises nor repeats its neighbours. */
const spread = (i: number, size: number): number => (i * 37) % size;
const kwh = (i: number): string => (0.1 + spread(i, 101) / 250).toFixed(3);

/** Lines of intervals one after another. */
function intervals<Line>(
  line: (local: Date, i: number) => Line,
  count = LINES,
  stepMs = HALF_HOUR_MS,
): Line[] {
  return Array.from({ length: count }, (_, i) => line(new Date(START + i * stepMs), i));
}

/** Lines of days, each with a value for every half-hour. */
function days<Line>(line: (date: Date, values: string[]) => Line, count = 3): Line[] {
  return Array.from({ length: count }, (_, d) =>
    line(
      new Date(START + d * DAY_MS),
      Array.from({ length: 48 }, (_, i) => kwh(d * 48 + i)),
    ),
  );
}

function sample(
  name: string,
  head: readonly string[],
  body: readonly string[],
  more: Partial<Omit<FuzzSample, 'name' | 'lines' | 'headLines'>> = {},
): FuzzSample {
  const delimiter = more.delimiter ?? /[;\t|,]/.exec(body[0]!)![0];
  return {
    name,
    lines: [...head, ...body],
    headLines: head.length,
    keptLines: 0,
    reach: 0,
    valuesOfLine: 1,
    delimiter,
    isLong: body[0]!.split(delimiter).length < 10,
    read: electricityReader(),
    ...more,
  };
}

/**
 * Small files of every shape that is read.
 *
 * @returns samples; each is read without a question
 * @example fuzzSamples()[0].lines[0] // 'start,import kWh'
 */
export function fuzzSamples(): FuzzSample[] {
  return [
    ...samplesOfIntervals(),
    ...samplesOfClocks(),
    ...samplesOfDays(),
    ...samplesForHeating(),
    ...samplesOfFlows(),
    ...samplesOfDocuments(),
  ];
}

function samplesOfIntervals(): FuzzSample[] {
  const usual = intervals((at, i) => `${iso(at)},${kwh(i)}`);
  return [
    sample('plain', ['start,import kWh'], usual),
    sample('no header', [], usual),
    sample('newest first', ['start,solar kWh'], [...usual].reverse()),
    sample(
      'ends, average kW, decimal commas',
      ['Interval end;Import kW'],
      intervals((at, i) => `${dmy(later(at))} ${clock(later(at))};${kwh(i).replace('.', ',')}`),
    ),
    sample(
      'preamble, UTC, units below',
      ['Our home, readings', '', 'Meter,0012345', 'Start (UTC),import,export', ',kWh,kWh'],
      intervals((at, i) => `${iso(at)},${kwh(i)},${kwh(i + 7)}`),
      { valuesOfLine: 2 },
    ),
    sample(
      'date and time apart, marks',
      ['Date,Start time,Import kWh,Export kWh,Read type'],
      intervals((at, i) => `${dmy(at)},${clock(at)},${kwh(i)},${kwh(i + 7)},${i % 9 === 4 ? 'E' : 'A'}`),
      { valuesOfLine: 3 },
    ),
    sample(
      'a column of channels and one of units',
      ['start,flow,value,unit'],
      intervals((at, i) => [
        `${iso(at)},import,${kwh(i)},kWh`,
        `${iso(at)},heat pump,${10 + spread(i, 90)}0,Wh`,
      ]).flat(),
    ),
    sample(
      'a register',
      ['time,import register kWh'],
      intervals((at, i) => `${iso(at)}:00Z,${(1000 + i * 0.25 + spread(i, 11) / 100).toFixed(2)}`),
      { reach: 1, valuesOfLine: 2 },
    ),
    sample(
      'quarters by tabs',
      ['Interval end\tCar kWh'],
      intervals((at, i) => `${iso(later(at, 15 * MINUTE_MS))}\t${kwh(i)}`, 40, 15 * MINUTE_MS),
      { reach: 1 },
    ),
    sample(
      'five minutes of watts by bars',
      ['start|battery charge W|battery discharge W'],
      intervals((at, i) => `${iso(at)}|${100 + spread(i, 900)}|${spread(i, 50)}`, 60, 5 * MINUTE_MS),
      { reach: 5, valuesOfLine: 2 },
    ),
    sample(
      'both ends',
      ['From,To,Import kWh'],
      intervals((at, i) => `${iso(at)},${iso(later(at))},${kwh(i)}`),
    ),
    sample(
      'numbered half-hours',
      ['Date,Half-hour,Import kWh'],
      intervals((at, i) => `${day(at)},${(i % 48) + 1},${kwh(i)}`, 60),
    ),
    sample(
      'hours of import, temperature and price',
      ['start,import kWh,outdoor temperature °C,price p/kWh'],
      intervals(
        (at, i) => `${iso(at)},${kwh(i)},${spread(i, 19) - 4}.5,${10 + spread(i, 20)}.25`,
        LINES,
        2 * HALF_HOUR_MS,
      ),
      { valuesOfLine: 6 },
    ),
    sample(
      'quoted, month first, by twelve hours, Wh',
      ['"Start time","Export, Wh"'],
      intervals((at, i) => `"${american(at)}","${100 + spread(i, 900)}"`),
    ),
    sample(
      'a counter of the day',
      ['start,solar today kWh'],
      intervals(
        (at, i) => `${iso(at)},${((i % 48) * 0.25 + (spread(i, 11) * Math.min(i % 48, 1)) / 100).toFixed(2)}`,
        60,
      ),
      { reach: 1, valuesOfLine: 2, read: electricityReader({ register: 'daily' }) },
    ),
  ];
}

/** When the clocks of the samples go back, epoch ms. */
export const CHANGE_UTC = Date.UTC(2026, 9, 25, 1);

function samplesOfClocks(): FuzzSample[] {
  const around = (line: (local: Date, isSummer: boolean, i: number) => string): string[] =>
    Array.from({ length: LINES }, (_, i) => {
      const utcMs = CHANGE_UTC + (i - LINES / 2) * HALF_HOUR_MS;
      const isSummer = utcMs < CHANGE_UTC;
      return line(new Date(isSummer ? utcMs + 2 * HALF_HOUR_MS : utcMs), isSummer, i);
    });
  return [
    sample(
      'words for the zone',
      ['Start,import kWh'],
      around((at, isSummer, i) => `${dmy(at)} ${clock(at)} ${isSummer ? 'BST' : 'GMT'},${kwh(i)}`),
    ),
    sample(
      'offsets from UTC',
      ['Start,import kWh'],
      around((at, isSummer, i) => `${iso(at).replace(' ', 'T')}${isSummer ? '+01:00' : '+00:00'},${kwh(i)}`),
    ),
    sample(
      'an hour that comes twice',
      ['Start,import kWh'],
      around((at, _, i) => `${iso(at)},${kwh(i)}`),
    ),
  ];
}

function samplesOfDays(): FuzzSample[] {
  const labels = Array.from({ length: 48 }, (_, i) => `${two(Math.floor(i / 2))}:${i % 2 ? '30' : '00'}`);
  const numbers = labels.map((_, i) => i + 1);
  return [
    sample(
      'a line a day, numbers',
      [`Date,${numbers.join(',')}`],
      days((date, values) => `${day(date)},${values.join(',')}`),
      { valuesOfLine: 50 },
    ),
    sample(
      'a line a day, times and decimal commas',
      [`Date;${labels.join(';')}`],
      days((date, values) => `${day(date)};${values.map((value) => value.replace('.', ',')).join(';')}`),
      { valuesOfLine: 50 },
    ),
    sample(
      'a line a day and channel',
      [`Date,Quantity,${numbers.join(',')}`],
      days((date, values) => [
        `${dmy(date)},import,${values.join(',')}`,
        `${dmy(date)},export,${values.toReversed().join(',')}`,
      ]).flat(),
      { valuesOfLine: 50 },
    ),
  ];
}

function samplesForHeating(): FuzzSample[] {
  return [
    sample(
      'gas by months, a register',
      ['Date,Gas meter register m3'],
      Array.from(
        { length: 13 },
        (_, i) => `${day(new Date(Date.UTC(2025, i, 1)))},${(1000 + i * 40 + spread(i, 11)).toFixed(1)}`,
      ),
      // Its header alone tells reads of gas from gas used.
      { keptLines: 1, reach: 1, valuesOfLine: 2, read: gasReader },
    ),
    sample(
      'gas by days',
      ['Day,Gas kWh'],
      intervals((date, i) => `${day(date)},${(20 + spread(i, 31)).toFixed(1)}`, LINES, DAY_MS),
      { read: gasReader },
    ),
    sample(
      'gas by months, both ends',
      ['From;To;Gas m3'],
      Array.from({ length: 12 }, (_, i) => {
        const [from, to] = [i, i + 1].map((month) => day(new Date(Date.UTC(2025, month, 1))));
        return `${from};${to};${(10 + spread(i, 31)).toFixed(1).replace('.', ',')}`;
      }),
      { read: gasReader },
    ),
    sample(
      'temperatures by days',
      ['date,mean °C,max °C,min °C'],
      intervals(
        (date, i) =>
          `${day(date)},${(5 + spread(i, 9)).toFixed(1)},${(15 + spread(i, 9)).toFixed(1)},${(-4 + spread(i, 9)).toFixed(1)}`,
        LINES,
        DAY_MS,
      ),
      { valuesOfLine: 3, read: temperatureReader },
    ),
    sample(
      'temperatures by days, °F',
      ['day\tmean outdoor temperature °F'],
      intervals((date, i) => `${dmy(date)}\t${(40 + spread(i, 9)).toFixed(1)}`, LINES, DAY_MS),
      { read: temperatureReader },
    ),
  ];
}

function samplesOfFlows(): FuzzSample[] {
  return [
    sample(
      'power with a sign',
      ['start,battery power W'],
      intervals((at, i) => `${iso(at)},${spread(i, 900) - 450}`),
      { valuesOfLine: 2, read: electricityReader({ defaultChannel: 'batteryNetKwh' }) },
    ),
    sample(
      'sessions of a charger',
      ['Session start,Session end,Energy kWh'],
      intervals(
        (at, i) =>
          `${iso(at)},${iso(later(at, (35 + spread(i, 85)) * MINUTE_MS))},${(1 + spread(i, 30) / 4).toFixed(2)}`,
        LINES,
        4 * HALF_HOUR_MS,
      ),
      // A date changed lengthens the list, and nothing was used in between, as the report says.
      { reach: 1, valuesOfLine: Number.POSITIVE_INFINITY },
    ),
  ];
}

function samplesOfDocuments(): FuzzSample[] {
  const head = ['start,import kWh,export kWh'];
  const body = intervals((at, i) => `${iso(at)},${kwh(i)},${kwh(i + 7)}`);
  return [
    sample('a zip file of a text', head, body, { valuesOfLine: 2, packText: packZip }),
    sample('a sheet of an .xlsx file', head, body, { valuesOfLine: 2, pack: packXlsx }),
    sample('a sheet of an .ods file', head, body, { valuesOfLine: 2, pack: packOds }),
    sample(
      'NEM12',
      ['100,NEM12,202601280000,MDP1,RET1', '200,6001000000,E1,1,E1,N1,01009,kWh,30,'],
      [
        ...days((date, values) => {
          const quality = date.getUTCDate() === 26 ? 'S14' : 'A';
          return `300,${day(date).replaceAll('-', '')},${values.join(',')},${quality},,,20260128000000,`;
        }, 8),
        '900',
      ],
      // What the records 100 and 200 say, each value below them rests upon.
      { keptLines: 2, valuesOfLine: 96, isLong: false },
    ),
    sample(
      'ESPI',
      [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<feed xmlns="http://www.w3.org/2005/Atom">',
        espiEntry(
          'UsagePoint/1',
          '<UsagePoint><ServiceCategory><kind>0</kind></ServiceCategory></UsagePoint>',
        ),
        espiEntry(
          'UsagePoint/1/MeterReading/1',
          '<MeterReading/>',
          '<link rel="related" href="ReadingType/1"/>',
        ),
        espiEntry(
          'ReadingType/1',
          '<ReadingType><accumulationBehaviour>4</accumulationBehaviour><commodity>1</commodity><flowDirection>1</flowDirection><kind>12</kind><powerOfTenMultiplier>0</powerOfTenMultiplier><uom>72</uom></ReadingType>',
        ),
        '<entry><link rel="self" href="UsagePoint/1/MeterReading/1/IntervalBlock/1"/><content><IntervalBlock>',
      ],
      [
        ...intervals(
          (at, i) =>
            `<IntervalReading><timePeriod><duration>1800</duration><start>${at.getTime() / 1000}</start></timePeriod><value>${100 + spread(i, 900)}</value></IntervalReading>`,
        ),
        '</IntervalBlock></content></entry>',
        '</feed>',
      ],
      { keptLines: 6, delimiter: '<', isLong: false },
    ),
  ];
}

const espiEntry = (self: string, content: string, links = ''): string =>
  `<entry><link rel="self" href="${self}"/>${links}<content>${content}</content></entry>`;
