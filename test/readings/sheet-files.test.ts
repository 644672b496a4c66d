import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { formatImportReport, type ImportOptions, importFiles } from '../../src/readings/index.js';
import { messageOf, utcTexts } from './import-text.js';
import { type OdsCell, odsBytes, xlsxBytes, zipOf } from './sheet-bytes.js';

const read = (name: string, bytes: Uint8Array, options: Partial<ImportOptions> = {}) =>
  importFiles([{ name, bytes }], { timeZone: 'Europe/London', ...options });

/** 2026-01-25 00:00 and the half-hours after it, days since 1899-12-30. */
const serialAt = (i: number): number => 46_047 + i / 48;
const stampAt = (i: number): string =>
  new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16).replace('T', ' ');
const value = (i: number): number => 0.1 + (i % 7) / 10;
const expected = { importKwh: Array.from({ length: 48 }, (_, i) => value(i)) };
const STAMP = 'dd/mm/yyyy hh:mm';

function readingsOf({ readings }: ReturnType<typeof read>) {
  expect(utcTexts(readings.startUtcMs).slice(0, 2)).toEqual(['2026-01-25T00:00', '2026-01-25T00:30']);
  return { importKwh: Array.from(readings.channels.importKwh!) };
}

describe('a sheet of an .xlsx file', () => {
  const rows = (stamp: (i: number) => string | number | { value: number; format: string }) => [
    ['start', 'import kWh'],
    ...Array.from({ length: 48 }, (_, i) => [stamp(i), value(i)]),
  ];

  test.each<[string, (i: number) => string | { value: number; format: string }]>([
    ['dates as dates', (i) => ({ value: serialAt(i), format: STAMP })],
    ['dates as dates whose format hides the time', (i) => ({ value: serialAt(i), format: 'yyyy-mm-dd' })],
    ['dates as text', (i) => stampAt(i)],
  ])('with %s', async (_, stamp) => {
    expect(readingsOf(read('may.xlsx', await xlsxBytes({ May: rows(stamp) })))).toEqual(expected);
  });

  test('counting its days from 1904', async () => {
    const bytes = await xlsxBytes({ May: rows((i) => ({ value: serialAt(i) - 1462, format: STAMP })) }, true);
    expect(readingsOf(read('may.xlsx', bytes))).toEqual(expected);
  });

  test('with the date and the time apart, rows of notes above and a column of remarks', async () => {
    const bytes = await xlsxBytes({
      May: [
        ['Made by hand', undefined],
        [],
        ['Date', 'Time', 'Import kWh', 'Remark'],
        ...Array.from({ length: 48 }, (_, i) => [
          { value: 46_047, format: 'd mmm yyyy' },
          { value: (i % 48) / 48, format: 'h:mm' },
          value(i),
          i === 30 ? 'oven' : undefined,
        ]),
      ],
    });
    const imported = read('may.xlsx', bytes);
    expect(readingsOf(imported)).toEqual(expected);
    const [file] = imported.report.files;
    expect(file?.lines).toEqual({ all: 51, readings: 48, withoutValue: 0, header: 1, above: [1], blank: 1 });
    expect(formatImportReport(imported.report)).toContain(
      [
        'may.xlsx',
        '  rows      48, one row an interval, header in row 3',
        '  of        51 rows: 48 with readings, 1 of the header, 1 above the readings,',
        '            not read (row 1), 1 blank',
        '  file      .xlsx, sheet "May"',
      ].join('\n'),
    );
  });

  test('whatever its name', async () => {
    expect(readingsOf(read('may.csv', await xlsxBytes({ May: rows(stampAt) })))).toEqual(expected);
  });

  test('names a wrong cell by sheet and address', async () => {
    const wrong = rows(stampAt);
    wrong[5] = [stampAt(4), 'about 3'];
    const bytesOf = await xlsxBytes({ 'My May': wrong });
    expect(messageOf(() => read('may.xlsx', bytesOf))).toBe(
      'InputError: may.xlsx, \'My May\'!B6: "about 3" is not a number (the decimal mark is "."). Correct the cell, or leave it empty where there is no reading; --decimal says another decimal mark.',
    );
    const odd = rows(stampAt);
    odd[9] = ['later', 0.2];
    const oddBytes = await xlsxBytes({ May: odd });
    expect(messageOf(() => read('may.xlsx', oddBytes))).toMatch(
      /^InputError: may.xlsx, May!A10: "later" is not a date/,
    );
  });

  test.each<[string, string[], string]>([
    [
      'the name of the stamps twice',
      ['start', 'start', 'import kWh', 'export kWh'],
      'May!B1: numbers stand below "start", and "export kWh" has none in most rows',
    ],
    [
      'the name of a channel twice',
      ['start', 'export kWh', 'import kWh', 'export kWh'],
      'May!B1: numbers stand below "export kWh", and "export kWh" has none in most rows',
    ],
  ])(
    'a name too many, %s, is asked about: each may stand above another’s numbers',
    async (_, names, message) => {
      const bytes = await xlsxBytes({
        May: [
          names,
          ...rows(stampAt)
            .slice(-9)
            .map((row) => [...row, 0.3]),
        ],
      });
      expect(messageOf(() => read('may.xlsx', bytes))).toContain(message);
    },
  );

  test('a channel without numbers is no question where each name stands above its own', async () => {
    const names = ['start', 'import kWh', 'cost £', 'export kWh'];
    const bytes = await xlsxBytes({
      May: [
        names,
        ...rows(stampAt)
          .slice(-9)
          .map((row) => [...row, 0.3]),
      ],
    });
    expect(Object.keys(read('may.xlsx', bytes).readings.channels)).toEqual(['importKwh']);
  });

  test('a formula without a stored result is no value', async () => {
    const wrong: Parameters<typeof xlsxBytes>[0][string] = rows(stampAt);
    wrong[5] = [stampAt(4), { formula: 'B5*2' }];
    const bytes = await xlsxBytes({ May: wrong });
    expect(messageOf(() => read('may.xlsx', bytes))).toMatch(
      /^InputError: may.xlsx, May!B6: "=B5\*2" is a formula, not a value/,
    );
  });

  test('is asked for where several may hold readings, and taken alone where one does', async () => {
    const two = await xlsxBytes({
      May: rows(stampAt),
      June: rows((i) => stampAt(i + 48)),
      Notes: [['by hand']],
    });
    expect(messageOf(() => read('home.xlsx', two))).toBe(
      'InputError: home.xlsx: the sheets "May" and "June" may all hold readings. Say which: --sheet "May".',
    );
    expect(readingsOf(read('home.xlsx', two, { sheet: 'may' }))).toEqual(expected);
    expect(messageOf(() => read('home.xlsx', two, { sheet: 'July' }))).toBe(
      'InputError: home.xlsx: there is no sheet "July". The sheets are "May", "June", "Notes".',
    );
    const one = read('home.xlsx', await xlsxBytes({ Notes: [['by hand']], May: rows(stampAt) }));
    expect(one.report.files[0]?.source).toBe('.xlsx, sheet "May"; 1 other sheet not read');
  });
});

describe('a sheet of an .ods file', () => {
  const rows = (stamp: (i: number) => OdsCell): OdsCell[][] => [
    [
      ['string', 'start'],
      ['string', 'import kWh'],
    ],
    ...Array.from({ length: 48 }, (_, i): OdsCell[] => [stamp(i), ['float', String(value(i))]]),
  ];
  const isoAt = (i: number): string => `${stampAt(i).replace(' ', 'T')}:00`;

  test.each<[string, (i: number) => OdsCell]>([
    ['dates as dates', (i) => ['date', isoAt(i)]],
    ['dates as text', (i) => ['string', stampAt(i)]],
  ])('with %s', (_, stamp) => {
    expect(readingsOf(read('may.ods', odsBytes({ May: rows(stamp) })))).toEqual(expected);
  });

  test('with repeated rows and cells, notes on cells, and times apart', () => {
    const note: OdsCell = {
      xml: '<table:table-cell office:value-type="float" office:value="0.1"><office:annotation><text:p>7</text:p></office:annotation><text:p>0,1</text:p></table:table-cell>',
    };
    const bytes = odsBytes({
      May: [
        [
          ['string', 'date'],
          ['string', 'time'],
          ['string', 'import kWh'],
          ['string', 'export kWh'],
        ],
        [['date', '2026-01-25'], ['time', 'PT00H00M00S'], note, ['float', '0']],
        [
          ['date', '2026-01-25'],
          ['time', 'PT00H30M00S'],
          {
            xml: '<table:table-cell office:value-type="float" office:value="0.2" table:number-columns-repeated="2"/>',
          },
        ],
        [
          ['date', '2026-01-25'],
          ['time', 'PT01H00M00S'],
          ['float', '0.3'],
          ['blank', ''],
        ],
      ],
    });
    const { readings } = read('may.ods', bytes);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.2, 0.3]);
    expect(Array.from(readings.channels.exportKwh!)).toEqual([0, 0.2, Number.NaN]);
  });

  test('names a wrong cell by sheet and address', () => {
    const wrong = rows((i) => ['date', isoAt(i)]);
    wrong[3]![1] = ['string', 'n. a. yet'];
    expect(messageOf(() => read('may.ods', odsBytes({ May: wrong })))).toMatch(
      /^InputError: may.ods, May!B4: "n. a. yet" is not a number/,
    );
  });

  test('is refused where a password protects it, and where it repeats a cell without end', () => {
    const locked = odsBytes(
      {},
      { 'META-INF/manifest.xml': '<manifest:manifest><manifest:encryption-data/></manifest:manifest>' },
    );
    expect(messageOf(() => read('may.ods', locked))).toBe(
      'InputError: may.ods: the file is protected by a password. Save a copy without a password.',
    );
    const bomb = odsBytes({
      May: [
        [
          {
            xml: '<table:table-cell office:value-type="float" office:value="1" table:number-columns-repeated="16384"/></table:table-row><table:table-row table:number-rows-repeated="1048576"><table:table-cell office:value-type="float" office:value="1" table:number-columns-repeated="16384"/>',
          },
        ],
      ],
    });
    expect(messageOf(() => read('may.ods', bomb))).toMatch(/a sheet holds more than 8,000,000 cells/);
  });
});

describe('a zip file', () => {
  const csv = (from: number, n = 48): string =>
    `start,import kWh\n${Array.from({ length: n }, (_, i) => `${stampAt(from + i)},${value(from + i)}\n`).join('')}`;

  test('of readable files is read as they are one by one', async () => {
    const sheet = await xlsxBytes({
      Sun: [['start', 'solar kWh'], ...Array.from({ length: 48 }, (_, i) => [stampAt(i), 0.5])],
    });
    const bytes = zipOf({ 'a/may.csv': csv(0), 'june.csv': csv(48), 'sun.xlsx': sheet });
    const zipped = read('home.zip', bytes);
    const one = importFiles(
      [
        { name: 'may.csv', bytes: Buffer.from(csv(0)) },
        { name: 'june.csv', bytes: Buffer.from(csv(48)) },
        { name: 'sun.xlsx', bytes: sheet },
      ],
      { timeZone: 'Europe/London' },
    );
    expect(zipped.readings).toEqual(one.readings);
    expect(zipped.report.files.map(({ file }) => file)).toEqual([
      'home.zip/a/may.csv',
      'home.zip/june.csv',
      'home.zip/sun.xlsx',
    ]);
  });

  test('tells what it holds beside readings', () => {
    const bytes = zipOf({
      'may.csv': csv(0),
      'letter.pdf': '%PDF-1.7',
      '__MACOSX/._may.csv': 'x',
      'none.csv': '',
    });
    const { report } = read('home.zip', bytes);
    expect(report.notRead).toEqual([
      { file: 'home.zip/letter.pdf', why: 'a PDF' },
      { file: 'home.zip/__MACOSX/._may.csv', why: 'left by an archiver' },
      { file: 'home.zip/none.csv', why: 'it is empty' },
    ]);
    expect(formatImportReport(report)).toContain('home.zip/letter.pdf: not read, a PDF\n');
  });

  test('names a fault by the file in it, and takes options for that file and for all of it', () => {
    const bytes = zipOf({ 'may.csv': csv(0).replace(',0.2', ',0.2x') });
    expect(messageOf(() => read('home.zip', bytes))).toMatch(
      /^InputError: home.zip\/may.csv, line 3: "0.2x" is not a number/,
    );
    const good = zipOf({ 'may.csv': csv(0), 'june.csv': csv(0) });
    const { readings } = read('home.zip', good, {
      perFile: {
        'home.zip': { defaultChannel: 'exportKwh' },
        'home.zip/june.csv': { defaultChannel: 'solarKwh' },
      },
    });
    expect(Object.keys(readings.channels)).toEqual(['exportKwh', 'solarKwh']);
  });

  test.each<[string, Uint8Array, string]>([
    [
      'in another',
      zipOf({ 'b.zip': zipOf({ 'may.csv': csv(0) }) }),
      'home.zip/b.zip: a zip file stands inside another',
    ],
    ['without files', zipOf({}), 'home.zip: the zip file holds no file of readings'],
    [
      'cut short',
      zipOf({ 'may.csv': csv(0) }).slice(0, 200),
      'home.zip: the file is damaged: its end is missing',
    ],
  ])('%s is refused', (_, bytes, message) => {
    expect(messageOf(() => read('home.zip', bytes))).toContain(message);
  });

  test.each<[string, 0 | 6, string]>([
    ['stored', 0, "the checksum of part 'may.csv' is wrong"],
    ['packed', 6, "part 'may.csv' can't be unpacked, or its checksum is wrong"],
  ])('with a %s part whose checksum is wrong is refused', (_, level, what) => {
    const bytes = zipSync({ 'may.csv': strToU8(csv(0)) }, { level });
    const crc = Buffer.from(bytes).lastIndexOf(Buffer.from('may.csv')) - 30;
    bytes[crc] = bytes[crc]! ^ 1;
    expect(messageOf(() => read('home.zip', bytes))).toContain(`home.zip: the file is damaged: ${what}. `);
  });

  test('that unpacks to more than the limit is refused before it is unpacked', () => {
    const bytes = zipOf({ 'may.csv': csv(0) });
    const size = Buffer.from(bytes).lastIndexOf(Buffer.from('may.csv')) - 22;
    Buffer.from(bytes.buffer).writeUInt32LE(400_000_000, size);
    expect(messageOf(() => read('home.zip', bytes))).toMatch(/unpacks to more than 300 MB/);
  });
});

describe('what no reader can read is told with what to save it as', () => {
  const OLE = Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1);
  const locked = Buffer.concat([OLE, Buffer.from('EncryptedPackage', 'utf16le')]);
  test.each<[string, Uint8Array, string]>([
    [
      'an old .xls',
      OLE,
      'an older kind (.xls) or another document of its time. Open it and save it as .xlsx,',
    ],
    [
      'an encrypted .xlsx',
      locked,
      'protected by a password. Open it and save a copy as .xlsx without a password.',
    ],
    ['a PDF', Buffer.from('%PDF-1.7 …'), 'the file is a PDF. Download the readings as CSV or .xlsx'],
    ['a gzip file', Uint8Array.of(0x1f, 0x8b, 8, 0), 'packed by gzip. Unpack it first'],
    [
      'a web page',
      Buffer.from('<html><table>'),
      'a web page, whatever its name. Open it in a spreadsheet program',
    ],
    [
      'a text document',
      zipOf({ mimetype: 'application/vnd.oasis.opendocument.text', 'content.xml': '<a/>' }),
      'no workbook of sheets',
    ],
    [
      'a binary workbook',
      zipOf({ '[Content_Types].xml': '', 'xl/workbook.bin': '' }),
      'a binary workbook. Open it and save it as .xlsx.',
    ],
    [
      'an XML document',
      Buffer.from('<?xml version="1.0"?><orders/>'),
      'an XML document of a kind that is not read',
    ],
  ])('%s', (_, bytes, message) => {
    expect(messageOf(() => read('a.csv', bytes))).toContain(message);
  });
});
