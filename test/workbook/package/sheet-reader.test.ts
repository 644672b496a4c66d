import { describe, expect, it } from 'vitest';
import { CellError, openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { formulasOf, messageOf, sheetXml, tinyParts, tinyWorkbook, valuesOf, zip } from './tiny-workbook.js';

function values(rows: string, sharedStrings?: string[]) {
  return valuesOf(tinyWorkbook(rows, sharedStrings).readSheet('Data'));
}

function formulas(rows: string) {
  return formulasOf(tinyWorkbook(rows).readSheet('Data'));
}

describe('values', () => {
  it('of every type', () => {
    const shared = [
      '<t>plain</t>',
      '<r><t>rich </t></r><r><rPr><b/></rPr><t xml:space="preserve">text </t></r><rPh sb="0" eb="1"><t>hint</t></rPh>',
    ];
    expect(
      values(
        `<row r="2"><c r="A2"><v>1.5</v></c><c r="B2" t="n"><v>-2E-3</v></c><c r="C2" t="s"><v>0</v></c><c r="D2" t="s"><v>1</v></c>
         <c r="E2" t="inlineStr"><is><t>in</t><r><t>line</t></r></is></c><c r="F2" t="str"><f>A1</f><v>x</v></c><c r="G2" t="b"><v>1</v></c>
         <c r="H2" t="e"><v>#N/A</v></c><c r="I2" t="d"><v>2024-03-31T12:00:00Z</v></c><c r="J2" s="3"/><c r="K2" t="str"><f>""</f><v></v></c></row>`,
        shared,
      ),
    ).toEqual({
      A2: 1.5,
      B2: -0.002,
      C2: 'plain',
      D2: 'rich text ',
      E2: 'inline',
      F2: 'x',
      G2: true,
      H2: new CellError('#N/A'),
      I2: 45382.5,
      K2: '',
    });
  });

  it('of numbers, each the nearest double', () => {
    const texts = [
      '0',
      '-0',
      '0.1',
      '123456789012345',
      '1234567890123456',
      '0.30000000000000004',
      '5E-324',
      '1.7976931348623157E+308',
      '00012.50',
      ' 7 ',
      '9.99999999999999999995e-06',
      '+3',
      '.5',
      '0.000000000000000000000001',
    ];
    const cells = texts.map((text, index) => `<row r="${index + 1}"><c><v>${text}</v></c></row>`).join('');
    const reader = tinyWorkbook(cells).readSheet('Data');
    for (const text of texts) {
      reader.next();
      expect(reader.number).toBe(Number(text));
    }
  });

  it('with entities, sections, comments and escapes', () => {
    expect(
      values(
        '<!-- c --><row r="1"><?pi ?><c r="A1" t="str"><v>a &amp; b &lt; &#233;&#x20AC;</v></c><c r="B1" t="str"><v><![CDATA[<c> & ]]>x<!-- y --></v></c><c r="C1" t="str"><v>line_x000D_end _x005F_x0041_</v></c><c r="D1" t="str"><v>£ 日本 😀</v></c></row>',
      ),
    ).toEqual({ A1: 'a & b < é€', B1: '<c> & x', C1: 'line\rend _x0041_', D1: '£ 日本 😀' });
  });

  it('at places that follow from the order where names are missing', () => {
    expect(
      values(
        '<row><c><v>1</v></c><c><v>2</v></c></row><row r="4"><c r="C4"><v>3</v></c><c><v>4</v></c></row><row><c><v>5</v></c></row>',
      ),
    ).toEqual({ A1: 1, B1: 2, C4: 3, D4: 4, A5: 5 });
  });

  it('whatever the prefix, quotes and spacing', () => {
    const xml = `\ufeff<?xml version='1.0'?><x:worksheet xmlns:x='http://purl.oclc.org/ooxml/spreadsheetml/main'>
      <x:sheetData >\n<x:row r = '1' >\n<x:c\n r='A1' t='str' ><x:f a='>'>B1&gt;1</x:f><x:v >y</x:v></x:c ><x:c r='B1'><x:v>2</x:v></x:c></x:row ></x:sheetData></x:worksheet>`;
    const workbook = openWorkbookPackage(zip(tinyParts(xml)), 'home.xlsx');
    expect(valuesOf(workbook.readSheet('Data'))).toEqual({ A1: 'y', B1: 2 });
    expect(formulasOf(workbook.readSheet('Data'))).toEqual({ A1: 'B1>1' });
  });

  it('dates count from 1904 where the workbook says so', () => {
    const parts = tinyParts(
      sheetXml('<row><c t="d"><v>1904-01-02</v></c><c t="d"><v>06:00:00</v></c></row>'),
    );
    parts['xl/workbook.xml'] = (parts['xl/workbook.xml'] ?? '').replace(
      '<sheets>',
      '<workbookPr date1904="1"/><sheets>',
    );
    const workbook = openWorkbookPackage(zip(parts), 'home.xlsx');
    expect(workbook.date1904).toBe(true);
    expect(valuesOf(workbook.readSheet('Data'))).toEqual({ A1: 1, B1: 0.25 });
  });

  it('skips elements that it does not know', () => {
    expect(
      values(
        '<row r="1"><c r="A1"><v>1</v><extLst><ext><c><v>9</v></c></ext></extLst></c></row><other><row r="9"/></other>',
      ),
    ).toEqual({ A1: 1 });
  });
});

describe('formulas', () => {
  it('that are shared read as if each cell had its own', () => {
    const rows = `<row r="1"><c r="A1"><f t="shared" ref="A1:A3" si="0">B1*$C$1</f><v>1</v></c></row>
      <row r="2"><c r="A2"><f t="shared" si="0"/></c><c r="B2"><f>A2&amp;"&lt;"</f></c></row><row r="3"><c r="A3"><f t="shared" si="0"></f></c></row>`;
    expect(formulas(rows)).toEqual({ A1: 'B1*$C$1', A2: 'B2*$C$1', B2: 'A2&"<"', A3: 'B3*$C$1' });
  });

  it('of an array hold for all its cells', () => {
    const reader = tinyWorkbook(
      '<row r="1"><c r="A1"><f t="array" ref="A1:B1">C1:D1*2</f><v>1</v></c><c r="B1"><v>2</v></c><c r="C1"><v>3</v></c></row>',
    ).readSheet('Data');
    const seen: unknown[] = [];
    while (reader.next())
      seen.push([reader.name, reader.hasFormula, reader.formula, reader.arrayRange?.lastColumn]);
    expect(seen).toEqual([
      ['A1', true, 'C1:D1*2', 2],
      ['B1', true, 'C1:D1*2', 2],
      ['C1', false, undefined, undefined],
    ]);
  });

  it('have one comparable form down a column, shared or not', () => {
    const own =
      '<row r="1"><c r="A1"><f>B1*2</f></c></row><row r="2"><c r="A2"><f>B2*2</f></c></row><row r="3"><c r="A3"><f>B2*2</f></c></row>';
    const shared =
      '<row r="1"><c r="A1"><f t="shared" si="7" ref="A1:A2">b1 * 2</f></c></row><row r="2"><c r="A2"><f t="shared" si="7"/></c></row>';
    const forms = [own, shared].map((rows) => {
      const reader = tinyWorkbook(rows).readSheet('Data');
      const found: unknown[] = [];
      while (reader.next()) found.push(reader.comparableFormula);
      return found;
    });
    expect(forms).toEqual([
      ['R[0]C[1]*2', 'R[0]C[1]*2', 'R[-1]C[1]*2'],
      ['R[0]C[1]*2', 'R[0]C[1]*2'],
    ]);
  });
});

describe('a damaged sheet gets a message, never a hang', () => {
  it.each([
    [
      'a document type',
      '<!DOCTYPE worksheet [<!ENTITY a "aaaa">]><worksheet><sheetData/></worksheet>',
      'document type',
    ],
    ['no data', '<worksheet></worksheet>', 'ends too early'],
    ['an open value', sheetXml('<row r="1"><c r="A1"><v>1').replace(/<\/sheetData>.*/, ''), 'ends too early'],
    ['an open quote', '<worksheet><sheetData><row r="1><c r="A1"/></row></sheetData></worksheet>', 'damaged'],
    ['an open comment', sheetXml('<!-- '), 'ends too early'],
    ['rows out of order', sheetXml('<row r="2"/><row r="1"/>'), 'row 1 stands after row 2'],
    ['cells out of order', sheetXml('<row r="1"><c r="B1"/><c r="A1"/></row>'), 'row 1'],
    ['a cell of another row', sheetXml('<row r="1"><c r="B2"/></row>'), "cell named 'B2'"],
    ['a row beyond the sheet', sheetXml('<row r="9999999"/>'), 'row 9999999'],
    ['an unknown type', sheetXml('<row r="1"><c r="A1" t="zz"><v>1</v></c></row>'), "unknown type 'zz'"],
    [
      'a range that is none',
      sheetXml('<row r="1"><c r="A1"><f t="array" ref="A1:?">B1</f></c></row>'),
      "a range 'A1:?'",
    ],
    ['other XML', '<html/>', 'begins with <html>'],
    ['UTF-16', '\ufeff<worksheet/>', 'UTF-8'],
  ])('%s', (name, xml, expected) => {
    const parts: Record<string, string | Uint8Array> = tinyParts(xml);
    if (name === 'UTF-16') parts['xl/worksheets/sheet1.xml'] = Buffer.from(xml, 'utf16le');
    const message = messageOf(() => valuesOf(openWorkbookPackage(zip(parts), 'home.xlsx').readSheet('Data')));
    expect(message).toContain('InputError: home.xlsx, Data: the sheet is damaged');
    expect(message).toContain(expected);
  });

  it('a text or a shared formula that is not there', () => {
    expect(messageOf(() => values('<row r="1"><c r="A1" t="s"><v>5</v></c></row>'))).toContain(
      'home.xlsx, Data!A1',
    );
    expect(messageOf(() => formulas('<row r="1"><c r="A1"><f t="shared" si="5"/></c></row>'))).toContain(
      'home.xlsx, Data!A1',
    );
  });

  it('texts that never end, in numbers that would take hours if each were searched for its end', () => {
    for (const piece of ['<rPh ', '<t>', '<si>', '<t><![CDATA[', '<t><!--', '<r><t xml:space="preserve">']) {
      const workbook = tinyWorkbook('<row r="1"><c r="A1" t="s"><v>0</v></c></row>', [piece.repeat(200_000)]);
      expect(messageOf(() => valuesOf(workbook.readSheet('Data')))).toMatch(/^no error$|does not hold/);
    }
    expect(
      formulas(`<row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">${"'".repeat(500_000)}</f></c></row>`)
        .A1,
    ).toHaveLength(500_000);
  });

  it('huge attributes and deep nesting are only skipped', () => {
    const huge = 'x'.repeat(2_000_000);
    const deep = '<a>'.repeat(100_000) + '</a>'.repeat(100_000);
    expect(values(`<row r="1" note="${huge}"><c r="A1" note="${huge}"><v>1</v>${deep}</c></row>`)).toEqual({
      A1: 1,
    });
  });
});
