import { InputError } from '../../errors.js';
import { type CellPosition, parseCellRef } from '../package/cell-reference.js';
import type { ChartSpec } from './chart-spec.js';
import { NS } from './namespaces.js';
import { element, XML_HEAD } from './xml.js';

/** A drawing part (`xdr:wsDr`, ECMA-376 Part 1, 20.5.2.35) with nothing on it yet. */
export function emptyDrawingXml(): string {
  return `${XML_HEAD}<xdr:wsDr xmlns:xdr="${NS.spreadsheetDrawing}" xmlns:a="${NS.main}"></xdr:wsDr>`;
}

/**
 * The frame of a chart on its sheet (`xdr:twoCellAnchor`, 20.5.2.33). It names its namespaces itself, so that it
 * fits in a drawing part that another program wrote with other prefixes.
 *
 * @param shapeId unique in its drawing part
 * @param relationshipId of the chart part
 */
export function chartAnchorXml(spec: ChartSpec, shapeId: number, relationshipId: string): string {
  const from = corner(spec.anchor.fromCell);
  const to = corner(spec.anchor.toCell);
  if (to.row < from.row || to.column < from.column) {
    throw new InputError(
      `the anchor ${spec.anchor.fromCell} to ${spec.anchor.toCell} runs backwards`,
      'Name its top left cell, then its bottom right.',
    );
  }
  const properties = element(
    'xdr:nvGraphicFramePr',
    {},
    element('xdr:cNvPr', { id: shapeId, name: `Chart ${shapeId}`, descr: spec.altText }),
    element('xdr:cNvGraphicFramePr'),
  );
  const place = element('xdr:xfrm', {}, element('a:off', { x: 0, y: 0 }), element('a:ext', { cx: 0, cy: 0 }));
  const chart = element('c:chart', {
    'xmlns:c': NS.chart,
    'xmlns:r': NS.relationships,
    'r:id': relationshipId,
  });
  const graphic = element('a:graphic', {}, element('a:graphicData', { uri: NS.chart }, chart));
  return element(
    'xdr:twoCellAnchor',
    { 'xmlns:xdr': NS.spreadsheetDrawing, 'xmlns:a': NS.main, editAs: 'oneCell' },
    cornerXml('xdr:from', { column: from.column - 1, row: from.row - 1 }),
    cornerXml('xdr:to', to),
    element('xdr:graphicFrame', { macro: '' }, properties, place, graphic),
    element('xdr:clientData'),
  );
}

function corner(cell: string): CellPosition {
  try {
    return parseCellRef(cell);
  } catch {
    throw new InputError(`a chart is anchored at "${cell}", which is not a cell`, 'Name a cell like B4.');
  }
}

/** A corner of the frame, counted from 0: the far corner of a cell is the near corner of the next. */
function cornerXml(name: string, { column, row }: CellPosition): string {
  const count = (tag: string, value: number) => `<xdr:${tag}>${value}</xdr:${tag}>`;
  return element(name, {}, count('col', column), count('colOff', 0), count('row', row), count('rowOff', 0));
}
