import { InputError } from '../../errors.js';
import { definedNames, namedFormulas } from '../calculate.js';
import { parseCell } from '../cell-address.js';
import { SHEETS } from '../layout.js';
import type { LabelCell, SheetModel } from '../model/sheet-model.js';
import {
  cellName,
  comparableFormula,
  rangeName,
  sheetRange,
  type WorkbookPackage,
} from '../package/index.js';

type StyleName = LabelCell['style'];
/** Cells of one sheet. */
type Area = ReturnType<typeof definedNames> extends Map<string, infer Value> ? Value : never;

/** Styles of the texts that say what stands beside or below them. */
const ANCHORS: ReadonlySet<StyleName> = new Set<StyleName>([
  'header',
  'headerLeft',
  'headerUnit',
  'label',
  'labelStrong',
  'labelWrap',
  'textCentre',
  'unit',
]);
/** Rows below the last heading in which a heading that moved is looked for. */
const LOOKED_AT_BELOW = 200;
const TOO_LATE = 'where that is too late, go back to an earlier copy or start from a fresh workbook';

/**
 * Makes sure that headings, labels and names stand where the project put them, so that no input is taken for another
 * after a column or row was inserted, deleted, moved or sorted. Rows of readings, gas and temperatures may be sorted.
 *
 * @param workbook an open workbook of ours
 * @param model its sheets; what their inputs hold does not matter
 * @throws InputError naming the first cell where something else was found, what belongs there, and what to do
 */
export function assertInPlace(workbook: WorkbookPackage, model: readonly SheetModel[]): void {
  assertTextsInPlace(workbook, model);
  const held = heldNames(workbook);
  const [cells, formulas] = [definedNames(model), namedFormulas(model)];
  assertNamesInPlace(workbook, held, cells);
  assertNamedFormulas(workbook, held, formulas);
  assertNotShadowed(workbook, model, new Set([...cells.keys(), ...formulas.keys()]));
}

/**
 * Makes sure that headings and labels stand where the project put them, whatever formulas and names are.
 *
 * @param workbook an open workbook of ours
 * @param model its sheets
 * @throws InputError as {@link assertInPlace}
 */
export function assertTextsInPlace(workbook: WorkbookPackage, model: readonly SheetModel[]): void {
  for (const sheet of model) if (takesInputs(sheet)) assertSheetInPlace(workbook, sheet, false);
}

/**
 * Says what was moved on sheets whose formulas are not the project's any more, where that is why; a heading that was
 * only written over is none.
 *
 * @param workbook an open workbook of ours
 * @param model its sheets
 * @param altered names of the sheets with such formulas
 * @throws InputError as {@link assertInPlace}
 */
export function assertNotMoved(
  workbook: WorkbookPackage,
  model: readonly SheetModel[],
  altered: ReadonlySet<string>,
): void {
  for (const sheet of model) if (altered.has(sheet.name)) assertSheetInPlace(workbook, sheet, true);
}

function takesInputs(sheet: SheetModel): boolean {
  return sheet.inputColumns.length > 0 || sheet.cells.some(({ kind }) => kind === 'input');
}

interface Anchor {
  row: number;
  column: number;
  text: string;
}

function assertSheetInPlace(workbook: WorkbookPackage, sheet: SheetModel, onlyMoved: boolean): void {
  const anchors = anchorsOf(sheet);
  if (anchors.length === 0) return;
  const lastRow = Math.max(...anchors.map(({ row }) => row)) + LOOKED_AT_BELOW;
  const found = new Map<string, unknown>();
  const reader = workbook.readSheet(sheet.name);
  while (reader.next() && reader.row <= lastRow) {
    if (reader.hasValue) found.set(reader.name, reader.value);
  }
  const isOf = ({ row, column, text }: Anchor): boolean =>
    plain(found.get(cellName(row, column))) === plain(text);
  const belonging = new Set(anchors.filter(isOf).map(({ row, column }) => cellName(row, column)));
  const placeOf = ({ text }: Anchor): string | undefined =>
    [...found].find(([cell, value]) => plain(value) === plain(text) && !belonging.has(cell))?.[0];
  const wrong = anchors.find((anchor) => !isOf(anchor) && !(onlyMoved && placeOf(anchor) === undefined));
  if (wrong === undefined) return;
  const at = cellName(wrong.row, wrong.column);
  const holds = found.get(at) ?? '';
  const stands = placeOf(wrong);
  const isAnothers = anchors.some(({ text }) => plain(text) === plain(holds));
  throw new InputError(
    `the cell holds ${holds === '' ? 'nothing' : `"${String(holds)}"`} where "${wrong.text}" belongs${stands === undefined ? '' : `, which stands in ${stands}`}`,
    adviceOnText(wrong, stands, isAnothers),
    { file: workbook.fileName, line: `${sheet.name}!${at}` },
  );
}

/** What to do about a text that is not where it belongs; whether that cell holds another text of the sheet tells why. */
function adviceOnText({ row, column }: Anchor, stands: string | undefined, isAnothers: boolean): string {
  if (stands === undefined) {
    return isAnothers
      ? `Undo the deletion of a column or row; ${TOO_LATE}.`
      : 'Give the cell its text back, or undo what took it away.';
  }
  if (isAnothers) return `Put the cells back in their order (undo a move or a sort); ${TOO_LATE}.`;
  const found = parseCell(stands);
  if (found.row === row && found.column > column) {
    return 'Take the inserted column out again; columns of your own have their place right of the project’s.';
  }
  if (found.column === column && found.row > row) {
    return 'Take the inserted row out again; notes of your own have their place beside or below the project’s.';
  }
  return `Put the cells back where they were (undo); ${TOO_LATE}.`;
}

/** Texts of the sheet that say what an input is, by rows. */
function anchorsOf(sheet: SheetModel): Anchor[] {
  return sheet.cells
    .flatMap((cell) =>
      cell.kind === 'label' &&
      (ANCHORS.has(cell.style) || typeof cell.value === 'number') &&
      plain(cell.value) !== ''
        ? [{ ...parseCell(cell.at), text: String(cell.value) }]
        : [],
    )
    .sort((a, b) => a.row - b.row || a.column - b.column);
}

function plain(value: unknown): string {
  return String(value ?? '')
    .trim()
    .replace(/\s+/g, ' ')
    .toLowerCase();
}

function assertNamesInPlace(
  workbook: WorkbookPackage,
  held: ReadonlyMap<string, string>,
  names: ReadonlyMap<string, Area>,
): void {
  for (const [name, area] of names) {
    const text = held.get(name.toLowerCase());
    const found = text === undefined ? undefined : sheetRange(text);
    if (found !== undefined && isSameArea(area, found)) continue;
    throw new InputError(
      `the name "${name}" belongs to these cells, but ${text === undefined ? 'there is no such name' : `stands for ${text.replaceAll('$', '')}`}`,
      adviceOnName(area, text, found),
      { file: workbook.fileName, line: `${area.sheet}!${rangeName(area)}` },
    );
  }
}

/** Text of each name of the whole workbook, by the name in small letters. */
function heldNames(workbook: WorkbookPackage): Map<string, string> {
  return new Map(
    workbook
      .definedNames()
      .filter(({ sheet }) => sheet === undefined)
      .map(({ name, text }) => [name.toLowerCase(), text]),
  );
}

/** Formulas are written by these names: one that stands for something else changes them all, unseen. */
function assertNamedFormulas(
  workbook: WorkbookPackage,
  held: ReadonlyMap<string, string>,
  names: ReadonlyMap<string, string>,
): void {
  const comparable = (text: string): string => comparableFormula(text, 'A1');
  for (const [name, formula] of names) {
    const text = held.get(name.toLowerCase());
    if (text !== undefined && comparable(text) === comparable(formula)) continue;
    throw new InputError(
      `the name "${name}" belongs to ${formula}, but ${text === undefined ? 'there is no such name' : `stands for ${text}`}`,
      text === undefined
        ? `Define the name again (undo its deletion); ${TOO_LATE}.`
        : `Give the name back what belongs to it, said as from cell A1 (undo its change); ${TOO_LATE}.`,
      { file: workbook.fileName },
    );
  }
}

/** A name of one sheet hides that of the workbook from the formulas of the sheet. */
function assertNotShadowed(
  workbook: WorkbookPackage,
  model: readonly SheetModel[],
  names: ReadonlySet<string>,
): void {
  const inSmall = (texts: Iterable<string>): ReadonlySet<string> =>
    new Set([...texts].map((text) => text.toLowerCase()));
  const [ourSheets, ourNames] = [inSmall(model.map(({ name }) => name)), inSmall(names)];
  const shadow = workbook
    .definedNames()
    .flatMap(({ name, text, sheet }) => (sheet === undefined ? [] : [{ name, text, sheet }]))
    .find(({ name, sheet }) => ourSheets.has(sheet.toLowerCase()) && ourNames.has(name.toLowerCase()));
  if (shadow === undefined) return;
  throw new InputError(
    `the sheet has a name of its own "${shadow.name}", which stands for ${shadow.text}; its formulas would take it for that of the workbook`,
    'Delete that name, of this sheet only, or give it another.',
    { file: workbook.fileName, line: shadow.sheet },
  );
}

type FoundRange = NonNullable<ReturnType<typeof sheetRange>>;

function isSameArea(area: Area, { sheet, range }: FoundRange): boolean {
  return (
    sheet.toLowerCase() === area.sheet.toLowerCase() &&
    range.firstRow === area.firstRow &&
    range.lastRow === area.lastRow &&
    range.firstColumn === area.firstColumn &&
    range.lastColumn === area.lastColumn
  );
}

function adviceOnName(area: Area, text: string | undefined, found: FoundRange | undefined): string {
  if (text === undefined) return `Define the name again (undo its deletion); ${TOO_LATE}.`;
  if (found === undefined) return `Undo the deletion of a row or column of ${area.sheet}; ${TOO_LATE}.`;
  const { range } = found;
  if (range.firstColumn > area.firstColumn || range.lastColumn > area.lastColumn) {
    return `Take the column out again that was inserted in ${area.sheet}; columns of your own have their place right of the project’s.`;
  }
  if (range.firstColumn < area.firstColumn || range.lastColumn < area.lastColumn) {
    return `Undo the deletion of a column of ${area.sheet}; ${TOO_LATE}.`;
  }
  const grown = range.lastRow - range.firstRow - (area.lastRow - area.firstRow);
  const rows = (count: number): string => (count === 1 ? 'a row' : `${count.toLocaleString('en')} rows`);
  if (range.firstRow !== area.firstRow) {
    return range.firstRow > area.firstRow
      ? `Take the rows out again that were inserted in ${area.sheet} above row ${range.firstRow}.`
      : `Undo the deletion of rows of ${area.sheet} above row ${area.firstRow}; ${TOO_LATE}.`;
  }
  if (grown > 0)
    return `Take ${rows(grown)} out again that ${grown === 1 ? 'was' : 'were'} inserted in ${area.sheet}.`;
  const instead = area.sheet === SHEETS.readings ? ' To take readings out, clear their cells instead.' : '';
  return `Undo the deletion of ${rows(-grown)} of ${area.sheet}, or insert as many again above its last.${instead}`;
}
