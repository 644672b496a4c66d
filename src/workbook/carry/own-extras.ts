import { decodeXml, parseCellRef, type WorkbookPackage } from '../package/index.js';
import { isIn, type LaidSheet } from './earlier-layout.js';
import type { NotCarried } from './not-carried.js';

/** A comment that the user wrote at a cell. */
export interface OwnComment {
  sheet: string;
  row: number;
  column: number;
  text: string;
}

/** Parts of a sheet beside its cells. */
interface SheetLook {
  /** Widths of columns, without their formats. */
  columns: string;
  mergedCells: string;
}

const COMMENT = /<(?:\w+:)?comment\b[^>]*?\bref="([A-Z]+\d+)"[^>]*>([\s\S]*?)<\/(?:\w+:)?comment>/g;
const TEXT = /<(?:\w+:)?t(?:\s[^>]*)?>([\s\S]*?)<\/(?:\w+:)?t>/g;
const ANCHOR = /<(?:\w+:)?(?:twoCellAnchor|oneCellAnchor|absoluteAnchor)\b/g;

/** The user's comments on a sheet; the project's own are left out. */
export function ownComments(
  workbook: WorkbookPackage,
  sheet: string,
  laid: LaidSheet | undefined,
): OwnComment[] {
  return textsOf(workbook, sheet, 'comments').flatMap((xml) =>
    [...xml.matchAll(COMMENT)].flatMap(([, at = '', inner = '']) => {
      const { row, column } = parseCellRef(at);
      if (laid !== undefined && isIn(laid.comments, row, column)) return [];
      const text = [...inner.matchAll(TEXT)].map(([, part = '']) => decodeXml(part)).join('');
      return [{ sheet, row, column, text }];
    }),
  );
}

/** What a sheet has beside cells that is not carried. */
export function otherExtras(
  workbook: WorkbookPackage,
  sheet: string,
  laid: LaidSheet | undefined,
): NotCarried[] {
  const named = (found: string): NotCarried => ({ sheet, row: 0, column: 0, found, why: WHY });
  const drawn = textsOf(workbook, sheet, 'drawing').reduce(
    (sum, xml) => sum + (xml.match(ANCHOR)?.length ?? 0),
    0,
  );
  const own = drawn - (laid?.charts ?? 0);
  const found = own > 0 ? [named(`${own} ${own === 1 ? 'chart or picture' : 'charts or pictures'}`)] : [];
  if (laid !== undefined) return found;
  const xml = String(workbook.readPart(workbook.sheetPart(sheet)));
  const tail = xml.slice(xml.lastIndexOf('sheetData'));
  return [...found, ...EXTRAS.flatMap(([element, words]) => (element.test(tail) ? [named(words)] : []))];
}

const WHY = 'copy it by hand';
const EXTRAS: readonly [RegExp, string][] = [
  [/<(?:\w+:)?conditionalFormatting\b/, 'conditional formats'],
  [/<(?:\w+:)?dataValidations\b/, 'rules of what may be typed'],
  [/<(?:\w+:)?hyperlinks\b/, 'links'],
  [/<(?:\w+:)?tablePart\b/, 'a table as such: its cells are carried'],
  [/<(?:\w+:)?autoFilter\b/, 'a filter'],
  [/<(?:\w+:)?sheetProtection\b/, 'the protection'],
];

/** Widths and merged cells of a sheet of the user's own. */
export function lookOf(workbook: WorkbookPackage, sheet: string): SheetLook {
  const xml = String(workbook.readPart(workbook.sheetPart(sheet)));
  const [columns = ''] = /<(?:\w+:)?cols>[\s\S]*?<\/(?:\w+:)?cols>/.exec(xml) ?? [];
  const [mergedCells = ''] = /<(?:\w+:)?mergeCells\b[\s\S]*?<\/(?:\w+:)?mergeCells>/.exec(xml) ?? [];
  const plain = (part: string): string => part.replace(/<(\/?)\w+:/g, '<$1');
  return { columns: plain(columns).replace(/ style="\d+"/g, ''), mergedCells: plain(mergedCells) };
}

function textsOf(workbook: WorkbookPackage, sheet: string, type: string): string[] {
  return workbook
    .relatedParts(sheet)
    .filter((related) => related.type === type)
    .map(({ part }) => String(workbook.readPart(part) ?? ''));
}
