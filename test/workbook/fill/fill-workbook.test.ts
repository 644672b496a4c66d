import { describe, expect, it } from 'vitest';
import type { SourcedReadings } from '../../../src/readings/index.js';
import { HALF_HOUR_MS } from '../../../src/time/serial.js';
import { columnNumber } from '../../../src/workbook/cell-address.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS, USUAL_DAYS } from '../../../src/workbook/layout.js';
import { READING } from '../../../src/workbook/model/columns.js';
import { GAS, TEMPERATURE } from '../../../src/workbook/model/heating/heating-rows.js';
import { ratePeriodRows, TARIFF_ROW, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import { cellName, openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { shapeOf } from '../../../src/workbook/sheets/shape.js';
import { verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import { formulaCell, numberCell, sheetPart, textCell, withCells, withParts } from '../edit-package.js';
import { messageOf } from '../package/tiny-workbook.js';
import { filledMonth, imported, NOW, october, octoberCsv, template } from '../template.js';

const FILE = 'home.xlsx';
const READING_ROWS = shapeOf(USUAL_DAYS).readingRows;

/** Whether every part of two workbooks, unpacked, is the same. */
function samePackages(one: Uint8Array, other: Uint8Array): string[] {
  const [a, b] = [one, other].map((bytes) => openWorkbookPackage(bytes, FILE));
  return a!.partNames().filter((part) => !a!.readPart(part)!.equals(b!.readPart(part)!));
}

function valueAt(bytes: Uint8Array, sheet: string, cell: string): unknown {
  const reader = openWorkbookPackage(bytes, FILE).readSheet(sheet);
  while (reader.next()) if (reader.name === cell) return reader.value;
  return undefined;
}

/** A workbook with two rows of its readings changed over. */
function withRowsSwapped(bytes: Uint8Array, one: number, other: number): Uint8Array {
  const rowPattern = (row: number): RegExp => new RegExp(`(<row r="${row}"[^>]*>)([\\s\\S]*?)(?=</row>)`);
  return withParts(bytes, {
    [sheetPart(bytes, SHEETS.readings)]: (xml) => {
      const cellsOf = (from: number, to: number): string =>
        rowPattern(from)
          .exec(xml)![2]!
          .replace(/(<c r="[A-Z]+)\d+/g, `$1${to}`);
      const [ofOne, ofOther] = [cellsOf(one, other), cellsOf(other, one)];
      return xml
        .replace(rowPattern(one), (_, tag: string) => `${tag}${ofOther}`)
        .replace(rowPattern(other), (_, tag: string) => `${tag}${ofOne}`);
    },
  });
}

/** Readings of one channel, made up. */
function readingsOf(startUtcMs: Float64Array, timeZone = 'Europe/London'): SourcedReadings {
  const importKwh = new Float64Array(startUtcMs.length).fill(0.1);
  return {
    readings: { timeZone, startUtcMs, channels: { importKwh } },
    placeOf: () => ({ file: 'made-up.csv' }),
  };
}

const importCsv = (...rows: string[]): string => `interval start,import kWh\n${rows.join('\n')}\n`;

describe('filling month by month', () => {
  it('gives the same workbook as all at once, whatever comes first', async () => {
    const parts = [
      imported({ 'a.csv': octoberCsv(1, 9) }),
      imported({ 'b.csv': octoberCsv(10, 25) }),
      imported({ 'c.csv': octoberCsv(26, 31) }),
    ];
    const inOrder = (order: readonly number[], start: Uint8Array): Uint8Array =>
      order.reduce((bytes, i) => fillWorkbook(bytes, FILE, parts[i]!, { now: NOW }).bytes, start);
    const backwards = inOrder([2, 0, 1], await template());
    expect(samePackages(backwards, await filledMonth())).toEqual([]);
    expect(verifyWorkbook(backwards, FILE).agrees).toBe(true);
  });

  it('does not depend on the order of the files of one fill', () => {
    const files = { 'a.csv': octoberCsv(1, 12), 'b.csv': octoberCsv(13, 20), 'c.csv': octoberCsv(21, 31) };
    const backwards = Object.fromEntries(Object.entries(files).reverse());
    expect(imported(backwards).readings).toEqual(imported(files).readings);
    expect(imported(files).readings).toEqual(october().readings);
  });

  it('moves the mark of an estimated reading with its row', async () => {
    const csv =
      'interval start,import kWh,estimated\n2026-10-02T00:00+01:00,0.5,E\n2026-10-02T00:30+01:00,0.5,\n';
    const one = fillWorkbook(await template(), FILE, imported({ 'second.csv': csv })).bytes;
    const before = imported({
      'first.csv': importCsv('2026-10-01T00:00+01:00,0.4', '2026-10-01T00:30+01:00,0.3'),
    });
    const both = fillWorkbook(one, FILE, before).bytes;
    const marks = [0, 1, 2, 3].map(
      (row) => valueAt(both, SHEETS.readings, `${READING.mark}${FIRST_ROW + row}`) ?? null,
    );
    expect(marks).toEqual([null, null, 'E', null]);
    expect(verifyWorkbook(both, FILE).agrees).toBe(true);
  });
});

describe('a value that differs from the one that the workbook holds', () => {
  const start = '2026-10-03T12:00:00+01:00';
  const row = FIRST_ROW + 2 * 48 + 24;
  const other = (): SourcedReadings =>
    imported({ 'again.csv': importCsv('2026-10-03T11:30:00+01:00,9', `${start},9`) });

  it('is refused, with both places and what to do', async () => {
    const bytes = await filledMonth();
    const [first, second] = [row - 1, row].map((at) =>
      valueAt(bytes, SHEETS.readings, `${READING.importKwh}${at}`),
    );
    expect(second).toBeTypeOf('number');
    expect(messageOf(() => fillWorkbook(bytes, FILE, other()))).toBe(
      `InputError: again.csv, line 2: importKwh of 2026-10-03 11:30 is 9 here and ${first} in ${FILE}, Readings!${READING.importKwh}${row - 1}, and 1 more such. ` +
        'Remove the wrong one, or let the later file win: --replace.',
    );
  });

  it('replaces it where the user says so, and only it', async () => {
    const bytes = await filledMonth();
    const filled = fillWorkbook(bytes, FILE, other(), { onConflict: 'replace' });
    // Beside the two readings, what only a fill can work out is renewed: least costs and the sizing.
    expect(filled).toMatchObject({ replaced: 2, addedHalfHours: 0, altered: [] });
    expect(filled.changedInputs).toBeGreaterThan(2);
    expect(valueAt(filled.bytes, SHEETS.readings, `${READING.importKwh}${row}`)).toBe(9);
    expect(filled.changedCached).toBeGreaterThan(0);
    expect(verifyWorkbook(filled.bytes, FILE).agrees).toBe(true);
  });
});

describe('readings that do not fit', () => {
  it('are refused where they are more half-hours than the workbook has rows', async () => {
    const starts = Float64Array.from(
      { length: READING_ROWS + 1 },
      (_, i) => Date.UTC(2025, 0, 1) + i * HALF_HOUR_MS,
    );
    const bytes = await template();
    expect(messageOf(() => fillWorkbook(bytes, FILE, readingsOf(starts)))).toBe(
      `InputError: ${FILE}: the readings are ${READING_ROWS + 1} half-hours, the workbook holds ${READING_ROWS}. ` +
        `Carry the workbook over into one that holds more, and fill that: npm run carry -- ${FILE} --out NEW.xlsx --days ${USUAL_DAYS + 1} (installed: home-tariff carry ${FILE} --out NEW.xlsx --days ${USUAL_DAYS + 1}).`,
    );
  });

  it('are refused where they span more days than the workbook counts', async () => {
    const starts = Float64Array.of(Date.UTC(2025, 0, 1), Date.UTC(2025, 0, 1 + USUAL_DAYS));
    const bytes = await template();
    expect(messageOf(() => fillWorkbook(bytes, FILE, readingsOf(starts)))).toContain(
      `the readings span ${USUAL_DAYS + 1} days, the workbook holds ${USUAL_DAYS}`,
    );
  });

  it('are refused where they are of another zone than those in the workbook', async () => {
    const bytes = await filledMonth();
    const paris = readingsOf(Float64Array.of(Date.UTC(2026, 11, 1)), 'Europe/Paris');
    expect(messageOf(() => fillWorkbook(bytes, FILE, paris))).toBe(
      `InputError: ${FILE}, Readings!A5: the workbook's readings are of Europe/London, not Europe/Paris. Fill into a fresh workbook for another zone.`,
    );
    expect(messageOf(() => fillWorkbook(bytes, FILE, undefined, { timeZone: 'Europe/Paris' }))).toContain(
      "the workbook's readings are of Europe/London",
    );
  });

  it('set the zone of a workbook without readings, clock changes included', async () => {
    const days = Float64Array.from({ length: 48 * 3 }, (_, i) => Date.UTC(2026, 3, 3, 13) + i * HALF_HOUR_MS);
    const filled = fillWorkbook(await template(), FILE, readingsOf(days, 'Australia/Sydney'));
    expect(valueAt(filled.bytes, SHEETS.readings, 'A5')).toBe('Australia/Sydney');
    expect(verifyWorkbook(filled.bytes, FILE)).toMatchObject({ agrees: true });
    // 5 April 2026: summer time ends, the day has 50 half-hours (IANA time zone database).
    const { book, calculated } = filled.values;
    expect(calculated.column(book.workings.calendar.length).slice(0, 3)).toEqual([48, 50, 48]);
  });
});

describe('formulas of the project that someone overwrote', () => {
  it('are named, and no stored value is left that could contradict them', async () => {
    const overwritten = withCells(await filledMonth(), {
      [SHEETS.tariffs]: { D9: numberCell('D9', 99) },
      [SHEETS.months]: { F9: formulaCell('F9', '1+1', 2) },
    });
    const rest = imported({ 'november.csv': importCsv('2026-11-01T00:00:00Z,0.2') });
    const filled = fillWorkbook(overwritten, FILE, rest);
    expect(filled.altered).toEqual([
      { sheet: SHEETS.tariffs, cell: 'D9', found: '99' },
      { sheet: SHEETS.months, cell: 'F9', found: '=1+1' },
    ]);
    const workbook = openWorkbookPackage(filled.bytes, FILE);
    let formulas = 0;
    const left: string[] = [];
    for (const sheet of workbook.sheetNames()) {
      const reader = workbook.readSheet(sheet);
      while (reader.next()) {
        if (!reader.hasFormula) continue;
        formulas++;
        if (reader.hasValue) left.push(`${sheet}!${reader.name}`);
      }
    }
    expect(formulas).toBeGreaterThan(100_000);
    expect(left).toEqual([]);
    expect(valueAt(filled.bytes, SHEETS.tariffs, 'D9')).toBe(99);
    expect(valueAt(filled.bytes, SHEETS.readings, `${READING.importKwh}${FIRST_ROW + 1490}`)).toBe(0.2);
    expect(fillWorkbook(filled.bytes, FILE, rest).bytes).toBe(filled.bytes);
  });
});

describe('what a user typed among the inputs', () => {
  it('a formula in a rate keeps its result, which is what was worked with', async () => {
    const rate = `${tariffLetters(0)}${ratePeriodRows(0).base}`;
    const bytes = withCells(await template(), {
      [SHEETS.tariffs]: { [rate]: formulaCell(rate, '20+5', 25) },
    });
    const filled = fillWorkbook(bytes, FILE, imported({ 'one.csv': importCsv('2025-11-01T00:00:00Z,2') }));
    const { book, calculated } = filled.values;
    expect(calculated.numbers(book.workings.tariffs[0]!.energy.energyPence)[0]).toBe(50);
    expect(valueAt(filled.bytes, SHEETS.tariffs, rate)).toBe(25);
  });

  it('a formula in a reading, in gas or in a temperature keeps its result, so that the next fill can work with it', async () => {
    const reading = `${READING.importKwh}${FIRST_ROW + 1}`;
    const [kwh, mean] = [`${GAS.kwh}${FIRST_ROW}`, `${TEMPERATURE.meanC}${FIRST_ROW}`];
    const typed = openWorkbookPackage(await filledMonth(), FILE);
    const type = (sheet: string, letters: string, value: number): void => {
      typed.editSheet(sheet, {
        inputs: [{ column: columnNumber(letters), firstRow: FIRST_ROW, values: [value] }],
      });
    };
    type(SHEETS.gas, GAS.firstDay, 45_992);
    type(SHEETS.gas, GAS.lastDay, 46_022);
    type(SHEETS.temperatures, TEMPERATURE.date, 45_992);
    type(SHEETS.temperatures, TEMPERATURE.meanC, 0);
    const bytes = withCells(typed.toBytes(), {
      [SHEETS.readings]: { [reading]: formulaCell(reading, '0.3+0.4', 0.7) },
      // Gas and temperatures share a sheet.
      [SHEETS.gas]: {
        [kwh]: formulaCell(kwh, '1000+200', 1200),
        [mean]: formulaCell(mean, '(9+2)/2', 5.5),
      },
    });
    const filled = fillWorkbook(bytes, FILE, undefined, { now: NOW });
    expect(filled.changedCached).toBeGreaterThan(0);
    expect(valueAt(filled.bytes, SHEETS.readings, reading)).toBe(0.7);
    expect(valueAt(filled.bytes, SHEETS.gas, kwh)).toBe(1200);
    expect(valueAt(filled.bytes, SHEETS.temperatures, mean)).toBe(5.5);
    expect(fillWorkbook(filled.bytes, FILE, undefined).bytes).toBe(filled.bytes);
    expect(verifyWorkbook(filled.bytes, FILE).agrees).toBe(true);
  });

  it('a formula among the readings is not written over', async () => {
    const cell = `${READING.importKwh}${FIRST_ROW + 3}`;
    const bytes = withCells(await filledMonth(), {
      [SHEETS.readings]: { [cell]: formulaCell(cell, '0.5*2', 1) },
    });
    const more = imported({ 'november.csv': importCsv('2026-11-01T00:00:00Z,0.2') });
    expect(messageOf(() => fillWorkbook(bytes, FILE, more))).toBe(
      `InputError: ${FILE}, Readings!${cell}: a formula stands where a value is to be written. Clear the cell, or move the formula elsewhere, and try again.`,
    );
  });

  it('a formula among the readings that nobody calculated is not taken for a blank', async () => {
    const cell = `${READING.importKwh}${FIRST_ROW + 3}`;
    const bytes = withCells(await filledMonth(), {
      [SHEETS.readings]: { [cell]: formulaCell(cell, '0.5*2') },
    });
    expect(messageOf(() => fillWorkbook(bytes, FILE, undefined))).toBe(
      `InputError: ${FILE}, Readings!${cell}: the cell holds a formula without a result. Open the workbook in a spreadsheet program and save it, or type the value.`,
    );
  });

  it('a reading that was pasted wrong is named, not overwritten', async () => {
    const row = FIRST_ROW + 5;
    const more = imported({ 'november.csv': importCsv('2026-11-01T00:00:00Z,0.2') });
    const [textDate, textValue, offHalfHour] = await Promise.all(
      [
        { [`A${row}`]: textCell(`A${row}`, '01/10/2026 02:30') },
        { [`C${row}`]: textCell(`C${row}`, '0,25') },
        { [`A${row}`]: numberCell(`A${row}`, 46_296.11) },
      ].map(async (cells) => withCells(await filledMonth(), { [SHEETS.readings]: cells })),
    );
    const message = (bytes: Uint8Array): string => messageOf(() => fillWorkbook(bytes, FILE, more));
    expect(message(textDate!)).toContain(
      `${FILE}, Readings!A${row}: the date is text. Turn the column into real dates`,
    );
    expect(message(textValue!)).toContain(`${FILE}, Readings!A${row}: a value of the row is not a number.`);
    expect(message(offHalfHour!)).toContain(`${FILE}, Readings!A${row}: the time is off the half-hour.`);
  });

  it('rows of readings out of order are placed by their time, and stand in order afterwards', async () => {
    const [row, later] = [FIRST_ROW + 5, FIRST_ROW + 100];
    const swapped = withRowsSwapped(await filledMonth(), row, later);
    expect(valueAt(swapped, SHEETS.readings, `A${row}`)).toBe(
      valueAt(await filledMonth(), SHEETS.readings, `A${later}`),
    );
    const none = fillWorkbook(swapped, FILE, undefined, { now: NOW });
    expect(verifyWorkbook(none.bytes, FILE).agrees).toBe(true);
    const total = `${tariffLetters(1)}${TARIFF_ROW.total}`;
    expect(valueAt(none.bytes, SHEETS.tariffs, total)).toBe(
      valueAt(await filledMonth(), SHEETS.tariffs, total),
    );
    const again = fillWorkbook(swapped, FILE, imported({ 'first.csv': octoberCsv(1, 1) }), { now: NOW });
    expect(again.addedHalfHours).toBe(0);
    const apart = samePackages(again.bytes, await filledMonth());
    expect(apart.filter((part) => part !== sheetPart(swapped, SHEETS.readings))).toEqual([]);
    for (const at of [row, later]) {
      const cells = [READING.start, READING.importKwh, READING.outdoorC].map((letters) => `${letters}${at}`);
      const values = (bytes: Uint8Array): unknown[] =>
        cells.map((cell) => valueAt(bytes, SHEETS.readings, cell));
      expect(values(again.bytes)).toEqual(values(await filledMonth()));
    }
  });

  it('a half-hour that stands in two rows is refused, with the later of them', async () => {
    const bytes = await filledMonth();
    const [row, other] = [FIRST_ROW + 5, FIRST_ROW + 100];
    const twice = withCells(bytes, {
      [SHEETS.readings]: {
        [`A${other}`]: numberCell(`A${other}`, Number(valueAt(bytes, SHEETS.readings, `A${row}`))),
      },
    });
    const more = imported({ 'november.csv': importCsv('2026-11-01T00:00:00Z,0.2') });
    expect(messageOf(() => fillWorkbook(twice, FILE, more))).toBe(
      `InputError: ${FILE}, Readings!A${other}: the half-hour stands in an earlier row too. Take one of the two rows out.`,
    );
  });

  it('blank rows among the readings close up, and nothing is left below', async () => {
    const row = FIRST_ROW + 10;
    const blank = Object.fromEntries(
      Array.from({ length: 13 }, (_, i) => [cellName(row, i + 1), ''] as const),
    );
    const bytes = withCells(await filledMonth(), { [SHEETS.readings]: blank });
    const filled = fillWorkbook(bytes, FILE, imported({ 'first.csv': octoberCsv(1, 1) }));
    expect(filled.addedHalfHours).toBe(1);
    expect(
      samePackages(filled.bytes, await filledMonth()).filter(
        (part) => part !== sheetPart(bytes, SHEETS.readings),
      ),
    ).toEqual([]);
    const none = fillWorkbook(bytes, FILE, imported({ 'second.csv': octoberCsv(2, 2) }));
    const last = FIRST_ROW + october().readings.startUtcMs.length - 1;
    expect(valueAt(none.bytes, SHEETS.readings, `A${last}`)).toBeNull();
    expect(valueAt(none.bytes, SHEETS.readings, `A${last - 1}`)).toBeTypeOf('number');
    expect(verifyWorkbook(none.bytes, FILE).agrees).toBe(true);
  });
});

describe('without files', () => {
  it('a workbook that is up to date keeps its bytes', async () => {
    const bytes = await filledMonth();
    expect(fillWorkbook(bytes, FILE, undefined).bytes).toBe(bytes);
  });

  it('a formula of the user’s own keeps its result where nothing changed, and is left to the spreadsheet where something did', async () => {
    const bytes = withCells(await filledMonth(), {
      [SHEETS.tariffs]: { Z9: formulaCell('Z9', 'C9*2', 123) },
    });
    const unchanged = fillWorkbook(bytes, FILE, undefined);
    expect(unchanged.bytes).toBe(bytes);
    expect(unchanged).toMatchObject({ changedInputs: 0, changedCached: 0 });
    const rate = `${tariffLetters(0)}${ratePeriodRows(4).base}`;
    const changed = withCells(bytes, { [SHEETS.tariffs]: { [rate]: numberCell(rate, 99) } });
    expect(valueAt(fillWorkbook(changed, FILE, undefined).bytes, SHEETS.tariffs, 'Z9')).toBeNull();
  });

  it('a changed rate is worked out anew, everywhere', async () => {
    const rate = `${tariffLetters(0)}${ratePeriodRows(4).base}`;
    const bytes = withCells(await filledMonth(), { [SHEETS.tariffs]: { [rate]: numberCell(rate, 99) } });
    expect(verifyWorkbook(bytes, FILE).agrees).toBe(false);
    const filled = fillWorkbook(bytes, FILE, undefined);
    // The tariff's least cost, its fingerprint and its time are renewed with it; so are its two totals with the battery, without
    // the timers and with them, with their marks and their time.
    expect(filled).toMatchObject({ changedInputs: 3 + 5, addedHalfHours: 0, altered: [] });
    expect(filled.changedCached).toBeGreaterThan(0);
    expect(verifyWorkbook(filled.bytes, FILE).agrees).toBe(true);
  });
});

describe('a text that begins with =', () => {
  it('in a file of readings never becomes a formula', async () => {
    const evil = '=HYPERLINK("http://example.org/","click")';
    const csv = `interval start,import kWh,"${evil.replaceAll('"', "'")}",estimated\n2026-11-01T00:00:00Z,0.2,"${evil.replaceAll('"', '""')}",=E\n`;
    const before = await filledMonth();
    const filled = fillWorkbook(before, FILE, imported({ '=1+1.csv': csv }));
    expect(filled.addedHalfHours).toBe(1);
    const formulas = (bytes: Uint8Array): number =>
      String(openWorkbookPackage(bytes, FILE).readPart(sheetPart(bytes, SHEETS.readings))).match(/<f[ >]/g)
        ?.length ?? 0;
    expect(formulas(filled.bytes)).toBe(formulas(before));
    const workbook = openWorkbookPackage(filled.bytes, FILE);
    for (const part of workbook.partNames())
      expect(String(workbook.readPart(part)).includes('HYPERLINK("http')).toBe(false);
  });

  it('as a value is refused with its line', () => {
    const csv = importCsv('2026-11-01T00:00:00Z,2', '2026-11-01T00:30:00Z,=1+1');
    expect(messageOf(() => imported({ 'evil.csv': csv }))).toBe(
      'InputError: evil.csv, line 3: "=1+1" is a formula, not a value. Give the number itself, or leave the cell empty.',
    );
  });
});
