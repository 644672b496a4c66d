import { InputError } from '../../errors.js';
import { assertTextsInPlace } from '../fill/assert-in-place.js';
import { blankStart } from '../fill/blank-start.js';
import { openOurWorkbook } from '../fill/open-our-workbook.js';
import { assertUsualDates } from '../inputs/assert-usual-dates.js';
import { readCells } from '../inputs/read-cells.js';
import { shapeOfWorkbook } from '../inputs/read-inputs.js';
import { SHEETS } from '../layout.js';
import { type Book, declareBook } from '../model/book.js';
import { LAYOUT_CELL, LAYOUT_NAME, LAYOUT_VERSION } from '../model/notes-sheet.js';
import type { SheetModel } from '../model/sheet-model.js';
import { workbookModel } from '../model/workbook-model.js';
import { openWorkbookPackage, type WorkbookPackage } from '../package/index.js';
import type { EarlierLayout, LaidSheet } from './earlier-layout.js';
import { LAYOUT_2 } from './layout-2.js';
import { LAYOUT_2_HEADINGS } from './layout-2-headings.js';
import { layout3 } from './layout-3.js';
import { LAYOUT_3_HEADINGS } from './layout-3-headings.js';
import { layout4 } from './layout-4.js';
import { LAYOUT_4_HEADINGS } from './layout-4-headings.js';
import { layoutInPlace } from './layouts-in-place.js';
import { projectNames } from './project-names.js';
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

/** A layout of the past. */
interface PastLayout {
  readonly version: number;
  /** Its table for a workbook that holds as much as this one, and sheets with what stands above and beside its inputs. */
  of(workbook: WorkbookPackage): { table: EarlierLayout; sheets: readonly SheetModel[] };
}

const PAST: readonly PastLayout[] = [
  {
    version: LAYOUT_2.version,
    of: () => ({ table: LAYOUT_2, sheets: sheetsWith(LAYOUT_2_HEADINGS) }),
  },
  {
    version: 3,
    of: (workbook) => ({
      table: layout3(shapeOfWorkbook(workbook).days),
      sheets: sheetsWith(LAYOUT_3_HEADINGS),
    }),
  },
  {
    version: 4,
    of: (workbook) => ({
      table: layout4(shapeOfWorkbook(workbook).days),
      sheets: sheetsWith(LAYOUT_4_HEADINGS),
    }),
  },
  ...[5, 6, 7].map((version) => ({
    version,
    of: (workbook: WorkbookPackage) => layoutInPlace(version, shapeOfWorkbook(workbook).days),
  })),
];

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
        projectNames(model),
        workbookModel(blankStart(), days === book.shape.days ? book : declareBook(days)),
      );
    return { workbook, version, days: book.shape.days, layoutFor, book };
  }
  const past = PAST.find((layout) => layout.version === version);
  if (past === undefined) throw new RangeError(`nothing says what layout ${version} is`);
  const { table, sheets: held } = past.of(workbook);
  for (const { name } of table.sheets) {
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
  assertTextsInPlace(workbook, held);
  const layoutFor = (days: number): EarlierLayout => {
    const book = declareBook(table.days);
    const model = workbookModel(blankStart(), book);
    const today = todaysLayout(book, model, [], workbookModel(blankStart(), declareBook(days)));
    const sheets = table.sheets.map((sheet): LaidSheet => {
      const now = today.sheets.find(({ name }) => name === (sheet.nowCalled ?? sheet.name))?.stays ?? [];
      return { ...sheet, stays: sheet.stays.flatMap((range) => clipped(range, now)) };
    });
    return { ...table, sheets };
  };
  return { workbook, version, days: table.days, layoutFor, book: undefined };
}

type Ranges = LaidSheet['stays'];

/** The parts of a range that lie in what stays. */
function clipped(range: Ranges[number], staying: Ranges): Ranges {
  return staying.flatMap((other) => {
    const part = {
      firstRow: Math.max(range.firstRow, other.firstRow),
      lastRow: Math.min(range.lastRow, other.lastRow),
      firstColumn: Math.max(range.firstColumn, other.firstColumn),
      lastColumn: Math.min(range.lastColumn, other.lastColumn),
    };
    return part.firstRow > part.lastRow || part.firstColumn > part.lastColumn ? [] : [part];
  });
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
  const known = [...PAST.map(({ version }) => version), LAYOUT_VERSION];
  if (typeof found === 'number' && known.includes(found)) return found;
  if (typeof found === 'number' && found > LAYOUT_VERSION) {
    throw new InputError(
      `the workbook has layout ${found}, newer than layout ${LAYOUT_VERSION}, which this version writes`,
      'Use the newer version of this program.',
      place,
    );
  }
  throw new InputError(
    `the workbook has layout ${String(found ?? 'unknown')}; what can be carried is ${known.slice(0, -1).join(', ')} or ${LAYOUT_VERSION}`,
    'Build a fresh workbook, type its inputs and fill the readings into it.',
    { ...place, line: `${SHEETS.notes}!${LAYOUT_CELL}` },
  );
}

/** The headings of a layout as sheets, as far as they say what an input is. */
function sheetsWith(texts: Readonly<Record<string, Readonly<Record<string, string>>>>): SheetModel[] {
  return Object.entries(texts).map(
    ([name, ofSheet]): SheetModel => ({
      name: name as SheetModel['name'],
      tab: 'input',
      widths: {},
      protected: false,
      landscape: false,
      cells: Object.entries(ofSheet).map(([at, value]) => ({ kind: 'label', at, value, style: 'label' })),
      formulaColumns: [],
      inputColumns: [{ letters: 'A', firstRow: 1, rows: 1, style: 'inputText' }],
      conditional: [],
    }),
  );
}
