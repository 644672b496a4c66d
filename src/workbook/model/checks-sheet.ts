import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { SHEETS } from '../layout.js';
import { formula, label } from './cells.js';
import { allChecks, type Check } from './checks.js';
import { sheetTop } from './column-headers.js';
import type { Cell, SheetModel } from './sheet-model.js';

const HEADER_ROW = 5;
const FIRST = HEADER_ROW + 1;
/** Cell with the verdict in words. */
export const VERDICT_CELL = `${SHEETS.checks}!$A$3`;
const FAULT = 'look';

function faults(results: WorkbookResults, checks: readonly Check[]): Check[] {
  return checks.filter((check) => check.kind === 'fault' && check.count(results) > 0);
}

/** The verdict of all checks in one line. */
export function verdictOf(results: WorkbookResults): string {
  const checks = allChecks();
  const found = faults(results, checks);
  const total = checks.filter((check) => check.kind === 'fault').length;
  if (found.length === 0) return `All ${total} checks are well.`;
  return `${found.length} of ${total} checks ask for a look, first: ${found[0]!.name}.`;
}

/** Every self-test of the workbook with what to do about it. */
export function checksSheet(): SheetModel {
  const checks = allChecks();
  const last = FIRST + checks.length - 1;
  const total = checks.filter((check) => check.kind === 'fault').length;
  const verdicts = `$C$${FIRST}:$C$${last}`;
  const rows: Cell[] = checks.flatMap((check, i) => {
    const row = FIRST + i;
    return [
      label(`A${row}`, check.name, 'labelWrap'),
      formula(`B${row}`, check.formula, check.count, 'count'),
      formula(
        `C${row}`,
        `IF(B${row}=0,"well","${check.kind === 'fault' ? FAULT : 'note'}")`,
        (r) => (check.count(r) === 0 ? 'well' : check.kind === 'fault' ? FAULT : 'note'),
        'textCentre',
      ),
      label(`D${row}`, check.advice, 'hintWrap'),
    ];
  });
  return {
    name: SHEETS.checks,
    tab: 'answer',
    widths: { A: 56, B: 9, C: 9, D: 84 },
    freeze: { columns: 0, rows: HEADER_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${HEADER_ROW}:${HEADER_ROW}`,
    cells: [
      ...sheetTop('Checks', 'What the workbook tests about itself. Zero is well.'),
      formula(
        'A3',
        `IF(COUNTIFS(${verdicts},"${FAULT}")=0,"All ${total} checks are well.",COUNTIFS(${verdicts},"${FAULT}")&" of ${total} checks ask for a look, first: "&INDEX($A$${FIRST}:$A$${last},MATCH("${FAULT}",${verdicts},0))&".")`,
        verdictOf,
        'verdict',
        { name: 'checks_verdict', mergeTo: 'D3' },
      ),
      label(`A${HEADER_ROW}`, 'Check', 'headerLeft'),
      label(`B${HEADER_ROW}`, 'Found', 'header'),
      label(`C${HEADER_ROW}`, 'Verdict', 'header'),
      label(`D${HEADER_ROW}`, 'What to do', 'headerLeft'),
      ...rows,
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      { range: `A${FIRST}:D${last}`, formula: `$C${FIRST}="${FAULT}"`, style: 'bad' },
      { range: `C${FIRST}:C${last}`, formula: `$C${FIRST}="well"`, style: 'good' },
    ],
  };
}
