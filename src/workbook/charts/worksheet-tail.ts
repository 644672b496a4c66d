import { InputError } from '../../errors.js';
import { NS } from './namespaces.js';
import { element } from './xml.js';

/**
 * Elements that stand after `drawing` in a worksheet, in their order (CT_Worksheet, ECMA-376 Part 1, 18.3.1.99;
 * AlternateContent is how programs wrap controls). The new element goes before the first of them.
 */
const AFTER_DRAWING: ReadonlySet<string> = new Set([
  'legacyDrawing',
  'legacyDrawingHF',
  'drawingHF',
  'picture',
  'oleObjects',
  'controls',
  'AlternateContent',
  'webPublishItems',
  'tableParts',
  'extLst',
]);

const TAG = /<!--[\s\S]*?-->|<(\/?)(?:[\w.-]+:)?([\w.-]+)((?:"[^"]*"|'[^']*'|[^'">])*?)(\/?)>/g;

interface TopElement {
  name: string;
  attributes: string;
  /** Position in the text where its tag begins. */
  start: number;
}

/**
 * Where the cells of a worksheet part end. Sheets run to tens of megabytes, nearly all of it cells: only what
 * follows them is ever turned into text.
 */
export function tailStart(sheet: Uint8Array): number {
  const bytes = Buffer.from(sheet.buffer, sheet.byteOffset, sheet.byteLength);
  const candidates = ['</sheetData>', '<sheetData/>', '</x:sheetData>', '<x:sheetData/>'].map((tag) => {
    const at = bytes.lastIndexOf(tag);
    return at < 0 ? -1 : at + tag.length;
  });
  const end = Math.max(...candidates);
  if (end < 0)
    throw new InputError(
      'a worksheet has no sheetData',
      'Save the workbook again with a spreadsheet program.',
    );
  return end;
}

function tailOf(sheet: Uint8Array): string {
  return Buffer.from(sheet.subarray(tailStart(sheet))).toString('utf8');
}

/** Direct children of the worksheet that follow its cells. */
function topElements(tail: string): TopElement[] {
  const found: TopElement[] = [];
  let depth = 0;
  for (const match of tail.matchAll(TAG)) {
    const [, closing, name, attributes = '', selfClosed] = match;
    if (name === undefined) continue;
    if (closing === '/') {
      // The worksheet's own closing tag comes last, at depth 0.
      if (depth === 0) found.push({ name: '/', attributes: '', start: match.index });
      depth -= 1;
      continue;
    }
    if (depth === 0) found.push({ name, attributes, start: match.index });
    if (selfClosed !== '/') depth += 1;
  }
  return found;
}

/** Relationship id of the drawing a sheet already has. */
export function drawingIdOf(sheet: Uint8Array): string | undefined {
  const drawing = topElements(tailOf(sheet)).find(({ name }) => name === 'drawing');
  return drawing === undefined ? undefined : /:id\s*=\s*["']([^"']+)["']/.exec(drawing.attributes)?.[1];
}

/** The sheet with a `drawing` element at its place in the order. */
export function insertDrawing(sheet: Uint8Array, relationshipId: string): Uint8Array {
  const start = tailStart(sheet);
  const tail = tailOf(sheet);
  const next = topElements(tail).find(({ name }) => AFTER_DRAWING.has(name) || name === '/');
  if (next === undefined) {
    throw new InputError(
      'a worksheet part is cut off',
      'Save the workbook again with a spreadsheet program.',
    );
  }
  const drawing = element('drawing', {
    xmlns: NS.spreadsheet,
    'xmlns:r': NS.relationships,
    'r:id': relationshipId,
  });
  const newTail = Buffer.from(tail.slice(0, next.start) + drawing + tail.slice(next.start), 'utf8');
  const result = new Uint8Array(start + newTail.length);
  result.set(sheet.subarray(0, start));
  result.set(newTail, start);
  return result;
}
