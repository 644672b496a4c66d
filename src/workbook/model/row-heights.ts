import type { Style } from 'exceljs';
import { columnNumber, parseCell } from '../cell-address.js';
import { BASE_FONT, STYLES, type StyleName } from '../look/styles.js';
import { wrappedLines } from '../look/text-width.js';
import type { LabelCell, SheetModel } from './sheet-model.js';

/** Characters of a column that says nothing else; and pixels of a character of the workbook's font, and beside them. */
const USUAL_CHARACTERS = 9.14;
const PIXELS_A_CHARACTER = 7;
const PIXELS_BESIDE = 5;
/** Room that programs leave at both sides of a text, and above and below the lines, in pixels and points. */
const MARGIN_PIXELS = 6;
const MARGIN_POINTS = 3;
/** A line's height as a multiple of the font's size. */
const LINE_SPACING = 1.2;
/** Height in points of a row that holds one line of the workbook's font. */
const USUAL_POINTS = 15;

/** Characters of each column, by its number. */
type Widths = ReadonlyMap<number, number>;

/**
 * The sheet with rows high enough for the labels that wrap in them: no program makes a row higher by itself where its
 * cells are merged, and not all of them when they open a file.
 *
 * @param sheet a sheet of the model
 * @returns the sheet, its rows no lower than it says itself
 */
export function withFittingRows(sheet: SheetModel): SheetModel {
  const widths = new Map(
    Object.entries(sheet.widths).map(([letters, width]) => [columnNumber(letters), width]),
  );
  const heights = new Map(Object.entries(sheet.heights ?? {}).map(([row, points]) => [Number(row), points]));
  for (const cell of sheet.cells) {
    if (cell.kind !== 'label') continue;
    const needed = pointsNeeded(widths, cell);
    if (needed === undefined) continue;
    const [first, last] = [parseCell(cell.at).row, parseCell(cell.mergeTo ?? cell.at).row];
    const has = (row: number): number => heights.get(row) ?? USUAL_POINTS;
    const rows = Array.from({ length: last - first + 1 }, (_, i) => first + i);
    const lacking = needed - rows.reduce((sum, row) => sum + has(row), 0);
    // What merged rows lack together, the last of them gets.
    if (lacking > 0) heights.set(last, has(last) + lacking);
  }
  return { ...sheet, heights: Object.fromEntries(heights) };
}

/** Points that a label needs; undefined where it does not wrap, or is no text that is known beforehand. */
function pointsNeeded(widths: Widths, cell: LabelCell): number | undefined {
  if (typeof cell.value !== 'string' || cell.value === '') return undefined;
  const { alignment, font } = lookOf(cell.style);
  if (alignment?.wrapText !== true) return undefined;
  const size = font?.size ?? BASE_FONT.size;
  const room = widthPixels(widths, cell) - MARGIN_PIXELS;
  const lines = wrappedLines(cell.value, room, { size, bold: font?.bold === true });
  return Math.ceil(lines * size * LINE_SPACING + MARGIN_POINTS);
}

const lookOf = (style: StyleName): Partial<Style> => STYLES[style];

/** Width of a cell with all that is merged to it. */
function widthPixels(widths: Widths, { at, mergeTo = at }: LabelCell): number {
  const [from, to] = [parseCell(at).column, parseCell(mergeTo).column];
  return Array.from({ length: to - from + 1 }, (_, i) => widths.get(from + i) ?? USUAL_CHARACTERS).reduce(
    (sum, characters) => sum + characters * PIXELS_A_CHARACTER + PIXELS_BESIDE,
    0,
  );
}
