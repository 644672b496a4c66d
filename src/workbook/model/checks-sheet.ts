import { f, Line } from '../book/terms.js';
import { columnLetters } from '../cell-address.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { ASKED_FIGURES_WIDTHS, askedFigureCells } from './asked-figures.js';
import { ASKED_COLUMN, ASKED_HEADINGS, ASKED_WIDTHS } from './asked-tariffs.js';
import type { Book } from './book.js';
import { formula, label } from './cells.js';
import { allChecks, type Check } from './checks.js';
import { sheetTop } from './column-headers.js';
import type { Cell, SheetModel } from './sheet-model.js';
import { TARIFF_ROW, tariffLetters } from './tariff-rows.js';

const HEADER_ROW = 5;
const FIRST = HEADER_ROW + 1;
const FAULT = 'look';
/** Column with 1 where a check is not well. */
const FLAG = 'E';
/** Defined name of the verdict in words. */
export const VERDICT_NAME = 'checks_verdict';
/** How it begins where every check is well. */
export const ALL_WELL = 'No problem found';

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
/** Column of what a check counts of the first tariff. */
const FIRST_COUNT = 7;
/** Letters of what a check counts of a tariff, from 0. */
const countLetters = (tariff: number): string => columnLetters(FIRST_COUNT + tariff);
/** Points of a row whose advice may become a question of three lines: names may be long. */
const THREE_LINES = 40;
/** Said after a question. */
export const AS_TYPED = ' It counts as typed.';
/** Whether the verdict counts it. */
const asksForLook = ({ kind }: Check): boolean => kind !== 'note';

/** What to do, or where something is asked of the first that is counted, that. */
function adviceCells(check: Check, row: number): Cell[] {
  const { advice, question } = check;
  const at = `D${row}`;
  if (question === undefined) return [label(at, advice, 'hintWrap')];
  const line = (column: number): Line => new Line({ sheet: SHEETS.checks, row, column }, 'count');
  const found = line(2);
  const { words, cells } = question(
    row,
    tariffs.map((t) => line(FIRST_COUNT + t)),
  );
  const several = f`IF(${found}=1,"","First of "&${found}&": ")`;
  return [
    formula(at, f`IF(IFERROR(${found},0)=0,${advice},${several}&${words}&${AS_TYPED})`, 'hintWrap'),
    ...cells,
  ];
}

function checkRow(check: Check, row: number): Cell[] {
  const { formula: counts, cellName } = check;
  const isByTariff = typeof counts === 'object' && !('kind' in counts);
  const found = `B${row}`;
  const named = cellName === undefined ? {} : { name: cellName };
  return [
    label(`A${row}`, check.name, 'labelWrap'),
    isByTariff
      ? formula(
          found,
          `SUM(${countLetters(0)}${row}:${countLetters(TARIFF_COUNT - 1)}${row})`,
          'count',
          named,
        )
      : formula(found, counts, 'count', named),
    // An error is no well, and neither is what can't be counted.
    formula(
      `${FLAG}${row}`,
      asksForLook(check) ? `IF(ISERROR(${found}),1,IF(${found}=0,0,1))` : `IF(ISERROR(${found}),1,0)`,
      'integer',
    ),
    formula(
      `C${row}`,
      asksForLook(check)
        ? `IF(${FLAG}${row}=0,"well","${FAULT}")`
        : `IF(${FLAG}${row}=1,"${FAULT}",IF(${found}=0,"well","note"))`,
      'textCentre',
    ),
    ...adviceCells(check, row),
    ...(isByTariff ? counts.map((is, t) => formula(`${countLetters(t)}${row}`, is, 'count')) : []),
  ];
}

/** Every self-test of the workbook with what to do about it. */
export function checksSheet(book: Book): SheetModel {
  const checks = allChecks(book);
  const last = FIRST + checks.length - 1;
  const total = checks.filter(asksForLook).length;
  const flags = `$${FLAG}$${FIRST}:$${FLAG}$${last}`;
  const first = `INDEX($A$${FIRST}:$A$${last},MATCH(1,${flags},0))`;
  return {
    name: SHEETS.checks,
    tab: 'answer',
    widths: {
      A: 56,
      B: 9,
      C: 9,
      D: 84,
      [FLAG]: 6,
      F: 3,
      ...Object.fromEntries(tariffs.map((t) => [countLetters(t), 12])),
      ...Object.fromEntries(ASKED_WIDTHS.map((width, i) => [columnLetters(ASKED_COLUMN + i), width])),
      ...ASKED_FIGURES_WIDTHS,
    },
    heights: {
      [HEADER_ROW]: 32,
      ...Object.fromEntries(
        checks.flatMap(({ question }, i) => (question === undefined ? [] : [[FIRST + i, THREE_LINES]])),
      ),
    },
    freeze: { columns: 0, rows: HEADER_ROW },
    protected: true,
    landscape: true,
    printArea: `A1:D${last}`,
    printTitleRows: `${HEADER_ROW}:${HEADER_ROW}`,
    cells: [
      ...sheetTop('Checks', 'What the workbook tests about itself. Zero is as it should be.'),
      formula(
        'A3',
        `IFERROR(IF(SUM(${flags})=0,"${ALL_WELL} by ${total} checks.",SUM(${flags})&" of ${total} checks ask"&IF(SUM(${flags})=1,"s","")&" for a look, first: "&${first}&"."),"The checks can’t be worked out: a formula was changed.")`,
        'verdict',
        { name: VERDICT_NAME, mergeTo: 'D3' },
      ),
      label(`A${HEADER_ROW}`, 'Check', 'headerLeft'),
      label(`B${HEADER_ROW}`, 'Found', 'header'),
      label(`C${HEADER_ROW}`, 'Verdict', 'header'),
      label(`D${HEADER_ROW}`, 'What to do', 'headerLeft'),
      label(`${FLAG}${HEADER_ROW}`, 'Flag', 'header'),
      label(`${countLetters(0)}${HEADER_ROW - 1}`, 'Found, tariff by tariff', 'hint'),
      ...tariffs.map((t) => {
        const name = `${SHEETS.tariffs}!$${tariffLetters(t)}$${TARIFF_ROW.name}`;
        return formula(`${countLetters(t)}${HEADER_ROW}`, `IF(${name}="","–",${name})`, 'header');
      }),
      ...checks.flatMap((check, i) => checkRow(check, FIRST + i)),
      ...ASKED_HEADINGS.map((text, i) =>
        label(`${columnLetters(ASKED_COLUMN + i)}${HEADER_ROW}`, text, 'header'),
      ),
      ...askedFigureCells(),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      { range: `A${FIRST}:D${last}`, formula: `$${FLAG}${FIRST}=1`, style: 'bad' },
      { range: `C${FIRST}:C${last}`, formula: `$C${FIRST}="well"`, style: 'good' },
    ],
  };
}
