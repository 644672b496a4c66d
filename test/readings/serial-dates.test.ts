import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { importFiles, importGasFiles } from '../../src/readings/index.js';
import { importText, messageOf, utcTexts } from './import-text.js';
import { xlsxBytes } from './sheet-bytes.js';

/** 5 January 2026 is day 46,027 of the 1900 date system (ECMA-376 part 1, 18.17.4.1). */
const DAY = 46_027;
const rows = (text: (serial: number) => string, separator = ','): string[] =>
  Array.from(
    { length: 6 },
    (_, i) => `${text(DAY + i / 48)}${separator}0${separator === ';' ? ',' : '.'}${i + 1}`,
  );
const FIRST = ['2026-01-05T00:00', '2026-01-05T00:30', '2026-01-05T01:00'];

describe('dates as the numbers that spreadsheets keep', () => {
  test.each<[string, (serial: number) => string, string]>([
    ['with all digits', (serial) => String(serial), ','],
    ['of five decimals', (serial) => serial.toFixed(5), ','],
    ['of four decimals', (serial) => serial.toFixed(4), ','],
    ['with a decimal comma', (serial) => serial.toFixed(8).replace('.', ','), ';'],
  ])('%s', (_, text, separator) => {
    const { readings, report } = importText([`Start${separator}Import kWh`, ...rows(text, separator)]);
    expect(utcTexts(readings.startUtcMs).slice(0, 3)).toEqual(FIRST);
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.2, 0.3, 0.4, 0.5, 0.6]);
    expect(report.files[0]?.assumptions[0]).toMatch(
      /^"Start" counts days as spreadsheets do: 46027\S* is 2026-01-05 00:00$/,
    );
  });

  test('are the same as the stamps they stand for, whatever the half-hours', () => {
    const offsets = fc.uniqueArray(fc.integer({ min: 0, max: 9000 }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(offsets, (list) => {
        const sorted = list.sort((a, b) => a - b);
        const iso = (n: number): string =>
          new Date(Date.UTC(2026, 0, 5) + n * 1_800_000).toISOString().slice(0, 16);
        const read = (stamp: (n: number) => string) =>
          importText(['Start (UTC),Import kWh', ...sorted.map((n) => `${stamp(n)},1`)], {
            intervalMinutes: 30,
          });
        const serials = read((n) => String(DAY + n / 48));
        expect(serials.readings).toEqual(read(iso).readings);
      }),
      { numRuns: 40, seed: 5 },
    );
  });

  test('of whole days are dates', () => {
    const lines = ['Date,Gas m3', '46027,2.5', '46028,3.5', '46029,3'];
    const { periods } = importGasFiles([{ name: 'gas.csv', bytes: Buffer.from(`${lines.join('\n')}\n`) }], {
      timeZone: 'Europe/London',
    });
    expect(periods.map(({ fromSerial, toSerial }) => [fromSerial, toSerial])).toEqual([
      [46_027, 46_028],
      [46_028, 46_029],
      [46_029, 46_030],
    ]);
  });

  test('in a sheet whose cells lost their format, from 1900 and from 1904', async () => {
    for (const is1904 of [false, true]) {
      const bytes = await xlsxBytes(
        {
          May: [
            ['Start', 'Import kWh'],
            ...Array.from({ length: 6 }, (_, i) => [DAY + i / 48 - (is1904 ? 1462 : 0), 0.5]),
          ],
        },
        is1904,
      );
      const { readings } = importFiles([{ name: 'may.xlsx', bytes }], { timeZone: 'Europe/London' });
      expect(utcTexts(readings.startUtcMs).slice(0, 3)).toEqual(FIRST);
    }
  });

  test('a number among them that is no date is told', () => {
    const lines = ['Start,Import kWh', ...rows(String), ...rows((serial) => String(serial + 1)), '7,0.1'];
    expect(messageOf(() => importText(lines))).toMatch(/line 14: "7" is not a date/);
  });

  test('numbers that no name calls dates are none', () => {
    const lines = ['Register,Import kWh', ...rows(String)];
    expect(messageOf(() => importText(lines))).toMatch(/no line holds a date and a value/);
  });
});
