import { chmodSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type ImportOptions, importFiles, readImportFiles } from '../../src/readings/index.js';
import { importText, messageOf } from './import-text.js';

const ISO = ['2026-01-25 00:00,0.1', '2026-01-25 00:30,0.2'];
/** Half-hourly reads of a counter, three days and some. */
const RISING = Array.from(
  { length: 150 },
  (_, i) => `${new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16)}Z,${1000 + i / 4}`,
);

interface Case {
  what: string;
  lines: string[] | string;
  options?: Partial<ImportOptions>;
  says: string;
}

const QUESTIONS: Case[] = [
  {
    what: 'dates that could be day first or month first',
    lines: ['start,import kWh', '03/04/2026 00:00,0.1', '03/04/2026 00:30,0.2'],
    says: 'readings.csv, line 2: "03/04/2026 00:00" could be day first or month first, and no date of the file settles it. Say which: --date-order dmy or --date-order mdy.',
  },
  {
    what: 'years of two digits',
    lines: ['start,import kWh', '25/01/26 00:00,0.1', '25/01/26 00:30,0.1'],
    says: 'readings.csv, line 2: "25/01/26 00:00" has a year of two digits. Say the order of its parts: --date-order dmy, mdy or ymd (years are then 20yy), or export with four-digit years.',
  },
  {
    what: 'two columns of the same channel',
    lines: ['start,Import A (kWh),Import B (kWh)', '2026-01-25 00:00,0.1,0.2', '2026-01-25 00:30,0.1,0.2'],
    says: 'readings.csv, line 1: columns "Import A (kWh)" and "Import B (kWh)" both look like importKwh. Say which one is: --channel "Import A (kWh)=importKwh".',
  },
  {
    what: 'columns that nothing names',
    lines: ['start,A,B', '2026-01-25 00:00,0.1,0.2', '2026-01-25 00:30,0.1,0.2'],
    says: 'readings.csv, line 1: columns "A", "B" hold numbers, and nothing says what they are. Name them: --channel "A"=CHANNEL.',
  },
  {
    what: 'two columns of stamps, neither named',
    lines: [
      'A,B,import kWh',
      '2026-01-25 00:00,2026-01-25 01:00,0.1',
      '2026-01-25 00:30,2026-01-25 01:30,0.1',
    ],
    says: 'readings.csv, line 1: columns "A" and "B" all hold dates, and none is named start or UTC. Say which one stamps the reading: --stamp-column COLUMN.',
  },
  {
    what: 'a header of two zones',
    lines: ['Start time (GMT/BST),import kWh', ...ISO],
    says: 'readings.csv, line 1: "Start time (GMT/BST)" leaves the zone of the stamps unclear. Say which clock the stamps follow: --stamp-zone local, utc, or a fixed offset such as +01:00.',
  },
  {
    what: 'a date and a time of different zones',
    lines: ['Date (UTC),Time (local),import kWh', '2026-01-25,00:00,0.1', '2026-01-25,00:30,0.2'],
    says: 'readings.csv, line 1: "Date (UTC)" and "Time (local)" leave the zone of the stamps unclear. Say which clock the stamps follow: --stamp-zone local, utc, or a fixed offset such as +01:00.',
  },
  {
    what: 'numbered intervals whose number shows no length',
    lines: ['date,interval,import kWh', '2026-01-25,1,0.1', '2026-01-25,70,0.1'],
    says: 'readings.csv, line 3: 70 is the highest number in "interval", which does not show how long an interval is. Say it in minutes: --interval 30 where a day has 48, 60 where it has 24, 15 where it has 96.',
  },
  {
    what: 'commas that could be decimal or thousands',
    lines: ['start;import Wh', '2026-01-25 00:00;1,234', '2026-01-25 00:30;2,345'],
    says: 'readings.csv, line 2: "1,234" could be a decimal comma or a thousands comma, and no value of the file settles it. Say which mark is decimal: --decimal comma or --decimal point.',
  },
  {
    what: 'values too large for the unit that would be assumed',
    lines: [
      'start,import',
      ...Array.from({ length: 6 }, (_, i) => `2026-01-25 0${i}:00,${250 + ((i * 37) % 50)}`),
    ],
    options: { intervalMinutes: 30 },
    says: 'readings.csv, line 1: no unit is stated for importKwh, and half of its values are 285 or more, which cannot be kWh. Say the unit: --unit Wh (or --unit kWh if it is so).',
  },
  {
    what: 'a column that only rises',
    lines: [
      'start,import kWh',
      ...Array.from(
        { length: 40 },
        (_, i) =>
          `2026-01-25T${String(Math.floor(i / 2)).padStart(2, '0')}:${i % 2 ? '30' : '00'}Z,${1000 + i / 4}`,
      ),
    ],
    says: 'readings.csv, line 1: "import kWh" only ever rises, like a cumulative register. Say what it is: --register yes or --register no.',
  },
  {
    what: 'decimal commas that just fill the next column',
    lines: [
      'start,import kWh,export kWh',
      ...['20', '30', '45', '75'].map((decimals, i) => `2026-01-25 0${i}:00,0,${decimals}`),
    ],
    says: 'readings.csv, line 2: "0" and "20" in cells 2 and 3 look like one number with a decimal comma, as do all lines. Quote such numbers or separate the cells by semicolons; if they are two numbers, say --decimal point.',
  },
  {
    what: 'whole values in the hundreds side by side, of no unit',
    lines: [
      'start,import,export',
      ...Array.from({ length: 6 }, (_, i) => `2026-01-25 0${i}:00,${120 + i},${200 + 9 * i}`),
    ],
    options: { intervalMinutes: 30 },
    says: 'readings.csv, line 1: no unit is stated for importKwh, and half of its values are 123 or more, which cannot be kWh. Say the unit: --unit Wh (or --unit kWh if it is so).',
  },
  {
    what: 'decimal commas of any length above a column without a name',
    lines: [
      'start,import kWh,',
      ...['2', '35', '05', '125'].map((decimals, i) => `2026-01-25 0${i}:00,0,${decimals},`),
    ],
    says: 'readings.csv, line 2: "0" and "2" in cells 2 and 3 look like one number with a decimal comma, as do all lines. Quote such numbers or separate the cells by semicolons; if they are two numbers, say --decimal point.',
  },
  {
    what: 'a column that only rises, listed newest first',
    lines: ['start,import kWh', ...RISING.toReversed()],
    says: 'readings.csv, line 1: "import kWh" only ever rises, like a cumulative register. Say what it is: --register yes or --register no.',
  },
];

const WRONG: Case[] = [
  { what: 'an empty file', lines: '', says: 'readings.csv: the file is empty. Export the readings again.' },
  {
    what: 'a file of blanks',
    lines: ' \n\n',
    says: 'readings.csv: the file holds only blanks. Export the readings again.',
  },
  {
    what: 'a file of words',
    lines: ['Dear diary,', 'today the heat pump hummed.'],
    says: 'readings.csv, line 1: no line holds a date and a value; the first is "Dear diary,". Give a file with a column of dates (such as 2026-01-31 00:30) and at least one column of numbers.',
  },
  {
    what: 'a file of a thirteenth month',
    lines: ['start,import kWh', '2026-13-01 00:00,0.1', '2026-13-01 00:30,0.1'],
    says: 'readings.csv, line 1: no line holds a date and a value; the first is "start,import kWh", the first with figures "2026-13-01 00:00,0.1". Give a file with a column of dates (such as 2026-01-31 00:30) and at least one column of numbers.',
  },
  {
    what: 'a zip file that is cut',
    lines: 'PK\u0003\u0004 and so on',
    says: 'readings.csv: the file is damaged: its end is missing, as after a broken download or copy. Download or save it again.',
  },
  {
    what: 'a binary',
    lines: 'abc\u0000\u0001\u0002def',
    says: 'readings.csv: the file is binary, not text. Give a file of comma, semicolon or tab separated readings.',
  },
  {
    what: 'a value that is text',
    lines: ['start,import kWh', ...ISO, '2026-01-25 01:00,lots'],
    says: 'readings.csv, line 4: "lots" is not a number (the decimal mark is "."). Correct the cell, or leave it empty where there is no reading; --decimal says another decimal mark.',
  },
  {
    what: 'a formula',
    lines: ['start,import kWh', ...ISO, '2026-01-25 01:00,=1+1'],
    says: 'readings.csv, line 4: "=1+1" is a formula, not a value. Give the number itself, or leave the cell empty.',
  },

  {
    what: 'a formula, in the very first row',
    lines: ['start,import kWh', '2026-01-24 23:30,=1+1', ...ISO],
    says: 'readings.csv, line 2: "=1+1" is a formula, not a value. Give the number itself, or leave the cell empty.',
  },
  {
    what: 'a formula for a date',
    lines: ['start,import kWh', ...ISO, '=A2,0.1'],
    says: 'readings.csv, line 4: "=A2" is a formula, not a date. Give the date itself.',
  },
  {
    what: 'a line of totals',
    lines: ['start,import kWh', ...ISO, 'Total,0.3'],
    says: 'readings.csv, line 4: "Total" is not a date. Correct the line, or delete it if it is no reading (a total, a remark). Where such a line stands in every file: --pass-over Total.',
  },
  {
    what: 'a day that is none',
    lines: ['start,import kWh', '25/01/2026 00:00,0.1', '25/01/2026 00:30,0.1', '30/02/2026 00:00,0.1'],
    says: 'readings.csv, line 4: "30/02/2026 00:00" is not a date (day first as line 2 says). Correct the line, or delete it if it is no reading (a total, a remark).',
  },
  {
    what: 'dates of both orders',
    lines: ['start,import kWh', '25/01/2026 00:00,0.1', '25/01/2026 00:30,0.1', '01/26/2026 00:00,0.1'],
    says: 'readings.csv, line 4: "01/26/2026 00:00" is not a date (day first as line 2 says). Correct the line, or delete it if it is no reading (a total, a remark).',
  },
  {
    what: 'offsets on some lines only',
    lines: ['start,import kWh', '2026-01-25T00:00Z,0.1', '2026-01-25T00:30,0.1'],
    says: 'readings.csv, line 3: "2026-01-25T00:30" has no offset from UTC, the lines before have one. Give all stamps with an offset, or none.',
  },
  {
    what: 'a missing column',
    lines: ['start,import kWh', ...ISO],
    options: { channels: { Garage: 'carKwh' } },
    says: 'readings.csv: no column "Garage". The columns are "start", "import kWh".',
  },
  {
    what: 'a missing column in the options of one file',
    lines: ['start,import kWh', ...ISO],
    options: { perFile: { 'readings.csv': { channels: { Garage: 'carKwh' } } } },
    says: 'readings.csv: no column "Garage". The columns are "start", "import kWh".',
  },
  {
    what: 'no column of values',
    lines: ['start,remark', '2026-01-25 00:00,', '2026-01-25 00:30,'],
    says: 'readings.csv, line 1: no column holds numbers that this reader has a use for (columns "start", "remark"). Export the readings with their values, or name the column: --channel COLUMN=CHANNEL.',
  },
  {
    what: 'one value a day',
    lines: ['date,import kWh', '2026-01-25,8.1', '2026-01-26,9.2', '2026-01-27,7'],
    says: 'readings.csv, line 2: the file holds one value every day, no half-hourly readings. Give readings of 5, 10, 15, 30 or 60 minutes; where lines are missing, say the interval: --interval 30.',
  },
  {
    what: 'a stamp off the grid',
    lines: [
      'start,import kWh',
      ...ISO,
      '2026-01-25 01:07,0.1',
      '2026-01-25 01:30,0.1',
      '2026-01-25 02:00,0.1',
    ],
    says: 'readings.csv, line 4: an interval of 30 minutes begins at 2026-01-25 01:07, off the 30-minute grid. Correct the line; if the stamps are in another zone, say it (--stamp-zone).',
  },
  {
    what: 'a half-hour number that the day has not',
    lines: ['date,period,import kWh', '2026-01-25,48,0.1', '2026-01-25,49,0.1'],
    options: { intervalMinutes: 30 },
    says: 'readings.csv, line 3: "49" is no half-hour of a day that has 48. Correct the number of the half-hour, or give the time zone of the readings.',
  },
  {
    what: 'a number of the hour that the day has not',
    lines: ['date,period,import kWh', '2026-01-25,24,0.1', '2026-01-25,25,0.1'],
    options: { intervalMinutes: 60 },
    says: 'readings.csv, line 3: "25" is no hour of a day that has 24. Correct the number of the hour, or give the time zone of the readings.',
  },
  {
    what: 'a line whose own ends are an hour apart among half-hours',
    lines: [
      'from,to,import kWh',
      '2026-01-25 04:00,2026-01-25 04:30,0.1',
      '2026-01-25 04:30,2026-01-25 05:00,0.1',
      '2026-01-25 05:00,2026-01-25 06:00,1.00',
      '2026-01-25 06:00,2026-01-25 06:30,0.1',
    ],
    says: 'readings.csv, line 4: the line runs from 2026-01-25 05:00 to 2026-01-25 06:00, 60 minutes, in a file of 30 minutes. Correct its end, or give lines of another length in a file of their own, by itself. Where only ends are wrong, --channel "to=ignore" reads all lines by their starts, as does --interval 30.',
  },
  {
    what: 'a quotation mark that is never closed',
    lines: ['start,import kWh', ...ISO, '"2026-01-25 01:00,0.1'],
    says: 'readings.csv, line 4: a quotation mark opens a cell and none closes it. Remove the mark or export the file again.',
  },
  {
    what: 'two values for one half-hour',
    lines: ['start,import kWh', ...ISO, '2026-01-25 00:30,0.7'],
    says: 'readings.csv, line 4: importKwh of 2026-01-25 00:30 is 0.7 here and 0.2 in readings.csv, line 3. Remove the wrong one, or let the later file win: --replace.',
  },
  {
    what: 'a number too large',
    lines: ['start,import kWh', ...ISO, '2026-01-25 01:00,1e400'],
    says: 'readings.csv, line 4: "1e400" is too large for a reading. Correct the cell, or leave it empty where there is no reading.',
  },
  {
    what: 'a number too large, of digits alone',
    lines: ['start,import kWh', ...ISO, `2026-01-25 01:00,${'9'.repeat(400)}`],
    says: `readings.csv, line 4: "${'9'.repeat(60)}" is too large for a reading. Correct the cell, or leave it empty where there is no reading.`,
  },
  {
    what: 'a year mistyped far ahead',
    lines: ['start,import kWh', ...ISO, '2206-01-25 01:00,0.1'],
    says: 'readings.csv, line 4: "2206-01-25 01:00" is outside the years 1990 to 2099. Correct the date.',
  },
  {
    what: 'a year mistyped far back',
    lines: ['start,end,import kWh', '2026-01-25 00:00,1026-01-25 00:30,0.1'],
    options: { intervalMinutes: 30 },
    says: 'readings.csv, line 2: "1026-01-25 00:30" is outside the years 1990 to 2099. Correct the date.',
  },
  {
    what: 'decimal commas without quotation marks',
    lines: ['start,import kWh', '2026-01-25 00:00,0,20', '2026-01-25 00:30,0,25'],
    says: 'readings.csv, line 2: "20" stands in cell 3, and the header on line 1 has 2 columns. If it is the rest of a number with a decimal comma, quote the number or separate the cells by semicolons; else delete it, or give its column a name.',
  },
  {
    what: 'decimal commas that spill into the next column',
    lines: ['start,import kWh,export kWh', '2026-01-25 00:00,0,20,0,10', '2026-01-25 00:30,0,25,0,05'],
    says: 'readings.csv, line 2: "0" stands in cell 4, and the header on line 1 has 3 columns. If it is the rest of a number with a decimal comma, quote the number or separate the cells by semicolons; else delete it, or give its column a name.',
  },
  {
    what: 'stray cells on one line',
    lines: ['start;import kWh', ...ISO.map((l) => l.replace(',', ';')), '2026-01-25 01:00;0.3;7;8'],
    says: 'readings.csv, line 4: "7" stands in cell 3, and the header on line 1 has 2 columns. Delete it, or give its column a name.',
  },
  {
    what: 'a stray cell after a day’s named total',
    lines: [
      `Date,${Array.from({ length: 48 }, (_, i) => i + 1).join(',')},Total`,
      `2026-01-25,${'0.1,'.repeat(48)}4.8,9`,
    ],
    says: 'readings.csv, line 2: "9" stands in cell 51, and the header on line 1 has 50 columns. If it is the rest of a number with a decimal comma, quote the number or separate the cells by semicolons; else delete it, or give its column a name.',
  },
  {
    what: 'two units in one column',
    lines: ['start,import,unit', '2026-01-25 00:00,0.1,kWh', '2026-01-25 00:30,200,Wh'],
    says: 'readings.csv, line 3: the unit is Wh here and kWh on line 2. Give the values in one unit, or leave the column of units out: --channel "unit=ignore".',
  },
  {
    what: 'two units of one channel',
    lines: [
      'start,channel,value,unit',
      '2026-01-25 00:00,import,0.1,kWh',
      '2026-01-25 00:00,outdoor temperature,7,degC',
      '2026-01-25 00:30,import,200,Wh',
    ],
    says: 'readings.csv, line 4: the unit of importKwh is Wh here and kWh on line 2. Give the values in one unit, or leave the column of units out: --channel "unit=ignore".',
  },
  {
    what: 'a unit that cannot be that of its channel',
    lines: ['start,channel,value,unit', '2026-01-25 00:00,import,0.1,kWh', '2026-01-25 00:00,price,0.2,Wh'],
    says: 'readings.csv, line 3: pricePence cannot be in Wh. Correct the unit, or leave the column of units out: --channel "unit=ignore".',
  },
  {
    what: 'a channel of another reader for the one column',
    lines: ['start,A', ...ISO],
    options: { defaultChannel: 'gas' },
    says: 'readings.csv: "gas" is not a channel. Give one of importKwh, exportKwh, solarKwh, batteryInKwh, batteryOutKwh, heatPumpKwh, heatOutputKwh, carKwh, outdoorC, pricePence.',
  },
  {
    what: 'a channel of another reader for a column',
    lines: ['start,A', ...ISO],
    options: { channels: { A: 'gas' } },
    says: 'readings.csv: "gas" is not a channel. Give one of importKwh, exportKwh, solarKwh, batteryInKwh, batteryOutKwh, heatPumpKwh, heatOutputKwh, carKwh, outdoorC, pricePence, or ignore.',
  },
  {
    what: 'a unit that is none',
    lines: ['start,channel,value,unit', '2026-01-25 00:00,import,100,Wh', '2026-01-25 00:00,price,20,chips'],
    says: 'readings.csv, line 3: "chips" is not a unit. Give kWh, Wh, MWh, kW, W, degC, degF, p/kWh, GBP/kWh, GBP/MWh, m3, ft3 or 100ft3, or leave the column of units out: --channel "unit=ignore".',
  },
  {
    what: 'an unknown zone',
    lines: ['start,import kWh', ...ISO],
    options: { timeZone: 'Europe/Londinium' },
    says: '"Europe/Londinium" is not a known time zone. Give an IANA name such as Europe/London or Australia/Sydney.',
  },
  {
    what: 'an unknown unit',
    lines: ['start,import', ...ISO],
    options: { unit: 'therms' },
    says: '"therms" is not a unit. Give kWh, Wh, MWh, kW, W, degC, degF, p/kWh, GBP/kWh, GBP/MWh, m3, ft3 or 100ft3.',
  },
];

describe('what could mean two things is asked about', () => {
  test.each(QUESTIONS)('$what', ({ lines, options, says }) => {
    expect(messageOf(() => importText(lines, options))).toBe(`InputError: ${says}`);
  });

  test('one date above 12 settles the order, and the report names its line', () => {
    const { report } = importText(['start,import kWh', '03/04/2026 00:00,0.1', '13/04/2026 00:00,0.2'], {
      intervalMinutes: 30,
    });
    expect(report.files[0]!.dates).toBe('day first, settled by line 3');
  });

  test('another file of the same export settles it too', () => {
    const file = (name: string, line: string) => ({
      name,
      bytes: Buffer.from(`start,import kWh\n${line}\n`),
    });
    const { readings } = importFiles(
      [file('a.csv', '03/04/2026 00:00,0.1'), file('b.csv', '04/13/2026 00:00,0.2')],
      {
        timeZone: 'Europe/London',
        intervalMinutes: 30,
      },
    );
    expect(new Date(readings.startUtcMs[0]!).toISOString()).toBe('2026-03-04T00:00:00.000Z');
  });

  test('the option answers', () => {
    const lines = ['start,import kWh', '03/04/2026 00:00,0.1', '03/04/2026 00:30,0.2'];
    const first = (dateOrder: 'dmy' | 'mdy'): string =>
      new Date(importText(lines, { dateOrder }).readings.startUtcMs[0]!).toISOString();
    expect(first('dmy')).toBe('2026-04-02T23:00:00.000Z');
    expect(first('mdy')).toBe('2026-03-04T00:00:00.000Z');
  });
});

describe('wrong input gets one clear message', () => {
  test.each(WRONG)('$what', ({ lines, options, says }) => {
    expect(messageOf(() => importText(lines, options))).toBe(`InputError: ${says}`);
  });

  test('lines are counted through preambles, blank lines and quoted line breaks', () => {
    const message = messageOf(() =>
      importText([
        'Home',
        '',
        '"note\nover two lines",x',
        'start,import kWh',
        ...ISO,
        '2026-01-25 01:00,oops',
      ]),
    );
    expect(message).toMatch(/^InputError: readings.csv, line 8: "oops"/);
  });
});

describe('files on disk', () => {
  const folder = mkdtempSync(join(tmpdir(), 'readings-'));
  test('missing, a folder, empty', async () => {
    const empty = join(folder, 'empty.csv');
    writeFileSync(empty, '');
    await expect(readImportFiles([join(folder, 'none.csv')])).rejects.toThrow(
      'none.csv: there is no such file. Check the path.',
    );
    await expect(readImportFiles([folder])).rejects.toThrow('this is a folder. Give the files in it.');
    await expect(readImportFiles([empty])).rejects.toThrow('the file is empty');
  });
  test.skipIf(process.getuid?.() === 0)('no permission', async () => {
    const locked = join(folder, 'locked.csv');
    writeFileSync(locked, 'x');
    chmodSync(locked, 0);
    await expect(readImportFiles([locked])).rejects.toThrow('no permission');
  });
  test('a good one', async () => {
    const path = join(folder, 'a.csv');
    writeFileSync(path, ['start,import kWh', ...ISO].join('\n'));
    const { readings } = importFiles(await readImportFiles([path]), { timeZone: 'Europe/London' });
    expect(readings.startUtcMs.length).toBe(2);
  });
});
