import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { addCharts } from '../../../src/workbook/charts/add-charts.js';
import { canonicalReference } from '../../../src/workbook/charts/cell-reference.js';
import type { CachedValues } from '../../../src/workbook/charts/chart-spec.js';
import { checkPackage } from '../../../src/workbook/charts/check-package.js';
import {
  type Parts,
  partText,
  readParts,
  setPartText,
  sheetParts,
  writeParts,
} from '../../../src/workbook/charts/package-parts.js';
import { readCharts } from '../../../src/workbook/charts/read-charts.js';
import { refreshedChartXml } from '../../../src/workbook/charts/refresh-chart-caches.js';
import { drawingIdOf, insertDrawing } from '../../../src/workbook/charts/worksheet-tail.js';
import { demoCharts, demoValues, demoWorkbook } from './demo-workbook.js';

const bare = await demoWorkbook();
const charted = addCharts(bare, demoCharts, demoValues);

/** A picture of one pixel. */
const PIXEL =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';

describe('addCharts', () => {
  it('puts every chart on its sheet with its references, title and alternative text', () => {
    const read = readCharts(charted);
    expect(read.map(({ sheet, kind, altText }) => ({ sheet, kind, altText }))).toEqual(
      demoCharts.map(({ sheet, kind, altText }) => ({ sheet, kind, altText })),
    );
    for (const [index, chart] of read.entries()) {
      const spec = demoCharts[index]!;
      expect(chart.series).toEqual(
        spec.series.map(({ name, categories, values }) => ({
          name: typeof name === 'string' ? name : canonicalReference(name.ref),
          categories: canonicalReference(categories),
          values: canonicalReference(values),
        })),
      );
    }
    expect(read[0]).toMatchObject({
      titleRef: "'Answer'!$A$1",
      title: expect.stringContaining('Cost of a year'),
    });
    expect(read[7]!.title).toBe('All seven looks & their <order>');
  });

  it('leaves a package that hangs together, one drawing a sheet', () => {
    expect(checkPackage(charted)).toEqual([]);
    const drawings = Object.keys(readParts(charted)).filter((name) =>
      /^xl\/drawings\/drawing\d+\.xml$/.test(name),
    );
    expect(drawings).toHaveLength(new Set(demoCharts.map(({ sheet }) => sheet)).size);
  });

  it('changes no other part', () => {
    const before = readParts(bare);
    const after = readParts(charted);
    const changed = Object.keys(before).filter(
      (name) => !Buffer.from(before[name]!).equals(Buffer.from(after[name]!)),
    );
    const touched = ['Charts', 'Answer'].map((sheet) => sheetParts(before).get(sheet)!);
    const relations = touched.map((name) => name.replace(/([^/]+)$/, '_rels/$1.rels'));
    expect(changed.sort()).toEqual(['[Content_Types].xml', ...touched, ...relations].sort());
  });

  it('gives the same bytes for the same workbook and charts', () => {
    expect(Buffer.from(addCharts(bare, demoCharts, demoValues)).equals(Buffer.from(charted))).toBe(true);
  });

  it('keeps comments: the drawing stands after the footer and before the legacy drawing', () => {
    const xml = partText(readParts(charted), sheetParts(readParts(charted)).get('Charts')!);
    const order = ['<sheetData', '<pageSetup', '<headerFooter', '<drawing ', '<legacyDrawing '].map((tag) =>
      xml.indexOf(tag),
    );
    expect(order.every((at) => at > 0)).toBe(true);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it('adds to a drawing that holds a picture already, and to its own charts', async () => {
    const workbook = new ExcelJS.Workbook();
    await workbook.xlsx.load(Buffer.from(bare) as never);
    const picture = workbook.addImage({ base64: PIXEL, extension: 'png' });
    workbook.getWorksheet('Charts')!.addImage(picture, 'V2:W3');
    const pictured = new Uint8Array(await workbook.xlsx.writeBuffer());
    const twice = addCharts(addCharts(pictured, demoCharts.slice(0, 2)), demoCharts.slice(2));
    expect(readCharts(twice).map(({ altText }) => altText)).toEqual(demoCharts.map(({ altText }) => altText));
    expect(checkPackage(twice)).toEqual([]);
    const drawing = partText(readParts(twice), 'xl/drawings/drawing1.xml');
    expect(drawing).toContain('<xdr:pic>');
    const ids = [...drawing.matchAll(/<xdr:cNvPr id="(\d+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('holds references only when no values are given', () => {
    const parts = readParts(addCharts(bare, demoCharts));
    expect(partText(parts, 'xl/charts/chart4.xml')).not.toContain('Cache');
  });

  it('caches what the cells hold, with a gap for an empty cell', () => {
    const xml = partText(readParts(charted), 'xl/charts/chart4.xml');
    const cache = /<c:f>Months!\$B\$2:\$B\$15<\/c:f><c:numCache>(.*?)<\/c:numCache>/.exec(xml)![1]!;
    expect(cache).toContain('<c:ptCount val="14"/>');
    expect(cache).toContain('<c:pt idx="7">');
    expect(cache).not.toContain('<c:pt idx="8">');
  });

  it('names the sheet that is missing', () => {
    const spec = demoCharts[3]!;
    expect(() => addCharts(bare, [{ ...spec, sheet: 'Nowhere' }])).toThrow(/no sheet "Nowhere"/);
    const series = [{ ...spec.series[0]!, values: 'Nowhere!$B$2:$B$15' }];
    expect(() => addCharts(bare, [{ ...spec, series }])).toThrow(/no sheet "Nowhere"/);
  });
});

describe('the anchor of a chart', () => {
  it('covers its first and its last cell', () => {
    const drawing = partText(readParts(charted), 'xl/drawings/drawing2.xml');
    const corner = (name: string) =>
      new RegExp(`<xdr:${name}><xdr:col>(\\d+)</xdr:col>.*?<xdr:row>(\\d+)</xdr:row>`)
        .exec(drawing)!
        .slice(1)
        .map(Number);
    // B5 to J22: from the near corner of column 1, row 4 to the near corner of what follows J22, counted from 0.
    expect(corner('from')).toEqual([1, 4]);
    expect(corner('to')).toEqual([10, 22]);
  });

  it.each([
    [{ fromCell: 'J22', toCell: 'B5' }, /runs backwards/],
    [{ fromCell: '5B', toCell: 'J22' }, /"5B", which is not a cell/],
  ])('is refused: %o', (anchor, message) => {
    expect(() => addCharts(bare, [{ ...demoCharts[3]!, anchor }])).toThrow(message);
  });
});

describe('the caches of charts', () => {
  const refreshAll = (parts: Parts, cachedValues: CachedValues): void => {
    for (const name of Object.keys(parts).filter((part) => part.startsWith('xl/charts/'))) {
      setPartText(parts, name, refreshedChartXml(partText(parts, name), cachedValues));
    }
  };

  it('become those that the charts would have been made with', () => {
    const parts = readParts(addCharts(bare, demoCharts, () => undefined));
    refreshAll(parts, demoValues);
    const [refreshed, made] = [readCharts(writeParts(parts)), readCharts(charted)];
    expect(refreshed).toEqual(made);
  });

  it('change in stale values and titles, not in number formats and what nothing is said of', () => {
    const parts = readParts(charted);
    refreshAll(parts, (ref) => {
      if (ref === 'Answer!$A$1') return ['New & better'];
      return ref === 'Costs!$B$2:$B$18' ? Array.from({ length: 17 }, (_, row) => row) : undefined;
    });
    const xml = partText(parts, 'xl/charts/chart1.xml');
    expect(xml).toContain('<c:v>New &amp; better</c:v>');
    expect(xml).toContain(
      '<c:formatCode>#,##0</c:formatCode><c:ptCount val="17"/><c:pt idx="0"><c:v>0</c:v></c:pt><c:pt idx="1"><c:v>1</c:v>',
    );
    expect(xml).toContain('<c:v>Standing charge</c:v>');
    const untouched = partText(parts, 'xl/charts/chart4.xml');
    expect(untouched).toBe(partText(readParts(charted), 'xl/charts/chart4.xml'));
  });
});

describe('the end of a worksheet', () => {
  const sheet = (tail: string) =>
    new TextEncoder().encode(`<worksheet xmlns="x"><sheetData><row/></sheetData>${tail}</worksheet>`);
  const inserted = (tail: string) => {
    const text = new TextDecoder().decode(insertDrawing(sheet(tail), 'rId9'));
    return [...text.matchAll(/<(\w+)[ />]/g)].map((match) => match[1]).slice(3);
  };

  it.each([
    ['', ['drawing']],
    [
      '<pageMargins left="1"/><rowBreaks count="1"><brk id="4"/></rowBreaks>',
      ['pageMargins', 'rowBreaks', 'brk', 'drawing'],
    ],
    ['<legacyDrawing r:id="rId1"/><tableParts count="0"/>', ['drawing', 'legacyDrawing', 'tableParts']],
    ['<ignoredErrors/><extLst><ext/></extLst>', ['ignoredErrors', 'drawing', 'extLst', 'ext']],
    [
      '<conditionalFormatting><cfRule><formula>"a>b"</formula><extLst><ext/></extLst></cfRule></conditionalFormatting><pageSetup/>',
      ['conditionalFormatting', 'cfRule', 'formula', 'extLst', 'ext', 'pageSetup', 'drawing'],
    ],
  ])('takes a drawing at its place in: %s', (tail, order) => {
    expect(inserted(tail)).toEqual(order);
  });

  it('says which drawing it has', () => {
    expect(drawingIdOf(sheet('<drawing r:id="rId3"/><legacyDrawing r:id="rId1"/>'))).toBe('rId3');
    expect(drawingIdOf(sheet('<legacyDrawing r:id="rId1"/>'))).toBeUndefined();
  });
});
