import { describe, expect, it } from 'vitest';
import { checkPackage } from '../../src/workbook/charts/check-package.js';
import { type ReadChart, readCharts } from '../../src/workbook/charts/read-charts.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { describeWithCalc, describeWithGnumeric } from '../engines/availability.js';
import { savedByGnumeric, savedByLibreOffice } from './saved-by.js';
import { filledMonth, livedInMonth, october, template } from './template.js';

/** What must not change: where each chart stands, and the cells it points at. */
const pointsAt = (charts: readonly ReadChart[]): unknown[] =>
  charts
    .map(({ sheet, series }) => ({
      sheet,
      series: series.map(({ categories, values }) => [categories, values]),
    }))
    .sort((a, b) => JSON.stringify(a).localeCompare(JSON.stringify(b)));

describe('the charts of the workbook', () => {
  it('are all there after a fill, in a sound package, and point at the same cells', async () => {
    const filled = await filledMonth();
    expect(pointsAt(readCharts(filled))).toEqual(pointsAt(readCharts(await template())));
    expect(checkPackage(filled)).toEqual([]);
  });

  it('say in words what they show', async () => {
    for (const { title, altText } of readCharts(await template())) {
      expect(title.length).toBeGreaterThan(10);
      expect(altText.length).toBeGreaterThan(30);
    }
  });
});

describeWithCalc('the charts of a workbook that LibreOffice saved', () => {
  it('are all there after a fill and point at the same cells', async () => {
    const saved = await savedByLibreOffice(await livedInMonth());
    const { bytes } = fillWorkbook(saved, 'home.xlsx', october());
    expect(pointsAt(readCharts(bytes))).toEqual(
      expect.arrayContaining(pointsAt(readCharts(await template()))),
    );
  });
});

describeWithGnumeric('the charts of a workbook that Gnumeric saved', () => {
  it('are all there and point at the same cells', async () => {
    const saved = await savedByGnumeric(await template());
    expect(pointsAt(readCharts(saved))).toEqual(pointsAt(readCharts(await template())));
  });
});
