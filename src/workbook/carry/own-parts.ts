import { calculate } from '../calculate.js';
import { blankStart } from '../fill/blank-start.js';
import { inspectSheet } from '../fill/inspect-sheet.js';
import { OwnedCells } from '../fill/owned-cells.js';
import { LAYOUT_NAME } from '../model/notes-sheet.js';
import { workbookModel } from '../model/workbook-model.js';
import { type CellRange, parseCellRef } from '../package/index.js';
import { carryFormula, type Surroundings } from './carry-formula.js';
import { type EarlierLayout, isIn, isWithin, type LaidSheet, touches } from './earlier-layout.js';
import type { NewCell } from './insert-cells.js';
import type { NotCarried } from './not-carried.js';
import type { EarlierWorkbook } from './open-earlier.js';
import { type OwnCell, type OwnSheetCells, overwrittenFormulas, ownCellsOf, shown } from './own-cells.js';
import { lookOf, type OwnComment, otherExtras, ownComments } from './own-extras.js';

/** A sheet of the user's own as it is carried. */
export interface OwnSheet {
  /** Name in the new workbook. */
  name: string;
  cells: NewCell[];
  columns: string;
  mergedCells: string;
}

/** Everything of the user's beside the inputs, as far as it can be carried. Formats are those of the old workbook. */
export interface OwnParts {
  sheets: OwnSheet[];
  /** Cells on sheets of the project. */
  beside: { sheet: string; cells: NewCell[] }[];
  comments: OwnComment[];
  /** Defined names with what they stand for. */
  names: { name: string; text: string }[];
  notCarried: NotCarried[];
}

const LAYOUT = LAYOUT_NAME.toLowerCase();
const MOST_LETTERS_OF_A_SHEET = 31;

/**
 * Whether a formula would meet cells of ours in a range where there were none: the user's own may have stood there. Of labels
 * only one that it asks for by itself: a sum of more passes texts over.
 */
function holdsWhatCame(before: LaidSheet, now: LaidSheet, range: CellRange): boolean {
  const came = (cells: readonly CellRange[]): boolean =>
    cells.some((ours) => touches([ours], range) && !touches(before.ours, ours));
  const isOneCell = range.firstRow === range.lastRow && range.firstColumn === range.lastColumn;
  return came(isOneCell ? now.ours : now.formulas);
}

/**
 * Finds what is the user's own in a workbook, and says how it reads in the new one.
 *
 * @param old the old workbook
 * @param layout its layout, with what stays where it is
 * @param today the layout of the new workbook
 * @param todaysNames defined names of the project in the new workbook, in small letters
 */
export function ownParts(
  old: EarlierWorkbook,
  layout: EarlierLayout,
  today: EarlierLayout,
  todaysNames: ReadonlySet<string>,
): OwnParts {
  const { workbook } = old;
  const find = (of: EarlierLayout, sheet: string) =>
    of.sheets.find(({ name }) => name.toLowerCase() === sheet.toLowerCase());
  const renamed = newNames(
    workbook.sheetNames().filter((sheet) => find(layout, sheet) === undefined),
    today.sheets.map(({ name }) => name),
  );
  const all = workbook.sheetNames().map((sheet) => ownCellsOf(workbook, sheet, find(layout, sheet)));
  const notCarried: NotCarried[] = [
    ...overwritten(old, layout),
    ...[...renamed].flatMap(([sheet, name]): NotCarried[] =>
      sheet === name
        ? []
        : [{ sheet, row: 0, column: 0, found: 'its name', why: `it is called "${name}" now` }],
    ),
    ...workbook.otherTabs().map(
      (sheet): NotCarried => ({
        sheet,
        row: 0,
        column: 0,
        found: 'a sheet that is no worksheet',
        why: 'copy it by hand',
      }),
    ),
  ];

  const nowCalled = (sheet: string): string => find(layout, sheet)?.nowCalled ?? sheet;
  const stays = (sheet: string, range: CellRange): boolean => {
    const [before, now] = [find(layout, sheet), find(today, nowCalled(sheet))];
    if (before === undefined || now === undefined) return false;
    if (holdsWhatCame(before, now, range)) return false;
    return isWithin(before.stays, range) || !(touches(before.ours, range) || touches(now.ours, range));
  };
  const oldNames = new Set([...layout.names].map((name) => name.toLowerCase()));
  const around: Surroundings = {
    ownSheet: (name) => renamed.get(name) ?? renamed.get(spelt(renamed.keys(), name)),
    nowCalled,
    stays,
    // A name of the user's that is spelt like one of ours today stood for something else.
    hasName: (name) => {
      const key = name.toLowerCase();
      return (todaysNames.has(key) && oldNames.has(key)) || names.has(key);
    },
  };
  const names = new Map<string, { name: string; text: string }>();
  notCarried.push(...carryNames(old, oldNames, todaysNames, around, names));

  const sheets: OwnSheet[] = [];
  const beside: OwnParts['beside'] = [];
  const comments: OwnComment[] = [];
  for (const own of all) {
    const { sheet } = own;
    const laid = find(layout, sheet);
    const next = find(today, nowCalled(sheet));
    const isFree = (cell: { row: number; column: number }): boolean =>
      own.isOwn || (next !== undefined && !isIn(next.ours, cell.row, cell.column));
    const cells = own.cells.flatMap((cell): NewCell[] => {
      if (isFree(cell)) return [carryCell(own, cell, around, notCarried)];
      notCarried.push({
        sheet,
        ...placeOf(cell),
        found: contentOf(cell),
        why: whyNoPlace(next !== undefined),
      });
      return [];
    });
    if (own.isOwn) {
      sheets.push({ name: renamed.get(sheet) ?? sheet, cells, ...lookOf(workbook, sheet) });
    } else if (cells.length > 0) beside.push({ sheet: next?.name ?? sheet, cells });
    for (const comment of ownComments(workbook, sheet, laid)) {
      const hasPlace = own.isOwn || (next !== undefined && !isIn(next.comments, comment.row, comment.column));
      if (hasPlace) comments.push({ ...comment, sheet: renamed.get(sheet) ?? next?.name ?? sheet });
      else {
        notCarried.push({
          sheet,
          ...placeOf(comment),
          found: `the comment ${shown(comment.text)}`,
          why: whyNoPlace(next !== undefined),
        });
      }
    }
    notCarried.push(...otherExtras(workbook, sheet, laid));
  }
  return { sheets, beside, comments, names: [...names.values()], notCarried };
}

const placeOf = ({ row, column }: { row: number; column: number }) => ({ row, column });
const whyNoPlace = (isThere: boolean): string =>
  isThere ? 'the workbook has a cell of its own there now' : 'there is no such sheet any more';
const contentOf = ({ formula, value }: OwnCell): string =>
  formula === undefined ? shown(value) : `=${formula}, ${shown(value)}`;

function carryCell(
  { sheet }: OwnSheetCells,
  cell: OwnCell,
  around: Surroundings,
  notCarried: NotCarried[],
): NewCell {
  const { value, formula, isArray, style } = cell;
  const plain: NewCell = { ...placeOf(cell), value, style };
  if (formula === undefined) return plain;
  const carried = isArray ? { why: 'it fills several cells' } : carryFormula(formula, sheet, around);
  if ('formula' in carried) return { ...plain, formula: carried.formula };
  notCarried.push({
    sheet,
    ...placeOf(cell),
    found: `=${formula}`,
    why: `${carried.why}; its value stands there`,
  });
  return plain;
}

/** Names of the user's sheets in the new workbook, where one of the project may have taken theirs. */
function newNames(own: readonly string[], ours: readonly string[]): Map<string, string> {
  const taken = new Set([...ours, ...own].map((name) => name.toLowerCase()));
  const isOurs = (name: string): boolean => ours.some((other) => other.toLowerCase() === name.toLowerCase());
  return new Map(
    own.map((name) => {
      if (!isOurs(name)) return [name, name];
      let number = 2;
      const next = (): string => `${name.slice(0, MOST_LETTERS_OF_A_SHEET - 4)} ${number}`;
      while (taken.has(next().toLowerCase())) number++;
      taken.add(next().toLowerCase());
      return [name, next()];
    }),
  );
}

/** A name as it is spelt among others, case aside. */
function spelt(names: Iterable<string>, name: string): string {
  return [...names].find((other) => other.toLowerCase() === name.toLowerCase()) ?? name;
}

/** Carries the user's defined names; one may stand for another. */
function carryNames(
  { workbook }: EarlierWorkbook,
  oldNames: ReadonlySet<string>,
  todaysNames: ReadonlySet<string>,
  around: Surroundings,
  carried: Map<string, { name: string; text: string }>,
): NotCarried[] {
  let left = workbook.definedNames().filter(({ name, sheet }) => {
    const key = name.toLowerCase();
    return !key.startsWith('_xlnm.') && !(sheet === undefined && (oldNames.has(key) || key === LAYOUT));
  });
  const why = new Map<string, string>();
  for (let before = -1; left.length !== before; ) {
    before = left.length;
    left = left.filter((defined) => {
      const key = defined.name.toLowerCase();
      const result =
        defined.sheet !== undefined
          ? { why: 'it belongs to one sheet' }
          : todaysNames.has(key)
            ? { why: 'the workbook has a name of its own that is spelt so' }
            : carryFormula(defined.text, undefined, around);
      if ('formula' in result) carried.set(key, { name: defined.name, text: result.formula });
      else why.set(key, result.why);
      return !('formula' in result);
    });
  }
  return left.map(({ name, text }) => ({
    sheet: `the name ${name}`,
    row: 0,
    column: 0,
    found: `=${text}`,
    why: why.get(name.toLowerCase()) ?? '',
  }));
}

/** Formulas of the project that someone changed; of an earlier layout only those that hold none any more are known. */
function overwritten({ workbook, book }: EarlierWorkbook, layout: EarlierLayout): NotCarried[] {
  if (book === undefined) return layout.sheets.flatMap((laid) => overwrittenFormulas(workbook, laid));
  const model = workbookModel(blankStart(), book);
  const calculated = calculate(model, []);
  return model.flatMap((sheet) =>
    inspectSheet(workbook, new OwnedCells(sheet, calculated), false).altered.map(
      ({ cell, found }): NotCarried => ({
        sheet: sheet.name,
        ...parseCellRef(cell),
        found,
        why: 'put in place of a formula of the workbook, which is back',
      }),
    ),
  );
}
