/** Namespaces, relationship types and content types of ECMA-376 (transitional) that charts need. */
const OFFICE = 'http://schemas.openxmlformats.org';

export const NS = {
  spreadsheet: `${OFFICE}/spreadsheetml/2006/main`,
  main: `${OFFICE}/drawingml/2006/main`,
  chart: `${OFFICE}/drawingml/2006/chart`,
  spreadsheetDrawing: `${OFFICE}/drawingml/2006/spreadsheetDrawing`,
  relationships: `${OFFICE}/officeDocument/2006/relationships`,
  packageRelationships: `${OFFICE}/package/2006/relationships`,
} as const;

export const RELATION = {
  officeDocument: `${NS.relationships}/officeDocument`,
  drawing: `${NS.relationships}/drawing`,
  chart: `${NS.relationships}/chart`,
} as const;

export const CONTENT_TYPE = {
  drawing: 'application/vnd.openxmlformats-officedocument.drawing+xml',
  chart: 'application/vnd.openxmlformats-officedocument.drawingml.chart+xml',
  relationships: 'application/vnd.openxmlformats-package.relationships+xml',
} as const;
