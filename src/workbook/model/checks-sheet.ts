import { columnLetters } from '../cell-address.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
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
/** Letters of what a check counts of a tariff, from 0. */
const countLetters = (tariff: number): string => columnLetters(7 + tariff);

function checkRow(check: Check, row: number): Cell[] {
  const { formula: counts, kind, cellName } = check;
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
      kind === 'fault' ? `IF(ISERROR(${found}),1,IF(${found}=0,0,1))` : `IF(ISERROR(${found}),1,0)`,
      'integer',
    ),
    formula(
      `C${row}`,
      kind === 'fault'
        ? `IF(${FLAG}${row}=0,"well","${FAULT}")`
        : `IF(${FLAG}${row}=1,"${FAULT}",IF(${found}=0,"well","note"))`,
      'textCentre',
    ),
    label(`D${row}`, check.advice, 'hintWrap'),
    ...(isByTariff ? counts.map((is, t) => formula(`${countLetters(t)}${row}`, is, 'count')) : []),
  ];
}

/** Every self-test of the workbook with what to do about it. */
export function checksSheet(book: Book): SheetModel {
  const checks = allChecks(book);
  const last = FIRST + checks.length - 1;
  const total = checks.filter((check) => check.kind === 'fault').length;
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
    },
    heights: {
      [HEADER_ROW]: 32,
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
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      { range: `A${FIRST}:D${last}`, formula: `$${FLAG}${FIRST}=1`, style: 'bad' },
      { range: `C${FIRST}:C${last}`, formula: `$C${FIRST}="well"`, style: 'good' },
    ],
  };
}
