import { InputError } from '../../errors.js';
import { parseReference } from './cell-reference.js';
import type { CachedValues, ChartSpec } from './chart-spec.js';
import { chartXml } from './chart-xml.js';
import { chartAnchorXml, emptyDrawingXml } from './drawing-xml.js';
import { CONTENT_TYPE, RELATION } from './namespaces.js';
import {
  addContentType,
  addRelationship,
  freePartName,
  insertBeforeEnd,
  type Parts,
  partText,
  readParts,
  relationshipsOf,
  setPartText,
  sheetParts,
  writeParts,
} from './package-parts.js';
import { drawingIdOf, insertDrawing } from './worksheet-tail.js';

/**
 * Adds native charts to a finished workbook. Nothing else in it changes: cells, comments, pictures and charts that
 * it has already are kept. The same workbook and charts give the same bytes.
 *
 * @param xlsxBytes the workbook (.xlsx)
 * @param charts in the order in which they are stacked on their sheets
 * @param cachedValues what referenced cells hold now, so that programs which do not calculate can draw the charts;
 *   without it the charts hold references only
 * @returns the workbook with the charts
 * @throws InputError when a spec contradicts itself or names a sheet that the workbook does not have
 * @see ECMA-376 Part 1, 21.2 (charts), 20.5 (spreadsheet drawings); Part 2 (packages)
 * @example
 * addCharts(bytes, [{
 *   sheet: 'Answer', anchor: { fromCell: 'B12', toCell: 'J30' }, kind: 'line',
 *   title: 'Cost by month', altText: 'A line for each tariff, January to December.',
 *   categoryAxis: { title: 'Month' }, valueAxis: { title: 'Cost (£)', numberFormat: '0' },
 *   series: [{ name: { ref: 'Months!$B$1' }, categories: 'Months!$A$2:$A$13', values: 'Months!$B$2:$B$13' }],
 * }]);
 */
export function addCharts(
  xlsxBytes: Uint8Array,
  charts: readonly ChartSpec[],
  cachedValues?: CachedValues,
): Uint8Array {
  const parts = readParts(xlsxBytes);
  const sheets = sheetParts(parts);
  for (const spec of charts) {
    const sheetPart = sheets.get(spec.sheet);
    if (sheetPart === undefined) {
      throw new InputError(
        `there is no sheet "${spec.sheet}" for a chart`,
        `Use one of: ${[...sheets.keys()].join(', ')}.`,
      );
    }
    checkReferences(spec, sheets);
    const drawing = drawingOf(parts, sheetPart);
    const chart = freePartName(parts, 'xl/charts/chart', 'xml');
    setPartText(parts, chart, chartXml(spec, cachedValues));
    addContentType(parts, chart, CONTENT_TYPE.chart);
    const id = addRelationship(parts, drawing, RELATION.chart, chart);
    const drawingXml = partText(parts, drawing);
    setPartText(
      parts,
      drawing,
      insertBeforeEnd(drawingXml, chartAnchorXml(spec, nextShapeId(drawingXml), id)),
    );
  }
  return writeParts(parts);
}

function checkReferences(spec: ChartSpec, sheets: ReadonlyMap<string, string>): void {
  const texts = [spec.title, spec.categoryAxis.title, spec.valueAxis.title, spec.secondaryAxis?.title];
  const linked = [...texts, ...spec.series.map(({ name }) => name)].filter(
    (text) => typeof text === 'object',
  );
  const references = [
    ...linked.map(({ ref }) => ref),
    ...spec.series.flatMap((one) => [one.categories, one.values]),
  ];
  for (const ref of references) {
    const { sheet } = parseReference(ref);
    if (!sheets.has(sheet)) {
      throw new InputError(
        `a chart on sheet ${spec.sheet} refers to ${ref}`,
        `There is no sheet "${sheet}": correct the reference.`,
      );
    }
  }
}

/** Name of the sheet's drawing part, made when it has none. */
function drawingOf(parts: Parts, sheetPart: string): string {
  const sheet = parts[sheetPart];
  if (sheet === undefined)
    throw new InputError(
      `the workbook has no part ${sheetPart}`,
      'Save it again with a spreadsheet program.',
    );
  const existing = drawingIdOf(sheet);
  const found = relationshipsOf(parts, sheetPart).find(({ id }) => id === existing)?.part;
  if (found !== undefined) return openDrawing(parts, found);
  const drawing = freePartName(parts, 'xl/drawings/drawing', 'xml');
  setPartText(parts, drawing, emptyDrawingXml());
  addContentType(parts, drawing, CONTENT_TYPE.drawing);
  const id = addRelationship(parts, sheetPart, RELATION.drawing, drawing);
  parts[sheetPart] = insertDrawing(sheet, id);
  return drawing;
}

/** A drawing part with nothing on it may be one self-closed tag: it is opened so that a chart goes inside. */
function openDrawing(parts: Parts, drawing: string): string {
  const xml = partText(parts, drawing);
  setPartText(parts, drawing, xml.replace(/<((?:\w+:)?wsDr)\b([^>]*?)\/>\s*$/, '<$1$2></$1>'));
  return drawing;
}

function nextShapeId(drawingXml: string): number {
  const ids = [...drawingXml.matchAll(/<(?:\w+:)?cNvPr\b[^>]*?\bid="(\d+)"/g)].map((match) =>
    Number(match[1]),
  );
  return Math.max(1, ...ids) + 1;
}
