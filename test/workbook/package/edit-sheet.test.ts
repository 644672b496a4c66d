import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CachedValue,
  CellError,
  cellName,
  DROP,
  type InputValue,
  openWorkbookPackage,
  type SheetEdits,
} from '../../../src/workbook/package/index.js';
import {
  formulasOf,
  messageOf,
  rowsOf,
  sheetXml,
  tinyParts,
  tinyWorkbook,
  valuesOf,
  zip,
} from './tiny-workbook.js';

function edited(rows: string, edits: SheetEdits, before = ''): string {
  const workbook = tinyWorkbook(rows, ['<t>old</t>'], before);
  workbook.editSheet('Data', edits);
  return rowsOf(workbook);
}

function typed(rows: string, column: number, firstRow: number, ...values: InputValue[]): string {
  return edited(rows, { inputs: [{ column, firstRow, values }] });
}

function stored(rows: string, value: CachedValue): string {
  return edited(rows, { cached: () => value });
}

describe('typing into cells', () => {
  it.each<[string, string, InputValue, string]>([
    ['a number', '<c r="A1" s="4"><v>1</v></c>', 2.5, '<c r="A1" s="4"><v>2.5</v></c>'],
    ['a number over a text', '<c r="A1" s="4" t="s"><v>0</v></c>', 2, '<c r="A1" s="4"><v>2</v></c>'],
    [
      'a number over a text of its own',
      '<c t="inlineStr" r="A1" s="4"><is><t>x</t></is></c>',
      2,
      '<c r="A1" s="4"><v>2</v></c>',
    ],
    ['a number into an empty cell', '<c r="A1" s="4"/>', 2, '<c r="A1" s="4"><v>2</v></c>'],
    [
      'a text',
      '<c r="A1" s="4"><v>1</v></c>',
      'a<b',
      '<c r="A1" s="4" t="inlineStr"><is><t xml:space="preserve">a&lt;b</t></is></c>',
    ],
    [
      'a text that begins like a formula',
      '<c r="A1"/>',
      '=1+1',
      '<c r="A1" t="inlineStr"><is><t xml:space="preserve">=1+1</t></is></c>',
    ],
    ['true', '<c r="A1" s="4"><v>7</v></c>', true, '<c r="A1" s="4" t="b"><v>1</v></c>'],
    ['nothing', '<c r="A1" s="4" t="s"><v>0</v></c>', null, '<c r="A1" s="4"></c>'],
    ['minus zero', '<c r="A1"><v>1</v></c>', -0, '<c r="A1"><v>0</v></c>'],
    ['a small number', '<c r="A1"><v>1</v></c>', 1e-7, '<c r="A1"><v>1E-7</v></c>'],
  ])('%s', (_, before, value, after) => {
    expect(typed(`<row r="1">${before}</row>`, 1, 1, value)).toBe(`<row r="1">${after}</row>`);
  });

  it.each<[string, string, InputValue]>([
    ['the same number, written otherwise', '<c r="A1"><v>1.50</v></c>', 1.5],
    ['the same shared text', '<c r="A1" t="s"><v>0</v></c>', 'old'],
    ['the same text', '<c r="A1" t="inlineStr"><is><t>x</t></is></c>', 'x'],
    ['the same truth', '<c r="A1" t="b"><v>true</v></c>', true],
    ['a date stored as text', '<c r="A1" t="d"><v>2024-01-01</v></c>', 45292],
    ['nothing into nothing', '<c r="A1" s="1"/>', null],
    ['nothing into no cell', '', null],
    ['undefined', '<c r="A1"><v>1</v></c>', undefined],
  ])('leaves the bytes alone for %s', (_, cell, value) => {
    const workbook = tinyWorkbook(`<row r="1">${cell}</row>`, ['<t>old</t>']);
    const before = workbook.toBytes();
    const counts = workbook.editSheet('Data', { inputs: [{ column: 1, firstRow: 1, values: [value] }] });
    expect(counts.changedCells).toBe(0);
    expect(workbook.toBytes()).toBe(before);
  });

  it('makes cells between, before and after those of a row', () => {
    const rows = '<row r="1"><c r="B1"><v>2</v></c><c r="D1"><v>4</v></c></row>';
    const inputs = [5, 3, 1].map((column) => ({ column, firstRow: 1, values: [column] }));
    expect(edited(rows, { inputs })).toBe(
      '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c><c r="C1"><v>3</v></c><c r="D1"><v>4</v></c><c r="E1"><v>5</v></c></row>',
    );
  });

  it('makes rows before, between and after those of a sheet', () => {
    expect(typed('<row r="2"/><row r="4" ht="20"></row>', 1, 1, 1, 2, 3, 4, 5)).toBe(
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row><row r="3"><c r="A3"><v>3</v></c></row>' +
        '<row r="4" ht="20"><c r="A4"><v>4</v></c></row><row r="5"><c r="A5"><v>5</v></c></row>',
    );
  });

  it('makes rows in an empty sheet', () => {
    const xml = sheetXml('').replace('<sheetData></sheetData>', '<sheetData/>');
    const workbook = openWorkbookPackage(zip(tinyParts(xml)), 'home.xlsx');
    workbook.editSheet('Data', { inputs: [{ column: 2, firstRow: 3, values: [1, 2] }] });
    expect(rowsOf(workbook)).toBe(
      '<row r="3"><c r="B3"><v>1</v></c></row><row r="4"><c r="B4"><v>2</v></c></row>',
    );
  });

  it('gives a new cell the style of the cell above it in the block, else of its row, else of its column', () => {
    const cols = '<cols><col min="1" max="2" style="7" width="9"/><col min="4" max="4" width="9"/></cols>';
    const rows = '<row r="1"><c r="A1" s="3"/></row><row r="2" s="5" customFormat="1"/>';
    const inputs = [
      { column: 1, firstRow: 1, values: [1, 1] },
      { column: 2, firstRow: 2, values: [2, 2] },
      { column: 3, firstRow: 3, values: [3], style: 9 },
      { column: 4, firstRow: 3, values: [4] },
    ];
    expect(edited(rows, { inputs }, cols)).toBe(
      '<row r="1"><c r="A1" s="3"><v>1</v></c></row><row r="2" s="5" customFormat="1"><c r="A2" s="3"><v>1</v></c><c r="B2" s="5"><v>2</v></c></row>' +
        '<row r="3"><c r="B3" s="5"><v>2</v></c><c r="C3" s="9"><v>3</v></c><c r="D3"><v>4</v></c></row>',
    );
    expect(edited('', { inputs: [{ column: 2, firstRow: 1, values: [1] }] }, cols)).toContain(
      '<c r="B1" s="7">',
    );
  });

  it('widens the dimension, and drops a span that is too narrow', () => {
    const workbook = tinyWorkbook(
      '<row r="2" spans="2:3" ht="9"><c r="B2"><v>1</v></c></row>',
      [],
      '<dimension ref="B2:C2"/>',
    );
    workbook.editSheet('Data', { inputs: [{ column: 4, firstRow: 2, values: [1, 2] }] });
    expect(workbook.readPart('xl/worksheets/sheet1.xml')?.toString()).toContain('<dimension ref="B2:D3"/>');
    expect(rowsOf(workbook)).toBe(
      '<row r="2" ht="9"><c r="B2"><v>1</v></c><c r="D2"><v>1</v></c></row><row r="3"><c r="D3"><v>2</v></c></row>',
    );
  });

  it('widens the dimension on every side', () => {
    const workbook = tinyWorkbook('<row r="3"><c r="C3"><v>1</v></c></row>', [], '<dimension ref="C3"/>');
    const inputs = [
      { column: 4, firstRow: 2, values: [1] },
      { column: 2, firstRow: 5, values: [1] },
    ];
    workbook.editSheet('Data', { inputs });
    expect(workbook.readPart('xl/worksheets/sheet1.xml')?.toString()).toContain('<dimension ref="B2:D5"/>');
  });

  it('keeps the prefix of the sheet', () => {
    const xml =
      '<x:worksheet xmlns:x="a"><x:sheetData><x:row r="1"><x:c r="A1" /></x:row></x:sheetData></x:worksheet>';
    const workbook = openWorkbookPackage(zip(tinyParts(xml)), 'home.xlsx');
    workbook.editSheet('Data', { inputs: [{ column: 1, firstRow: 1, values: [1, 'a'] }] });
    expect(workbook.readPart('xl/worksheets/sheet1.xml')?.toString()).toBe(
      '<x:worksheet xmlns:x="a"><x:sheetData><x:row r="1"><x:c r="A1" ><x:v>1</x:v></x:c></x:row><x:row r="2"><x:c r="A2" t="inlineStr"><x:is><x:t xml:space="preserve">a</x:t></x:is></x:c></x:row></x:sheetData></x:worksheet>',
    );
  });

  it('refuses a cell that holds a formula, alone or of an array, and changes nothing', () => {
    const rows =
      '<row r="1"><c r="A1"><f t="array" ref="A1:A2">B1:B2</f><v>1</v></c></row><row r="2"><c r="A2"><v>1</v></c></row>';
    for (const firstRow of [1, 2]) {
      const workbook = tinyWorkbook(rows);
      const before = workbook.toBytes();
      const edit = () => workbook.editSheet('Data', { inputs: [{ column: 1, firstRow, values: [5] }] });
      expect(messageOf(edit)).toBe(
        `InputError: home.xlsx, Data!A${firstRow}: a formula stands where a value is to be written. Clear the cell, or move the formula elsewhere, and try again.`,
      );
      expect(workbook.toBytes()).toBe(before);
    }
  });

  it('refuses numbers that no cell can hold, and inputs that overlap or leave the sheet', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(messageOf(() => typed('', 2, 3, value))).toBe(
        `RangeError: B3 can't hold ${value}: a cell holds finite numbers only`,
      );
    }
    const block = { column: 1, firstRow: 1, values: [1, 2] };
    expect(messageOf(() => edited('', { inputs: [block, { ...block, firstRow: 2 }] }))).toContain(
      'two inputs for A2',
    );
    expect(messageOf(() => typed('', 1, 1_048_576, 1, 2))).toContain('leave the sheet');
  });

  it('takes NaN as a blank or as no news where the block says so', () => {
    const rows = '<row r="1"><c r="A1"><v>1</v></c></row>';
    const values = Float64Array.of(Number.NaN, 2);
    expect(edited(rows, { inputs: [{ column: 1, firstRow: 1, values, nan: 'blank' }] })).toContain(
      '<c r="A1"></c>',
    );
    expect(edited(rows, { inputs: [{ column: 1, firstRow: 1, values, nan: 'unchanged' }] })).toContain(
      '<v>1</v>',
    );
  });

  it('takes numbers of 15 digits as the same where a tolerance says so', () => {
    const rows =
      '<row r="1"><c r="A1"><v>0.333333333333333</v></c><c r="B1"><f>A1</f><v>0.666666666666667</v></c></row>';
    const edits = { inputs: [{ column: 1, firstRow: 1, values: [1 / 3] }], cached: () => 2 / 3 };
    expect(edited(rows, { ...edits, tolerance: 1e-14 })).toBe(rows);
    expect(edited(rows, edits)).toContain('<v>0.3333333333333333</v>');
  });
});

describe('storing results of formulas', () => {
  it.each<[string, string, CachedValue, string]>([
    ['a number', '<f>B1</f><v>1</v>', 2, '<f>B1</f><v>2</v>'],
    ['a first number', '<f a="b">B1 &lt; 2</f>', 2, '<f a="b">B1 &lt; 2</f><v>2</v>'],
    ['a number over an empty value', '<f>B1</f><v/>', 2, '<f>B1</f><v>2</v>'],
    ['a number in a shared formula', '<f t="shared" si="0"/><v></v>', 2, '<f t="shared" si="0"/><v>2</v>'],
    ['no number', '<f>B1</f><v>1</v>', DROP, '<f>B1</f>'],
    ['the number that is there', '<f>B1</f>\n<v>2.0</v>\n', 2, '<f>B1</f>\n<v>2.0</v>\n'],
    ['no answer', '<f>B1</f><v>1</v>', undefined, '<f>B1</f><v>1</v>'],
  ])('%s', (_, before, value, after) => {
    expect(stored(`<row r="1"><c r="A1" s="2">${before}</c></row>`, value)).toBe(
      `<row r="1"><c r="A1" s="2">${after}</c></row>`,
    );
  });

  it.each<[string, string, CachedValue, string]>([
    ['a text', '<c r="A1"><f>B1</f><v>1</v></c>', 'a & b', '<c r="A1" t="str"><f>B1</f><v>a &amp; b</v></c>'],
    ['an empty text', '<c r="A1"><f>B1</f><v>1</v></c>', '', '<c r="A1" t="str"><f>B1</f><v></v></c>'],
    [
      'the empty text that is there',
      '<c r="A1" t="str"><f>B1</f><v/></c>',
      '',
      '<c r="A1" t="str"><f>B1</f><v/></c>',
    ],
    [
      'a number over a text',
      '<c r="A1" t="str" s="1"><f>B1</f><v>x</v></c>',
      3,
      '<c r="A1" s="1"><f>B1</f><v>3</v></c>',
    ],
    ['true', '<c r="A1" t="str"><f>B1</f><v>x</v></c>', true, '<c r="A1" t="b"><f>B1</f><v>1</v></c>'],
    [
      'an error',
      '<c r="A1" s="1"><f>B1</f></c>',
      new CellError('#N/A'),
      '<c r="A1" s="1" t="e"><f>B1</f><v>#N/A</v></c>',
    ],
    [
      'a number over an error',
      '<c r="A1" t="e"><f>B1</f><v>#N/A</v></c>',
      3,
      '<c r="A1"><f>B1</f><v>3</v></c>',
    ],
    ['no text', '<c r="A1" t="str"><f>B1</f><v>x</v></c>', DROP, '<c r="A1"><f>B1</f></c>'],
  ])('%s', (_, before, value, after) => {
    expect(stored(`<row r="1">${before}</row>`, value)).toBe(`<row r="1">${after}</row>`);
  });

  it('a number in cells where an odd writer left a text of its own, or nothing', () => {
    const rows =
      '<row r="1"><c r="A1" t="inlineStr"><f>B1</f><is><t>x</t></is></c><c r="B1"><f t="array" ref="B1:C1">D1</f></c><c r="C1"/></row>';
    const asNumber =
      '<row r="1"><c r="A1"><f>B1</f><v>2</v></c><c r="B1"><f t="array" ref="B1:C1">D1</f><v>2</v></c><c r="C1"><v>2</v></c></row>';
    expect(stored(rows, 2)).toBe(asNumber);
    expect(stored(rows, DROP)).toContain('<c r="A1"><f>B1</f></c>');
  });

  it('asks once for each formula cell in file order, and for none else', () => {
    const asked: string[] = [];
    const rows =
      '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1</f></c><c r="C1"><f t="array" ref="C1:D1">A1</f><v>1</v></c><c r="D1"><v>1</v></c></row><row r="3"><c r="A3"><f>A1</f></c></row>';
    const cached = (row: number, column: number): typeof DROP => {
      asked.push(cellName(row, column));
      return DROP;
    };
    expect(edited(rows, { cached })).not.toContain('<c r="D1"><v>');
    expect(asked).toEqual(['B1', 'C1', 'D1', 'A3']);
  });

  it('counts what it did', () => {
    const rows =
      '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1</f><v>1</v></c><c r="C1"><f>A1</f><v>1</v></c></row>';
    const counts = tinyWorkbook(rows).editSheet('Data', {
      inputs: [{ column: 1, firstRow: 1, values: [2, 3] }],
      cached: (_, column) => (column === 2 ? 2 : DROP),
    });
    expect(counts).toEqual({
      changedInputs: 2,
      createdCells: 1,
      changedCached: 1,
      droppedCached: 1,
      changedCells: 4,
    });
  });

  it('refuses a number that no cell can hold', () => {
    expect(messageOf(() => stored('<row r="1"><c r="A1"><f>1/0</f></c></row>', Number.NaN))).toContain(
      "A1 can't hold NaN",
    );
  });
});

describe('laws', () => {
  const text = fc.string({
    unit: fc.oneof(
      fc.constantFrom('=', '<', '&', ' ', '"', '\n', '\r', '\t', '\u0001', '_x000D_', 'é', '😀'),
      fc.string({ maxLength: 3 }),
    ),
    maxLength: 5,
  });
  const value = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), text, fc.boolean());
  const block = fc.record({
    column: fc.integer({ min: 1, max: 6 }),
    firstRow: fc.integer({ min: 1, max: 6 }),
    values: fc.array(fc.option(fc.option(value, { nil: null }), { nil: undefined }), { maxLength: 4 }),
  });
  const blocks = fc.uniqueArray(block, { selector: ({ column }) => column, maxLength: 4 });
  const cell = fc.record({ here: fc.boolean(), value: fc.option(value) });
  const sheet: fc.Arbitrary<Sheet> = fc.array(fc.option(fc.array(cell, { minLength: 0, maxLength: 6 })), {
    maxLength: 7,
  });

  type Sheet = ({ here: boolean; value: string | number | boolean | null }[] | null)[];

  /** A sheet with values in the first six columns and formulas in H and I, some cells and rows missing. */
  function build(rows: Sheet) {
    const workbook = tinyWorkbook('');
    const inputs = rows.flatMap((cells, row) =>
      (cells ?? []).map(({ here, value: content }, column) => ({
        column: column + 1,
        firstRow: row + 1,
        values: [here ? content : undefined],
      })),
    );
    workbook.editSheet('Data', { inputs });
    const withFormulas = rowsOf(workbook).replace(
      /<\/row>/g,
      () => '<c r="H1" s="1"><f>A1</f></c><c r="I1" t="str"><f>B1</f><v>x</v></c></row>',
    );
    let row = '';
    return withFormulas.replace(
      /<row r="(\d+)">|r="([HI])1"/g,
      (found, number: string | undefined, column: string | undefined) => {
        if (number !== undefined) row = number;
        return number === undefined ? `r="${column}${row}"` : found;
      },
    );
  }

  /** Minus zero is stored as zero. */
  const sound = (content: InputValue) => (content === 0 ? 0 : content);

  it('what was written is what is read, and nothing else moves', () => {
    fc.assert(
      fc.property(sheet, blocks, value, (rows, inputs, result) => {
        const workbook = tinyWorkbook(build(rows));
        const expected = new Map(Object.entries(valuesOf(workbook.readSheet('Data'))));
        const formulas = formulasOf(workbook.readSheet('Data'));
        for (const { column, firstRow, values } of inputs) {
          values.forEach((content, index) => {
            const name = cellName(firstRow + index, column);
            if (content === null) expected.delete(name);
            else if (content !== undefined) expected.set(name, sound(content) ?? null);
          });
        }
        for (const name of Object.keys(formulas)) expected.set(name, sound(result) ?? null);
        workbook.editSheet('Data', { inputs, cached: () => result });
        const reopened = openWorkbookPackage(workbook.toBytes(), 'home.xlsx');
        expect(valuesOf(reopened.readSheet('Data'))).toEqual(Object.fromEntries(expected));
        expect(formulasOf(reopened.readSheet('Data'))).toEqual(formulas);
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it('the same edit twice changes nothing the second time', () => {
    fc.assert(
      fc.property(sheet, blocks, value, (rows, inputs, result) => {
        const workbook = tinyWorkbook(build(rows));
        workbook.editSheet('Data', { inputs, cached: () => result });
        const once = workbook.toBytes();
        const again = openWorkbookPackage(once, 'home.xlsx');
        expect(again.editSheet('Data', { inputs, cached: () => result }).changedCells).toBe(0);
        expect(again.toBytes()).toBe(once);
      }),
      { seed: 6, numRuns: 300 },
    );
  });
});
