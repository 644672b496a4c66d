import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, it } from 'vitest';
import { compileFormula } from '../../src/formula/compile.js';
import { Grid } from '../../src/formula/grid.js';
import { parseFormulaText } from '../../src/formula/parse-text.js';
import { FormulaError, type Value } from '../../src/formula/values.js';
import { describeWithCalc, describeWithGnumeric } from '../engines/availability.js';
import { assertCellsEqual, compareCells } from '../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../engines/gnumeric.js';
import { loadIronCalc } from '../engines/ironcalc.js';
import { recalculateWithCalc } from '../engines/libreoffice.js';

/** What the formulas look at: numbers, a blank, a text, a condition, dates, pairs. */
const CELLS: readonly (readonly [row: number, column: number, value: string | number | boolean])[] = [
  [1, 1, 3],
  [2, 1, 1.005],
  [4, 1, 'peak'],
  [5, 1, -2.5],
  [6, 1, 7],
  [1, 2, 10],
  [2, 2, 20],
  [3, 2, 30],
  [4, 2, 40],
  [5, 2, 55],
  [6, 2, 60],
  [1, 3, 46023],
  [2, 3, 46023.5],
  [3, 3, 46054],
];

/**
 * Every function and operator in use, with blanks, text and errors among the arguments. Programs differ in which error a
 * function gives, so an error is asked about, not compared.
 */
const FORMULAS: readonly string[] = [
  ...['1+2*3-4/8', '-$A$1*2', '2^3', '"a"&1.5&"b"', '$A$3+1', '$A$3&"x"', '$A$3=0', '$A$3=""', '"Peak"=$A$4'],
  ...['1=1', '2<"a"', '$A$1<>3', '$A$4>$A$1', '1/0', '$A$4+1', '$A$4*$A$1'],
  ...['IF($A$1>2,"yes","no")', 'IF($A$3,1,2)', 'IF($A$1>5,1)', 'IFERROR(1/0,"none")', 'IFERROR($A$1,0)'],
  ...['AND($A$1>2,$B$1>5)', 'AND($A$1>2,$B$1>50)', 'OR($A$1>9,$B$1>5)', 'NOT($A$1>9)', 'AND(1,0)'],
  ...['ISNUMBER($A$1)', 'ISNUMBER($A$4)', 'ISNUMBER($A$3)', 'ISTEXT($A$4)', 'ISBLANK($A$3)', 'ISBLANK($A$4)'],
  ...['ISERROR(1/0)', 'ISERROR($A$1)', 'NA()', 'CHOOSE(2,$A$1,$B$1,$C$1)', 'ISERROR(CHOOSE(4,1,2))'],
  ...[
    'SUM($A$1:$A$6)',
    'SUM($A$4)',
    'SUM($A$3)',
    'SUM(1,$A$1:$B$2)',
    'MIN($A$1:$A$6)',
    'MAX($A$1:$A$6)',
    'MAX($A$4)',
  ],
  ...[
    'MIN(3,$A$3)',
    'MAX(0,-5,$A$5)',
    'AVERAGE($A$1:$A$6)',
    'COUNT($A$1:$A$6)',
    'COUNTA($A$1:$A$6)',
    'COUNT($A$1,$A$4)',
  ],
  ...[
    'ABS($A$5)',
    'INT($A$5)',
    'INT(2.7)',
    'MOD($A$5,2)',
    'MOD(7,3)',
    'SQRT(2)',
    'EXP(1)',
    'ROUND(2.675,2)',
    'ROUND(-2.5,0)',
    'ROUND(0.000000001,2)',
    'ROUND(-0.0000004,6)',
    'ROUND(1E22,2)',
  ],
  ...['ROUND($A$2,2)', 'ROUND(1234.5,0)', 'ROUNDUP(2.1,0)', 'ROUNDUP(-2.1,0)', 'ISERROR(SQRT(-1))'],
  ...[
    'SUMIFS($B$1:$B$6,$A$1:$A$6,">0")',
    'SUMIFS($B$1:$B$6,$A$1:$A$6,3)',
    'SUMIFS($B$1:$B$6,$A$1:$A$6,"peak")',
  ],
  ...[
    'SUMIFS($B$1:$B$6,$A$1:$A$6,">-3",$B$1:$B$6,"<50")',
    'SUMIF($A$1:$A$6,"<0")',
    'SUMIF($A$1:$A$6,">0",$B$1:$B$6)',
  ],
  ...['COUNTIFS($A$1:$A$6,"<=3")', 'COUNTIFS($B$1:$B$6,">="&20,$B$1:$B$6,"<>30")', 'COUNTIFS($B$1:$B$6,30)'],
  ...[
    'SUMPRODUCT($A$5:$A$6,$B$5:$B$6)',
    'SUMPRODUCT(($B$1:$B$6>20)*$B$1:$B$6)',
    'SUMPRODUCT($A$1:$A$6,$B$1:$B$6)',
  ],
  ...[
    'SUMPRODUCT(($B$1:$B$6-$A$1)*($B$1:$B$6<50))',
    'SUMPRODUCT(($A$1:$A$6="peak")*1)',
    'SUMPRODUCT(-($B$1:$B$3))',
  ],
  ...[
    'SUMPRODUCT(INDEX($B$1:$B$6,2):INDEX($B$1:$B$6,4),$B$1:$B$3)',
    'SUM(INDEX($B$1:$B$6,2):INDEX($B$1:$B$6,4))',
  ],
  ...[
    'INDEX($B$1:$B$6,3)',
    'INDEX($A$1:$B$6,2,2)',
    'ISERROR(INDEX($B$1:$B$6,9))',
    'ISBLANK(INDEX($A$1:$A$6,3))',
  ],
  ...[
    'MATCH(30,$B$1:$B$6,0)',
    'MATCH(35,$B$1:$B$6,1)',
    'MATCH("PEAK",$A$1:$A$6,0)',
    'MATCH(5,$B$1:$B$6,1)',
    'MATCH(31,$B$1:$B$6,0)',
  ],
  ...['SMALL($B$1:$B$6,2)', 'LARGE($B$1:$B$6,2)', 'SMALL($A$1:$A$6,1)', 'ISERROR(LARGE($A$1:$A$6,9))'],
  ...[
    'UPPER("Mon-fri")',
    'SUBSTITUTE("a b c"," ","")',
    'SEARCH("B","abc")',
    'ISNUMBER(SEARCH("x","abc"))',
    'RIGHT("0"&7,2)',
    'LEFT("abc",2)',
  ],
  ...[
    'LEN("four")',
    'TRIM("  a  b ")',
    'FIXED(1234.567,2)',
    'FIXED(-0.5,0)',
    'FIXED(1234.567,1,TRUE)',
    'FIXED(12.345,2)',
  ],
  ...[
    'DATE(2026,13,1)',
    'YEAR($C$1)',
    'MONTH($C$3)',
    'DAY($C$2)',
    'DATE(YEAR($C$1),MONTH($C$1)+1,1)-$C$1',
    'MOD(INT($C$2)+5,7)',
  ],
  ...[
    'SLOPE($B$1:$B$6,$C$1:$C$6)',
    'INTERCEPT($B$1:$B$3,$C$1:$C$3)',
    'RSQ($B$1:$B$3,$C$1:$C$3)',
    'STEYX($B$1:$B$3,$C$1:$C$3)',
  ],
  ...['DEVSQ($B$1:$B$6)', 'TINV(0.05,10)', 'TINV(0.5,1)', 'TINV(0.05,3)', 'ROW($B$4)'],
];

/** It rounds the binary number, not the decimal text, and turns no sign of a range. */
const BEYOND_IRONCALC = ['ROUND($A$2,2)', 'SUMPRODUCT(-($B$1:$B$3))'];

const SHEET = 'Cells';

/** A workbook of all formulas, each with the value that the language gives. */
async function workbook(formulas: readonly string[] = FORMULAS): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  const sheet = book.addWorksheet(SHEET);
  const grid = new Grid();
  for (const [row, column, value] of CELLS) {
    sheet.getCell(row, column).value = value;
    grid.column(SHEET, column).setValue(row, value);
  }
  formulas.forEach((text, i) => {
    const home = { sheet: SHEET, row: i + 1, column: 5 };
    const value = compileFormula(parseFormulaText(text, home, new Map()), home, grid)(home.row);
    sheet.getCell(home.row, home.column).value = { formula: text, result: stored(value) } as never;
  });
  return new Uint8Array(await book.xlsx.writeBuffer());
}

function stored(value: Value): unknown {
  return value instanceof FormulaError ? { error: value.code } : value;
}

let folder: string;
let path: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'semantics-'));
  path = join(folder, 'semantics.xlsx');
  writeFileSync(path, await workbook());
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describeWithCalc('the language and LibreOffice give the same value for every function in use', () => {
  it('with blanks, text and errors among the arguments', async () => {
    assertCellsEqual(compareCells(path, await recalculateWithCalc(path)), FORMULAS.length);
  });
});

describeWithGnumeric('the language and Gnumeric give the same value for every function in use', () => {
  it('with blanks, text and errors among the arguments', async () => {
    assertCellsEqual(compareCells(path, await recalculateWithGnumeric(path)), FORMULAS.length);
  });
});

describe('the language and IronCalc, which needs no office suite, give the same value for every function that it has', () => {
  it('with blanks, text and errors among the arguments', async () => {
    const bytes = await workbook(FORMULAS.filter((text) => !BEYOND_IRONCALC.includes(text)));
    assertCellsEqual(compareCells(bytes, loadIronCalc(bytes).result()), 100);
  });
});

describe('every function that the language has', () => {
  it('stands among the cases', async () => {
    const { FUNCTIONS } = await import('../../src/formula/functions.js');
    const missing = Object.keys(FUNCTIONS).filter(
      (name) => !FORMULAS.some((text) => text.includes(`${name}(`)),
    );
    if (missing.length > 0) throw new Error(`no case calls ${missing.join(', ')}`);
  });
});
