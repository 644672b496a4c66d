import { beforeAll, describe, expect, it } from 'vitest';
import { CHANNELS } from '../../../src/readings/index.js';
import { type FillResult, fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS } from '../../../src/workbook/layout.js';
import { READING } from '../../../src/workbook/model/columns.js';
import { TARIFF_ROW, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { readStoredWorkbook, type StoredCell } from '../../engines/stored-cells.js';
import { withCells } from '../edit-package.js';
import { OWN_COLUMN, OWN_FORMULAS, OWN_NOTE, OWN_SHEET } from '../lived-in-workbook.js';
import { compressedParts } from '../package/household-workbook.js';
import { rewrittenWorkbook } from '../rewritten-workbook.js';
import { savedByGnumeric, savedByLibreOffice } from '../saved-by.js';
import { imported, livedInMonth, october, octoberCsv } from '../template.js';

const restOfOctober = imported({ 'rest-of-october.csv': octoberCsv(11, 31) });
const wholeOctober = october().readings;

/** Cells of one sheet by name, read with nothing but a zip library and patterns. */
function storedCells(bytes: Uint8Array, sheet: string): Map<string, StoredCell> {
  const found = readStoredWorkbook(bytes).sheets.find(({ name }) => name === sheet);
  return new Map([...found!.cells()].map((cell) => [cell.ref, cell]));
}

/** A chart without the values that it keeps beside its references, and without line breaks. */
function withoutStoredValues(chart: string): string {
  return chart
    .replace(/\s*<(\w+:)?(num|str)Cache(?:\/>|>[\s\S]*?<\/\1\2Cache>)/g, '')
    .replace(/>\s+</g, '><');
}

/** What a chart keeps beside its references to a column. */
function storedValuesOf(chart: string, column: string): string[] {
  const kept = /f>([^<]*)<\/(?:\w+:)?f>\s*(<(?:\w+:)?(?:num|str)Cache>[\s\S]*?Cache>)?/g;
  return [...chart.matchAll(kept)]
    .filter(([, reference]) => reference!.includes(column))
    .map(([, , values]) => values ?? '');
}

/** All that must hold of a lived-in workbook with ten days of October, whoever saved it last. */
function takesTheRestOfTheMonth(name: string, save: (bytes: Uint8Array) => Promise<Uint8Array> | Uint8Array) {
  let before: Uint8Array;
  let filled: FillResult;
  beforeAll(async () => {
    before = await save(await livedInMonth());
    filled = fillWorkbook(before, name, restOfOctober);
  });

  it('holds formulas and values as the project wrote them, before anything is filled', () => {
    const { sheets, agrees } = verifyWorkbook(before, name);
    expect(sheets.flatMap(({ altered, differing }) => [...altered, ...differing])).toEqual([]);
    expect(agrees).toBe(true);
  });

  it('has the readings of the whole month afterwards, each in its row', () => {
    const cells = storedCells(filled.bytes, SHEETS.readings);
    wholeOctober.startUtcMs.forEach((_, i) => {
      for (const channel of CHANNELS) {
        const value = cells.get(`${READING[channel]}${FIRST_ROW + i}`)?.value;
        expect(value, `${channel} ${i}`).toBeCloseTo(wholeOctober.channels[channel]![i]!, 12);
      }
    });
    expect(filled).toMatchObject({ altered: [], replaced: 0, duplicates: 0 });
    expect(filled.addedHalfHours).toBe(restOfOctober.readings.startUtcMs.length);
  });

  it('holds the library’s value in every formula cell of the project', () => {
    const { agrees, compared } = verifyWorkbook(filled.bytes, name);
    expect(agrees).toBe(true);
    expect(compared).toBeGreaterThan(100_000);
    const cells = storedCells(filled.bytes, SHEETS.tariffs);
    const { inputs, book, calculated } = filled.values;
    const named = inputs.tariffs.filter(({ name }) => name !== null);
    expect(named.length).toBeGreaterThan(5);
    named.forEach((_, t) => {
      const { period } = book.workings.months;
      const { months, batteryMonths } = book.workings.tariffs[t]!;
      // The home has a battery: the total is with it.
      for (const [row, column] of [
        [TARIFF_ROW.total, batteryMonths.total],
        [TARIFF_ROW.withoutBattery, months.total],
      ] as const) {
        const total = calculated.of(period.get(column)!);
        expect(total).toBeGreaterThan(0);
        expect(cells.get(`${tariffLetters(t)}${row}`)?.value).toBeCloseTo(Number(total), 9);
      }
    });
  });

  it('keeps the user’s formulas, and leaves their values to the spreadsheet program', () => {
    const old = openWorkbookPackage(before, name);
    const now = openWorkbookPackage(filled.bytes, name);
    for (const [sheet, cell] of OWN_FORMULAS) {
      const [was, is] = [old, now].map((workbook) => {
        const reader = workbook.readSheet(sheet);
        while (reader.next()) {
          if (reader.name === cell) return { formula: reader.formula, hasValue: reader.hasValue };
        }
        return undefined;
      });
      expect({ sheet, cell, was: was?.hasValue }).toEqual({ sheet, cell, was: true });
      expect(is).toEqual({ formula: was!.formula, hasValue: false });
    }
  });

  it('keeps notes, names, formats, comments, pictures and unknown parts byte for byte, and charts but for stored values', () => {
    const old = compressedParts(before);
    const now = compressedParts(filled.bytes);
    expect([...now.keys()]).toEqual([...old.keys()]);
    const changed = [...old.keys()].filter((part) => !old.get(part)!.equals(now.get(part)!));
    expect(changed.length).toBeGreaterThan(0);
    const charts = changed.filter((part) => /charts\/chart[^/]*\.xml$/.test(part));
    expect(changed.filter((part) => !/^xl\/worksheets\/[^/]+\.xml$/.test(part))).toEqual(charts);
    const [oldPackage, newPackage] = [before, filled.bytes].map((bytes) => openWorkbookPackage(bytes, name));
    for (const part of charts) {
      const [was, is] = [oldPackage!, newPackage!].map((workbook) => String(workbook.readPart(part)));
      expect(withoutStoredValues(is!)).toBe(withoutStoredValues(was!));
      expect(storedValuesOf(is!, OWN_COLUMN)).toEqual(storedValuesOf(was!, OWN_COLUMN));
    }
    for (const kind of [/charts?\/chart/i, /media\//, /comments/, /styles/, /workbook\.xml$/]) {
      if (name === 'gnumeric.xlsx' && !kind.test([...old.keys()].join('\n'))) continue;
      expect([...old.keys()].some((part) => kind.test(part))).toBe(true);
    }
    const own = storedCells(filled.bytes, OWN_SHEET);
    expect(own.get('A1')?.value).toBe('Budget of the year');
    expect(own.get('A3')).toMatchObject({ kind: 'text', value: '=not a formula' });
    expect(own.get('B1')?.value).toBe(1500);
    expect(storedCells(filled.bytes, OWN_NOTE.sheet).get(OWN_NOTE.cell)?.value).toBe(OWN_NOTE.text);
  });

  it('changes nothing when the same file comes again', () => {
    const again = fillWorkbook(filled.bytes, name, restOfOctober);
    expect(again.bytes).toBe(filled.bytes);
    expect(again).toMatchObject({ addedHalfHours: 0, changedInputs: 0, changedCached: 0, replaced: 0 });
    expect(again.duplicates).toBeGreaterThan(0);
  });
}

describe('a workbook that this build saved last', () => {
  takesTheRestOfTheMonth('built.xlsx', (bytes) => bytes);
});

describe('a workbook that a program rewrote: formulas unshared, texts shared and shuffled, styles renumbered, elements prefixed', () => {
  takesTheRestOfTheMonth('rewritten.xlsx', rewrittenWorkbook);
});

describeWithCalc('a workbook that LibreOffice saved last', () => {
  takesTheRestOfTheMonth('libreoffice.xlsx', savedByLibreOffice);

  it('is found out when a value, a formula or a constant was changed in it', async () => {
    const saved = await savedByLibreOffice(await livedInMonth());
    const changed = withCells(saved, {
      [SHEETS.tariffs]: {
        D9: '<c r="D9"><f>1+1</f><v>2</v></c>',
        E9: '<c r="E9"><v>5</v></c>',
      },
      [SHEETS.months]: { F8: '' },
    });
    const { sheets } = verifyWorkbook(changed, 'home.xlsx');
    expect(
      sheets.flatMap(({ altered }) => altered.map(({ sheet, cell }) => `${sheet}!${cell}`)).sort(),
    ).toEqual(['Months!F8', 'Tariffs!D9', 'Tariffs!E9']);
  });
});

describeWithGnumeric('a workbook that Gnumeric saved last', () => {
  takesTheRestOfTheMonth('gnumeric.xlsx', savedByGnumeric);
});
