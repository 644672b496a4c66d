import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { assertInPlace } from '../../src/workbook/fill/assert-in-place.js';
import { blankStart } from '../../src/workbook/fill/blank-start.js';
import { fillWorkbook, workbookTimeZone } from '../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS, USUAL_DAYS } from '../../src/workbook/layout.js';
import { declareBook } from '../../src/workbook/model/book.js';
import { READING } from '../../src/workbook/model/columns.js';
import { DAYS_CELL } from '../../src/workbook/model/notes-sheet.js';
import type { SheetModel } from '../../src/workbook/model/sheet-model.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';
import { describeWithCalc } from '../engines/availability.js';
import { type Calc, startCalc } from '../engines/libreoffice.js';
import { textCell, withCells, withParts } from './edit-package.js';
import { messageOf } from './package/tiny-workbook.js';
import { rewrittenWorkbook } from './rewritten-workbook.js';
import { movedCells, type Shift, shiftedWorkbook } from './shifted-workbook.js';
import { livedInMonth, october, template } from './template.js';

const FILE = 'home.xlsx';
let model: SheetModel[];
let empty: Uint8Array;
beforeAll(async () => {
  model = workbookModel(blankStart(), declareBook(USUAL_DAYS));
  empty = await template();
});

/** What a fill and a verify say first; the same words. */
const said = (bytes: Uint8Array): string =>
  messageOf(() => assertInPlace(openWorkbookPackage(bytes, FILE), model));

const refused = (bytes: Uint8Array): void => {
  for (const work of [() => fillWorkbook(bytes, FILE, october()), () => verifyWorkbook(bytes, FILE)]) {
    expect(messageOf(work)).toBe(said(bytes));
  }
};

describe('a sheet where everything stands in its place', () => {
  it('is taken, empty, lived in, or rewritten by another program', async () => {
    for (const bytes of [empty, await livedInMonth(), rewrittenWorkbook(empty)]) {
      expect(() => assertInPlace(openWorkbookPackage(bytes, FILE), model)).not.toThrow();
    }
  });

  it('may have columns of the user’s own beside the project’s, and notes below', () => {
    const note = withCells(empty, { [SHEETS.readings]: { N6: textCell('N6', 'Import') } });
    expect(() => assertInPlace(openWorkbookPackage(note, FILE), model)).not.toThrow();
    expect(() =>
      assertInPlace(
        openWorkbookPackage(
          shiftedWorkbook(note, { sheet: SHEETS.readings, what: 'column', at: 14, count: 1 }),
          FILE,
        ),
        model,
      ),
    ).not.toThrow();
  });
});

describe('readings whose columns were moved', () => {
  const column = (letters: string, count: number): Shift => ({
    sheet: SHEETS.readings,
    what: 'column',
    at: columnNumber(letters),
    count,
  });

  it.each<[string, Shift, string]>([
    [
      'a column inserted first',
      column('A', 1),
      'Readings!A4: the cell holds nothing where "Time zone, IANA name" belongs, which stands in B4. ' +
        'Take the inserted column out again; columns of your own have their place right of the project’s.',
    ],
    [
      'a column inserted in the middle',
      column(READING.importKwh, 1),
      'Readings!C4: the cell holds nothing where "Largest plausible half-hour, kWh" belongs, which stands in D4. ' +
        'Take the inserted column out again; columns of your own have their place right of the project’s.',
    ],
    [
      'a column inserted before the last',
      column(READING.mark, 1),
      'Readings!M6: the cell holds nothing where "Mark" belongs, which stands in N6. ' +
        'Take the inserted column out again; columns of your own have their place right of the project’s.',
    ],
    [
      'a column deleted',
      column(READING.exportKwh, -1),
      'Readings!F4: the cell holds nothing where "A battery ran while this was metered, yes or no" belongs, which stands in E4. ' +
        'Put the cells back where they were (undo); where that is too late, go back to an earlier copy or start from a fresh workbook.',
    ],
    [
      'a row inserted above the headings',
      { sheet: SHEETS.readings, what: 'row', at: 2, count: 1 },
      'Readings!A4: the cell holds "Starts of half-hours by the home’s clock; blank where nothi…" where "Time zone, IANA name" belongs, which stands in A5. ' +
        'Take the inserted row out again; notes of your own have their place beside or below the project’s.',
    ],
    [
      'a row inserted below the headings',
      { sheet: SHEETS.readings, what: 'row', at: FIRST_ROW, count: 2 },
      `Readings!A${FIRST_ROW}:A19209: the name "read_start" belongs to these cells, but stands for 'Readings'!A10:A19211. ` +
        'Take the rows out again that were inserted in Readings above row 10.',
    ],
    [
      'rows inserted among the readings',
      { sheet: SHEETS.readings, what: 'row', at: 100, count: 3 },
      `Readings!A${FIRST_ROW}:A19209: the name "read_start" belongs to these cells, but stands for 'Readings'!A8:A19212. ` +
        'Take 3 rows out again that were inserted in Readings.',
    ],
    [
      'rows of readings deleted',
      { sheet: SHEETS.readings, what: 'row', at: FIRST_ROW, count: -1488 },
      `Readings!A${FIRST_ROW}:A19209: the name "read_start" belongs to these cells, but stands for 'Readings'!A8:A17721. ` +
        'Undo the deletion of 1,488 rows of Readings, or insert as many again above its last. To take readings out, clear their cells instead.',
    ],
  ])('%s: told with the cell, what was found, what belongs there and what to do', (_, shift, words) => {
    const bytes = shiftedWorkbook(empty, shift);
    expect(said(bytes)).toBe(`InputError: ${FILE}, ${words}`);
    refused(bytes);
  });

  it('two headings swapped, and two whole columns swapped', () => {
    const [d, e] = [columnNumber(READING.exportKwh), columnNumber(READING.solarKwh)];
    const swapped = (rows: (row: number) => boolean): Uint8Array =>
      movedCells(empty, SHEETS.readings, ({ row, column }) => ({
        row,
        column: rows(row) && (column === d || column === e) ? d + e - column : column,
      }));
    for (const bytes of [swapped((row) => row === FIRST_ROW - 2), swapped(() => true)]) {
      expect(said(bytes)).toBe(
        `InputError: ${FILE}, Readings!D6: the cell holds "Solar" where "Export" belongs, which stands in E6. ` +
          'Put the cells back in their order (undo a move or a sort); where that is too late, go back to an earlier copy or start from a fresh workbook.',
      );
      refused(bytes);
    }
  });

  it('a heading that was overwritten', () => {
    const bytes = withCells(empty, { [SHEETS.readings]: { C6: textCell('C6', 'Verbrauch') } });
    expect(said(bytes)).toBe(
      `InputError: ${FILE}, Readings!C6: the cell holds "Verbrauch" where "Import" belongs. Give the cell its text back, or undo what took it away.`,
    );
    refused(bytes);
  });
});

describe('every sheet that takes inputs', () => {
  const INPUT_SHEETS = [
    SHEETS.answer,
    SHEETS.tariffs,
    SHEETS.battery,
    SHEETS.bills,
    SHEETS.timers,
    SHEETS.heatingInputs,
    SHEETS.gas,
    SHEETS.readings,
    SHEETS.notes,
    SHEETS.clock,
  ];

  it('is one of these', () => {
    const found = model.filter(
      ({ cells, inputColumns }) => inputColumns.length > 0 || cells.some(({ kind }) => kind === 'input'),
    );
    expect(found.map(({ name }) => name)).toEqual(expect.arrayContaining(INPUT_SHEETS));
    expect(found).toHaveLength(INPUT_SHEETS.length);
  });

  it.each(INPUT_SHEETS)(
    '%s is refused with a column or row more or less, wherever inputs stand behind it',
    (name) => {
      const sheet = model.find((candidate) => candidate.name === name)!;
      const places = [
        ...sheet.cells.flatMap((cell) => (cell.kind === 'input' ? [cell.at] : [])),
        ...sheet.inputColumns.map(({ letters, firstRow }) => `${letters}${firstRow}`),
      ].map((at) => ({ column: columnNumber(at.replace(/\d+/, '')), row: Number(at.replace(/\D+/, '')) }));
      const span = (values: number[]): number[] => {
        const distinct = [...new Set(values)].sort((a, b) => a - b);
        return [1, distinct[0]!, distinct[Math.floor(distinct.length / 2)]!, distinct.at(-1)!];
      };
      const missed: string[] = [];
      for (const what of ['column', 'row'] as const) {
        for (const at of new Set(span(places.map((place) => place[what])))) {
          for (const count of [1, -1]) {
            const bytes = shiftedWorkbook(empty, { sheet: name, what, at, count });
            try {
              assertInPlace(openWorkbookPackage(bytes, FILE), model);
              missed.push(`${what} ${at}: ${count}`);
            } catch (error) {
              expect(String(error)).toContain(`InputError: ${FILE}, ${name}!`);
            }
          }
        }
      }
      expect(missed).toEqual([]);
    },
  );

  it('rows of labels and values that were sorted are told', () => {
    // The facts of the readings, the last first.
    const facts = ['A', 'C', 'F'].map(columnNumber);
    const sorted = movedCells(empty, SHEETS.readings, ({ row, column }) => ({
      row,
      column:
        (row === 4 || row === 5) && facts.includes(column)
          ? (facts[2 - facts.indexOf(column)] ?? column)
          : column,
    }));
    expect(said(sorted)).toMatch(
      /^InputError: home\.xlsx, Readings!A4: the cell holds ".*" where "Time zone, IANA name" belongs, which stands in F4\. Put the cells back in their order/,
    );
    refused(sorted);
    expect(messageOf(() => workbookTimeZone(sorted, FILE))).toBe(said(sorted));
  });
});

describe('workings that were moved', () => {
  it.each([SHEETS.rateGrid, SHEETS.days, SHEETS.months, SHEETS.halfHours, SHEETS.rates])(
    '%s with a column inserted first, in the middle or a row deleted is refused in a line',
    (sheet) => {
      for (const shift of [
        { what: 'column', at: 1, count: 1 },
        { what: 'column', at: 3, count: 1 },
        { what: 'row', at: 9, count: -1 },
      ] as const) {
        const names = shiftedWorkbook(empty, { sheet, ...shift });
        expect(said(names)).toMatch(
          /^InputError: home\.xlsx, [^:]+!.*: (the name "\w+" belongs to these cells, but stands for |the cell holds .* where ".*" belongs)/,
        );
      }
    },
  );

  it('a sheet of which no name stands is told by its headings once its formulas are found to differ', () => {
    const bytes = shiftedWorkbook(empty, { sheet: SHEETS.when, what: 'row', at: 4, count: 1 });
    expect(said(bytes)).toBe('no error');
    for (const work of [() => fillWorkbook(bytes, FILE, october()), () => verifyWorkbook(bytes, FILE)]) {
      expect(messageOf(work)).toMatch(
        /^InputError: home\.xlsx, When![A-Z]+\d+: the cell holds nothing where ".*" belongs, which stands in [A-Z]+\d+\. Take the inserted row out again/,
      );
    }
  });

  it('a name that formulas are written by is told where it stands for something else, or is gone', async () => {
    const renamed = (change: (xml: string) => string): string =>
      said(withParts(empty, { 'xl/workbook.xml': change }));
    const name = '<definedName name="net_at_meter">';
    expect(renamed((xml) => xml.replace(name, `${name}2*`))).toMatch(
      /^InputError: home\.xlsx: the name "net_at_meter" belongs to .*, but stands for 2\*.*\. Give the name back what belongs to it, said as from cell A1/,
    );
    expect(renamed((xml) => xml.replace(new RegExp(`${name}[^<]*</definedName>`), ''))).toMatch(
      /^InputError: home\.xlsx: the name "net_at_meter" belongs to .*, but there is no such name\. Define the name again/,
    );
  });

  it('a name of one sheet that hides one of the workbook is told; on a sheet of one’s own it hides none', async () => {
    const lived = await livedInMonth();
    const sheets = openWorkbookPackage(lived, FILE).sheetNames();
    const ours: readonly string[] = Object.values(SHEETS);
    const shadowed = (sheet: string): string =>
      said(
        withParts(lived, {
          'xl/workbook.xml': (xml) =>
            xml.replace(
              '</definedNames>',
              `<definedName name="Usable_kWh" localSheetId="${sheets.indexOf(sheet)}">7</definedName></definedNames>`,
            ),
        }),
      );
    const own = sheets.find((sheet) => !ours.includes(sheet))!;
    expect(shadowed(own)).toBe('no error');
    expect(shadowed(SHEETS.halfHours)).toBe(
      'InputError: home.xlsx, Grid: the sheet has a name of its own "Usable_kWh", which stands for 7; its formulas would take it for that of the workbook. Delete that name, of this sheet only, or give it another.',
    );
  });

  it('Notes with a row inserted says so, not that the layout is unknown', () => {
    const bytes = shiftedWorkbook(empty, { sheet: SHEETS.notes, what: 'row', at: 2, count: 1 });
    for (const work of [() => fillWorkbook(bytes, FILE, october()), () => verifyWorkbook(bytes, FILE)]) {
      expect(messageOf(work)).toBe(
        `InputError: ${FILE}, Notes!B4: the number of the layout belongs here, but stands in 'Notes'!B5. Undo what was inserted in, deleted from or moved on Notes.`,
      );
    }
    expect(DAYS_CELL).toBe('B5');
  });
});

describeWithCalc('LibreOffice', () => {
  let calc: Calc;
  let folder: string;
  beforeAll(async () => {
    calc = await startCalc({ recalculateOnLoad: 'never' });
    folder = await mkdtemp(join(tmpdir(), 'in-place-'));
  });
  afterAll(async () => {
    await calc.stop();
    await rm(folder, { recursive: true, force: true });
  });

  it('moves headings and names with a column that is inserted there, and the workbook is refused', async () => {
    const [path, saved] = ['home.xlsx', 'saved.xlsx'].map((name) => join(folder, name)) as [string, string];
    await writeFile(path, empty);
    const document = await calc.open(path);
    await document.insert(SHEETS.readings, 'column', columnNumber(READING.importKwh), 1);
    await document.saveAs(saved, 'xlsx');
    const bytes = await readFile(saved);
    expect(said(bytes)).toBe(
      `InputError: ${FILE}, Readings!C4: the cell holds nothing where "Largest plausible half-hour, kWh" belongs, which stands in D4. ` +
        'Take the inserted column out again; columns of your own have their place right of the project’s.',
    );
    refused(bytes);
    await document.close();
  });
});
