import { describe, expect, it } from 'vitest';
import { addCharts } from '../../../src/workbook/charts/add-charts.js';
import { chartXml } from '../../../src/workbook/charts/chart-xml.js';
import { partText, readParts } from '../../../src/workbook/charts/package-parts.js';
import { schemaProblems } from './chart-schema.js';
import { demoCharts, demoValues, demoWorkbook } from './demo-workbook.js';

describe('the published structure of charts (ECMA-376 Part 1, 21.2 and 20.5)', () => {
  it.each(demoCharts.map((spec) => [spec.altText, spec] as const))('holds for: %s', (_, spec) => {
    expect(schemaProblems(chartXml(spec, demoValues))).toEqual([]);
    expect(schemaProblems(chartXml(spec))).toEqual([]);
  });

  it('holds for the drawing that frames them', async () => {
    const parts = readParts(addCharts(await demoWorkbook(), demoCharts));
    expect(schemaProblems(partText(parts, 'xl/drawings/drawing1.xml'))).toEqual([]);
  });

  it('is a check that can fail: a wrong order, a missing child and a stranger are found', () => {
    const xml = chartXml(demoCharts[3]!);
    const swapped = xml.replace(/(<c:delete val="0"\/>)(<c:axPos val="l"\/>)/, '$2$1');
    const short = xml.replace(/<c:axId val="1002"\/><\/c:lineChart>/, '</c:lineChart>');
    const strange = xml.replace('<c:plotVisOnly val="0"/>', '<c:sparkle val="0"/>');
    for (const wrong of [swapped, short, strange]) {
      expect(wrong).not.toBe(xml);
      expect(schemaProblems(wrong)).not.toEqual([]);
    }
  });
});

describe('what every chart says', () => {
  const all = demoCharts.map((spec) => chartXml(spec, demoValues));

  it('has square corners, draws hidden workings and leaves gaps for missing values', () => {
    for (const xml of all) {
      expect(xml).toContain('<c:roundedCorners val="0"/>');
      expect(xml).toContain('<c:plotVisOnly val="0"/>');
      expect(xml).toContain('<c:dispBlanksAs val="gap"/>');
    }
  });

  it('keeps its own number formats and paints no gradient', () => {
    for (const xml of all) {
      expect(xml).not.toContain('sourceLinked="1"');
      expect(xml).not.toContain('gradFill');
    }
  });

  it('names its axes', () => {
    for (const spec of demoCharts) expect(chartXml(spec)).toContain(`<a:t>${spec.valueAxis.title}</a:t>`);
  });

  it('hides only the second copy of a shared category axis', () => {
    const hidden = all.map((xml) => xml.match(/<c:delete val="1"\/>/g)?.length ?? 0);
    expect(hidden).toEqual(demoCharts.map((spec) => (spec.secondaryAxis === undefined ? 0 : 1)));
  });
});

describe('a spec that contradicts itself', () => {
  const line = demoCharts[3]!;
  const series = line.series[0]!;
  it.each([
    ['has no series', { ...line, series: [] }, /no series/],
    ['has no alternative text', { ...line, altText: ' ' }, /alternative text/],
    [
      'has categories of another length',
      { ...line, series: [{ ...series, categories: 'Months!$A$2:$A$9' }] },
      /length/,
    ],
    ['has a combo series without a plot', { ...line, kind: 'combo' as const }, /plot/],
    ['has a right axis that nothing uses', { ...line, secondaryAxis: line.valueAxis }, /right axis/],
    [
      'mixes bars and lines',
      { ...line, series: [series, { ...series, plot: 'stackedBar' as const }] },
      /mixes/,
    ],
    [
      'hides lines behind columns',
      {
        ...line,
        secondaryAxis: line.valueAxis,
        series: [series, { ...series, plot: 'steps' as const, axis: 'right' as const }],
      },
      /hide the lines/,
    ],
    ['has a relative reference', { ...line, series: [{ ...series, values: 'Months!B2:B15' }] }, /absolute/],
  ])('is refused when it %s', (_, spec, message) => {
    expect(() => chartXml(spec)).toThrow(message);
  });
});
