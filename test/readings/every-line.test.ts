import { describe, expect, test } from 'vitest';
import { importFiles } from '../../src/readings/index.js';
import { sampleFiles } from '../../src/sample/sample-files.js';
import { importText, messageOf, utcTexts } from './import-text.js';

const at = (i: number): string =>
  new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16).replace('T', ' ');
const rows = (n: number, from = 0): string[] =>
  Array.from({ length: n }, (_, i) => `${at(from + i)},0.${1 + ((from + i) % 7)}`);
const NOT_A_DATE = (line: number, cell: string): string =>
  `InputError: readings.csv, line ${line}: "${cell}" is not a date. Correct the line, or delete it if it is no reading (a total, a remark). If it is the header, say so: --header ${line}.`;

describe('a fault in the first lines is told, and never makes the header a preamble', () => {
  test("a mistyped date in line 3 of the sample's car file", () => {
    const file = sampleFiles().find(({ name }) => name === 'car-charger.tsv')!;
    const lines = file.text.split('\n');
    lines[2] = lines[2]!.replace('00:30', '00:3o');
    const bytes = Buffer.from(lines.join('\n'));
    expect(lines[2]).toContain('00:3o');
    expect(messageOf(() => importFiles([{ name: 'car.tsv', bytes }], { timeZone: 'Europe/London' }))).toMatch(
      /^InputError: car.tsv, line 3: ".* 00:3o" is not a date/,
    );
  });

  test.each<[string, string, string[], number, string]>([
    [
      'a mistyped date, line 2',
      'Interval end,Import kW',
      ['2026-01-25 00:3o,0.1', ...rows(4, 2)],
      2,
      '2026-01-25 00:3o',
    ],
    [
      'a mistyped date, line 3',
      'Interval end,Import kW',
      [...rows(1, 1), '2026-01-25 01:0o,0.1', ...rows(4, 3)],
      3,
      '2026-01-25 01:0o',
    ],
    [
      'a remark below the header',
      'Start (UTC),import kWh',
      ['# made by hand', ...rows(4)],
      2,
      '# made by hand',
    ],
    [
      'a remark after the first reading',
      'Start (UTC),import kWh',
      [...rows(1), '# of a day', ...rows(4, 1)],
      3,
      '# of a day',
    ],
    [
      'a mistyped date without a header',
      rows(1)[0]!,
      ['2026-01-25 00:3o,0.1', ...rows(4, 2)],
      2,
      '2026-01-25 00:3o',
    ],
    ['a remark without a header', rows(1)[0]!, ['a remark,', ...rows(4, 1)], 2, 'a remark'],
  ])('%s', (_, header, lines, line, cell) => {
    expect(messageOf(() => importText([header, ...lines]))).toBe(NOT_A_DATE(line, cell));
  });

  test('a total above the readings', () => {
    const lines = ['Start (UTC),import kWh', 'Total,12.5', ...rows(4)];
    expect(messageOf(() => importText(lines))).toBe(
      `${NOT_A_DATE(2, 'Total')} Where such a line stands in every file: --pass-over Total.`,
    );
  });

  test('a missing date', () => {
    expect(messageOf(() => importText(['Interval end,Import kW', ',0.1', ...rows(4, 2)]))).toMatch(
      /^InputError: readings.csv, line 2: the date is missing/,
    );
  });
});

describe('above data without a header', () => {
  test.each(['0.1,2026-01-25 00:00', '2026-01-25 00,:00,0.1', '0.1,2026-01-25 00:00,0.1'])(
    'a reading out of place is asked about: %s',
    (line) => {
      expect(messageOf(() => importText([line, ...rows(4, 1)]))).toBe(
        `InputError: readings.csv, line 1: "${line}" looks like a reading whose cells stand otherwise than those below. Correct the line, or delete it. If it is the header, say so: --header 1.`,
      );
    },
  );
  test.each(['Meter,12345', 'Exported,2026-01-25 00:00', '2026'])('a remark stands: %s', (line) => {
    expect(importText([line, ...rows(4)]).readings.startUtcMs.length).toBe(4);
  });
});

describe('what stands above a header', () => {
  const day = (date: string): string => `${date},${Array.from({ length: 48 }, () => '0.1').join(',')}`;
  const labels = `Date,${Array.from({ length: 48 }, (_, i) => i + 1).join(',')}`;

  test.each<[string, string[]]>([
    ['a header that comes again', ['start,import kWh', ...rows(1), 'start,import kWh', ...rows(4, 1)]],
    ['a day above a header that comes again', [labels, day('2026-01-25'), labels, day('2026-01-26')]],
  ])('%s does not swallow a reading', (_, lines) => {
    expect(messageOf(() => importText(lines))).toMatch(
      /^InputError: readings.csv, line 2: "2026-01-25.*" looks like a reading, and the header on line 3 stands below it. Delete the header where it comes again. If the line is no reading, say where the header is: --header 3\.$/,
    );
  });

  test('the user says where the header is, with units below it or without', () => {
    const lines = ['2026-01-25 10:00,12 pages', 'start,import', '-,Wh', ...rows(4)];
    expect(messageOf(() => importText(lines))).toContain('say where the header is: --header 2.');
    const { readings, report } = importText(lines, { headerLine: 2 });
    expect(readings.channels.importKwh![0]).toBeCloseTo(0.0001, 12);
    expect(report.files[0]!.lines).toMatchObject({ above: [1], header: 2, readings: 4 });
  });

  test('a line that the file has not', () => {
    expect(messageOf(() => importText(['start,import kWh', ...rows(4)], { headerLine: 9 }))).toBe(
      'InputError: readings.csv, line 9: no row of the table begins on this line. Give the line of the header: --header.',
    );
  });
});

describe('abbreviations of zones behind the times', () => {
  const instants = Array.from({ length: 240 }, (_, i) => Date.UTC(2026, 9, 23, 23) + i * 1_800_000);
  const changeUtc = Date.UTC(2026, 9, 25, 1);
  const written = (utc: number): string => {
    const [offset, word] = utc < changeUtc ? [3_600_000, 'BST'] : [0, 'GMT'];
    const text = new Date(utc + offset).toISOString();
    return `${text.slice(8, 10)}/10/2026 ${text.slice(11, 16)} ${word},0.25`;
  };

  test('BST and then GMT: no reading is lost, and the repeated hour is told apart', () => {
    const lines = instants.map(written);
    const { readings, report } = importText(['Start,import kWh', ...lines]);
    expect(Array.from(readings.startUtcMs)).toEqual(instants);
    expect(report.files[0]!.findings).toEqual([]);
  });

  test.each([
    ['Asia/Kolkata', 'IST', '2026-01-24T18:30'],
    ['Europe/Dublin', 'IST', '2026-01-24T23:00'],
    ['Australia/Sydney', 'AEDT', '2026-01-24T13:00'],
    ['America/New_York', 'EST', '2026-01-25T05:00'],
  ])('in %s, %s', (timeZone, word, first) => {
    const lines = rows(2).map((line) => line.replace(',', ` ${word},`));
    const { readings } = importText(['start,import kWh', ...lines], { timeZone });
    expect(utcTexts(readings.startUtcMs)[0]).toBe(first);
  });

  test('a word of several meanings, none of them of the home, is refused', () => {
    const lines = rows(2).map((line) => line.replace(',', ' CST,'));
    expect(messageOf(() => importText(['start,import kWh', ...lines]))).toContain(
      'line 2: "2026-01-25 00:00 CST" is not a date',
    );
  });

  test('rows of stamps of an unknown look above others are told, not lost', () => {
    const lines = [...rows(150).map((line) => line.replace(',', ' XYZT,')), ...rows(40, 150)];
    expect(messageOf(() => importText(['start,import kWh', ...lines]))).toContain(
      'line 2: "2026-01-25 00:00 XYZT" is not a date',
    );
    expect(messageOf(() => importText(lines))).toContain('line 1: "2026-01-25 00:00 XYZT" is not a date');
  });
});

describe('the counts of the report add up to the lines of the file', () => {
  test.each<[string, string[]]>([
    ['a plain file', ['start,import kWh', ...rows(5)]],
    ['no header', rows(5)],
    [
      'a preamble, blanks and lines without a value',
      [
        'Our home',
        '',
        '"over\ntwo lines",x',
        'start,import kWh',
        '',
        ...rows(5),
        '2026-01-25 02:30,',
        '2026-01-25 03:00,n/a',
        '',
      ],
    ],
    ['a line about the meter and no header', ['Meter,12345', ...rows(5)]],
    ['units in a line of their own', ['start,import', ',kWh', ...rows(5)]],
  ])('%s', (_, lines) => {
    const { report } = importText(lines);
    const { all, readings, withoutValue, header, above, blank } = report.files[0]!.lines;
    expect(all).toBe(lines.join('\n').split('\n').length);
    expect(readings + withoutValue + header + above.length + blank).toBe(all);
    expect(readings).toBe(5);
  });

  test('of each file of the sample', () => {
    for (const { name, text } of sampleFiles()) {
      const { report } = importFiles([{ name, bytes: Buffer.from(text) }], { timeZone: 'Europe/London' });
      const { all, readings, withoutValue, header, above, blank } = report.files[0]!.lines;
      expect(all).toBe(text.replace(/\r?\n$/, '').split('\n').length);
      expect(readings + withoutValue + header + above.length + blank).toBe(all);
    }
  });
});

describe('one cell that cannot be read does not undo a column of words', () => {
  const lines = Array.from({ length: 40 }, (_, i) => [
    `${at(i)},import,0.1`,
    `${at(i)},heat pump,0.4`,
  ]).flat();

  test('a download cut in its last line', () => {
    expect(messageOf(() => importText(['start,channel,kWh', ...lines, `${at(40)},heat pu`].join('\n')))).toBe(
      'InputError: readings.csv, line 82: "heat pu" names no channel, as "import", "heat pump" in other lines do. Correct the line, or delete it; if the column names no channels, leave it out: --channel "channel=ignore".',
    );
  });
  test('a word for nothing, or nothing', () => {
    for (const word of ['n/a', '?', ''])
      expect(messageOf(() => importText(['start,channel,kWh', ...lines, `${at(40)},${word},0.1`]))).toContain(
        'line 82: ',
      );
  });
  test('one day of a heat pump among days of columns', () => {
    const day = (date: string, word: string): string =>
      `${date},${word},${Array.from({ length: 48 }, () => '0.1').join(',')}`;
    const labels = Array.from({ length: 48 }, (_, i) => i + 1).join(',');
    const table = [
      `Date,Quantity,${labels}`,
      day('2026-01-25', 'heat pump'),
      day('2026-01-26', 'heat pump'),
      day('2026-01-27', 'heat pxmp'),
    ];
    expect(messageOf(() => importText(table))).toContain('line 4: "heat pxmp" names no channel');
  });
  test('a word among units', () => {
    const said = rows(6).map((line, i) => `${line},${i === 3 ? 'xx' : 'Wh'}`);
    expect(messageOf(() => importText(['start,import,of', ...said]))).toContain('line 5: "xx" is not a unit');
  });
  test('events beside a named column are remarks', () => {
    const remarked = rows(6).map((line, i) => `${line},${i === 4 ? 'away' : 'car'}`);
    const { report } = importText(['start,import kWh,event', ...remarked]);
    expect(report.files[0]!.unusedColumns).toEqual(['"event"']);
  });
  test('an odd mark of a read is told, the others keep theirs', () => {
    const marks = ['A', 'E', 'A', 'Q', 'E', '-'];
    const { readings, report } = importText([
      'start,import kWh,Read type',
      ...rows(6).map((line, i) => `${line},${marks[i]}`),
    ]);
    expect(Array.from(readings.estimated!)).toEqual([0, 1, 0, 0, 1, 0]);
    expect(report.files[0]!.findings).toMatchObject([
      { kind: 'estimated', count: 2 },
      { kind: 'odd mark', count: 1, places: [{ line: 5, text: '"Q"' }] },
    ]);
  });
});

describe('what a header says holds whole', () => {
  const day = (date: string): string => `${date},${Array.from({ length: 48 }, () => '0.1').join(',')}`;
  const two = (n: number): string => String(n).padStart(2, '0');
  const numbers = Array.from({ length: 50 }, (_, i) => String(i + 1));
  const times = Array.from({ length: 48 }, (_, i) => `${two(Math.floor(i / 2))}:${i % 2 ? '30' : '00'}`);
  const table = (labels: string[]): string[] => [
    `Date,${labels.join(',')}`,
    day('2026-01-25'),
    day('2026-01-26'),
  ];

  test.each<[string, string[], number, string]>([
    ['numbers, the 20th of letters', numbers.with(19, '2o'), 19, '2o'],
    ['numbers, the 20th twice', numbers.with(20, '20'), 20, '20'],
    ['numbers, the 20th of three digits', numbers.with(19, '200'), 19, '200'],
    ['times, one mistyped', times.with(10, '05:0o'), 10, '05:0o'],
    ['times, one of another hour', times.with(10, '15:00'), 10, '15:00'],
    [
      'digits of times, one mistyped',
      times.map((time) => time.replace(':', '')).with(10, '050o'),
      10,
      '050o',
    ],
  ])('%s: asked about, not read as other times', (_, labels, at, label) => {
    expect(messageOf(() => importText(table(labels)))).toBe(
      `InputError: readings.csv, line 1: "${label}", the name of column ${at + 2}, breaks the row of the day's intervals. Correct it: numbers count from 1, times go on by the length of an interval.`,
    );
  });

  test('a name too many', () => {
    const lines = ['start,tariff,import kWh,export kWh', ...rows(4).map((line) => `${line},0.5`)];
    expect(messageOf(() => importText(lines))).toBe(
      'InputError: readings.csv, line 1: the header names 4 columns, and no line has more than 3 cells. Correct the header, so that each name stands above its own numbers; if only "export kWh" is empty, leave it out: --channel "export kWh=ignore".',
    );
    const once = ['start,import kWh,start,export kWh', ...rows(4).map((line) => `${line},0.5`)];
    expect(messageOf(() => importText([...once, `${at(4)},0.1,${at(4)},0.5`]))).toContain(
      'line 1: the header names 4 columns, and most lines have 3. Correct',
    );
    const units = ['start,export,import,export', ',kWh,kWh', ...rows(4).map((line) => `${line},0.5`)];
    expect(messageOf(() => importText(units))).toContain('line 1: the header names 4 columns');
    const remarks = ['start,import kWh,remark', ...rows(4)];
    expect(importText(remarks, { channels: { remark: 'ignore' } }).readings.startUtcMs.length).toBe(4);
  });
});

test('a name too few, though only marks stand beyond the header', () => {
  const lines = ['start,export kWh,Read type', ...rows(4).map((line) => `${line},0.5,A`)];
  expect(messageOf(() => importText(lines))).toBe(
    'InputError: readings.csv, line 1: the header has 3 columns, and every line below it has more cells. Correct the header, so that each name stands above its own cells, and give marks and remarks a name too.',
  );
  const remark = ['start,import kWh', ...rows(4).map((line, i) => (i === 2 ? `${line},away` : line))];
  expect(importText(remark).readings.startUtcMs.length).toBe(4);
});

describe('a file that is cut', () => {
  const fixed = Array.from({ length: 12 }, (_, i) => `${at(i)},0.${100 + i},0.250`);
  const whole = ['start,import kWh,export kWh', ...fixed].join('\n');

  test.each<[string, number, string]>([
    [
      'inside its last number',
      1,
      '"0.25" has fewer digits after the mark than all other values of its column',
    ],
    ['before its last number', 6, 'the last line has fewer cells than all others'],
    ['inside the number before', 7, 'the last line has fewer cells than all others'],
  ])('%s', (_, less, found) => {
    expect(messageOf(() => importText(whole.slice(0, -less)))).toBe(
      `InputError: readings.csv, line 13: ${found}, and no line end closes the file: it may be cut. Download it again; if it is whole, end its last line (put the cursor there and press Enter).`,
    );
  });
  test('in its second line', () => {
    expect(messageOf(() => importText(['start,import kWh', ...rows(1), '2026-01-2'].join('\n')))).toContain(
      'line 3: the last line has fewer cells than all others',
    );
  });
  test('where it cannot be told, the report says what was taken', () => {
    expect(importText(whole).report.files[0]!.assumptions).toContain(
      'the last line, 13, is whole, though no line end closes it',
    );
    expect(importText(`${whole}\n`).report.files[0]!.assumptions.join()).not.toContain('line end');
  });
  test('a short line among others is told', () => {
    const lines = ['start,import kWh,export kWh', ...fixed.with(4, `${at(4)},0.104`)];
    expect(importText(lines).report.files[0]!.findings).toContainEqual({
      kind: 'short line',
      count: 1,
      message: 'lines with fewer cells than the others',
      done: 'what is missing taken as blank',
      places: [{ file: 'readings.csv', line: 6, text: '"2026-01-25 02:00,0.104"' }],
      placeCount: 1,
    });
  });
});
