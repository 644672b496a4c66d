import { InputError } from '../../errors.js';
import { definedNames } from '../calculate.js';
import { assertInPlace } from '../fill/assert-in-place.js';
import { blankStart } from '../fill/blank-start.js';
import { openOurWorkbook } from '../fill/open-our-workbook.js';
import { assertUsualDates } from '../inputs/assert-usual-dates.js';
import { readCells } from '../inputs/read-cells.js';
import { SHEETS } from '../layout.js';
import { type Book, declareBook } from '../model/book.js';
import { LAYOUT_CELL, LAYOUT_NAME, LAYOUT_VERSION } from '../model/notes-sheet.js';
import type { SheetModel } from '../model/sheet-model.js';
import { workbookModel } from '../model/workbook-model.js';
import { openWorkbookPackage, type WorkbookPackage } from '../package/index.js';
import { type EarlierLayout, isWithin, type LaidSheet } from './earlier-layout.js';
import { LAYOUT_2 } from './layout-2.js';
import { LAYOUT_2_HEADINGS } from './layout-2-headings.js';
import { todaysLayout } from './todays-layout.js';

/** A workbook that can be carried. */
export interface EarlierWorkbook {
  readonly workbook: WorkbookPackage;
  readonly version: number;
  /** Days that it holds. */
  readonly days: number;
  /** Its layout, with what stays where it is in a workbook of some days. */
  layoutFor(days: number): EarlierLayout;
  /** What it is declared as, where that is known: of today's layout only. */
  readonly book: Book | undefined;
}

/**
 * Opens a workbook that is to be carried, and makes sure that its inputs stand where its layout has them.
 *
 * @param bytes the workbook
 * @param file its name, for messages
 * @throws InputError when it is none of ours, of a layout that can't be carried, or something was moved in it
 */
export function openEarlier(bytes: Uint8Array, file: string): EarlierWorkbook {
  const workbook = openWorkbookPackage(bytes, file);
  const version = layoutOf(workbook);
  if (version === LAYOUT_VERSION) {
    const { book } = openOurWorkbook(bytes, file);
    const model = workbookModel(blankStart(), book);
    const layoutFor = (days: number): EarlierLayout =>
      todaysLayout(
        book,
        model,
        definedNames(model).keys(),
        workbookModel(blankStart(), days === book.shape.days ? book : declareBook(days)),
      );
    return { workbook, version, days: book.shape.days, layoutFor, book };
  }
  for (const { name } of LAYOUT_2.sheets) {
    if (workbook.hasSheet(name)) continue;
    throw new InputError(
      `the sheet "${name}" is missing`,
      'Give it its name back, or go back to an earlier copy.',
      {
        file,
      },
    );
  }
  assertUsualDates(workbook);
  assertInPlace(workbook, headingsOfLayout2());
  const layoutFor = (days: number): EarlierLayout => {
    const book = declareBook(LAYOUT_2.days);
    const model = workbookModel(blankStart(), book);
    const today = todaysLayout(book, model, [], workbookModel(blankStart(), declareBook(days)));
    const sheets = LAYOUT_2.sheets.map((sheet): LaidSheet => {
      const now = today.sheets.find(({ name }) => name === sheet.name)?.stays ?? [];
      return { ...sheet, stays: sheet.stays.flatMap((range) => clipped(range, now)) };
    });
    return { ...LAYOUT_2, sheets };
  };
  return { workbook, version, days: LAYOUT_2.days, layoutFor, book: undefined };
}

type Ranges = LaidSheet['stays'];

/** The part of a range that lies in the first rows that stay. */
function clipped(range: Ranges[number], staying: Ranges): Ranges {
  if (isWithin(staying, range)) return [range];
  const lastRow = Math.min(range.lastRow, staying[0]?.lastRow ?? 0);
  return lastRow < range.firstRow ? [] : [{ ...range, lastRow }];
}

function layoutOf(workbook: WorkbookPackage): number {
  const place = { file: workbook.fileName };
  if (workbook.definedName(LAYOUT_NAME) === undefined || !workbook.hasSheet(SHEETS.notes)) {
    throw new InputError(
      'this is a spreadsheet, but not a home tariff workbook',
      'Name the workbook that you want to carry over.',
      place,
    );
  }
  const found = readCells(workbook, SHEETS.notes).get(LAYOUT_CELL);
  if (found === LAYOUT_VERSION || found === LAYOUT_2.version) return found;
  if (typeof found === 'number' && found > LAYOUT_VERSION) {
    throw new InputError(
      `the workbook has layout ${found}, newer than layout ${LAYOUT_VERSION}, which this version writes`,
      'Use the newer version of this program.',
      place,
    );
  }
  throw new InputError(
    `the workbook has layout ${String(found ?? 'unknown')}; what can be carried is ${LAYOUT_2.version} or ${LAYOUT_VERSION}`,
    'Build a fresh workbook, type its inputs and fill the readings into it.',
    { ...place, line: `${SHEETS.notes}!${LAYOUT_CELL}` },
  );
}

/** The headings of layout 2 as sheets, as far as they say what an input is. */
function headingsOfLayout2(): SheetModel[] {
  return Object.entries(LAYOUT_2_HEADINGS).map(
    ([name, texts]): SheetModel => ({
      name: name as SheetModel['name'],
      tab: 'input',
      widths: {},
      protected: false,
      landscape: false,
      cells: Object.entries(texts).map(([at, value]) => ({ kind: 'label', at, value, style: 'label' })),
      formulaColumns: [],
      inputColumns: [{ letters: 'A', firstRow: 1, rows: 1, style: 'inputText' }],
      conditional: [],
    }),
  );
}
