import ExcelJS from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import type { ArgumentKind, CellScalar } from '../../functions/described-function.js';
import { describedFunctions } from '../../functions/index.js';
import { STYLES, type StyleName } from '../../workbook/look/styles.js';
import { cellName } from '../../workbook/package/cell-reference.js';
import { ZIP_DATE } from '../../workbook/package/zip-date.js';
import { ADDON_CAUTION, ADDON_NAME } from '../shared/addon-names.js';
import { argumentHelp } from '../shared/help-text.js';
import {
  areaReference,
  type ExampleArea,
  type ExampleBlock,
  type HostNames,
  layOutExamples,
} from './lay-out-examples.js';

/** Sheet of the list of functions. */
const LIST_SHEET = 'Functions';
/** Sheet of the examples. */
export const EXAMPLES_SHEET = 'Examples';

const FIRST_LIST_ROW = 7;
const FIRST_EXAMPLE_ROW = 4;
const TOLERANCE = '1E-9';
/** What stands there until a program with the functions has worked it out: before, nobody knows. */
const NOT_TRIED =
  'Not worked out yet: recalculate everything (in Calc Ctrl+Shift+F9, in Excel Ctrl+Alt+F9) with the functions installed.';

const INPUT_STYLES: Record<ArgumentKind, StyleName> = {
  number: 'inputNumber',
  text: 'inputText',
  yesNo: 'inputChoice',
  time: 'inputTime',
  date: 'inputDate',
  dateTime: 'inputDateTime',
};

/**
 * A workbook with a live example of every function: its arguments, units, formula, and the value to expect.
 *
 * @param host how the host writes the functions' names
 * @param advice what to do where a cell shows #NAME? instead of a value
 * @returns bytes of an .xlsx, the same every time; each formula carries the library's value
 */
export async function examplesWorkbook(host: HostNames, advice: string): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  workbook.creator = ADDON_NAME;
  workbook.calcProperties.fullCalcOnLoad = true;
  workbook.created = workbook.modified = new Date(Date.UTC(2026, 0, 1));
  const list = workbook.addWorksheet(LIST_SHEET, {
    views: [{ state: 'frozen', ySplit: FIRST_LIST_ROW - 1 }],
  });
  const examples = workbook.addWorksheet(EXAMPLES_SHEET, { views: [{ state: 'frozen', ySplit: 2 }] });
  const blocks = exampleBlocks(host);
  writeExamples(examples, blocks);
  writeList(list, blocks, advice);
  for (const sheet of [list, examples]) {
    sheet.pageSetup = {
      orientation: 'landscape',
      paperSize: 9,
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: 0,
    };
  }
  // The parts would carry the time of writing.
  return zipSync(unzipSync(new Uint8Array(await workbook.xlsx.writeBuffer())), { level: 9, mtime: ZIP_DATE });
}

/** Where each function's example stands in {@link examplesWorkbook}. */
export function exampleBlocks(host: HostNames): ExampleBlock[] {
  return layOutExamples(describedFunctions, host, FIRST_EXAMPLE_ROW);
}

function writeList(sheet: ExcelJS.Worksheet, blocks: readonly ExampleBlock[], advice: string): void {
  [34, 13, 74, 52, 22, 12].forEach((width, index) => {
    sheet.getColumn(index + 1).width = width;
  });
  const lastRow = FIRST_LIST_ROW + blocks.length - 1;
  put(sheet, 1, 1, ADDON_NAME, 'title');
  put(sheet, 2, 1, ADDON_CAUTION, 'hint');
  const agreeing = `COUNTIF(F${FIRST_LIST_ROW}:F${lastRow},"yes")`;
  const formula = `${agreeing}&" of ${blocks.length} examples give the value to expect."`;
  put(sheet, 3, 1, { formula, result: NOT_TRIED }, 'labelStrong');
  put(sheet, 4, 1, advice, 'hint');
  ['function', 'about', 'what it does', 'arguments', 'gives', 'agrees'].forEach((title, index) => {
    put(sheet, FIRST_LIST_ROW - 1, index + 1, title, 'headerLeft');
  });
  blocks.forEach(({ described, row: target, result, expected }, index) => {
    const row = FIRST_LIST_ROW + index;
    const link = { text: described.cellName, hyperlink: `#'${EXAMPLES_SHEET}'!A${target}` };
    put(sheet, row, 1, link, 'link');
    put(sheet, row, 2, described.category, 'text');
    put(sheet, row, 3, described.summary, 'labelWrap');
    const names = described.arguments.map(({ name, optional }) => (optional ? `[${name}]` : name));
    put(sheet, row, 4, names.join(', '), 'labelWrap');
    put(sheet, row, 5, described.result.unit === 'none' ? 'text' : described.result.unit, 'text');
    put(sheet, row, 6, { formula: agreement(result, expected), result: 'not tried' }, 'textCentre');
    const lines = Math.max(described.summary.length / 88, names.join(', ').length / 60);
    sheet.getRow(row).height = 14 * Math.ceil(lines);
    for (let column = 1; column <= 6; column++) {
      const cell = sheet.getCell(row, column);
      cell.alignment = { ...cell.alignment, vertical: 'top' };
    }
  });
}

/** A formula that compares a live result with the value to expect, whatever either is. */
function agreement(result: ExampleArea, expected: ExampleArea): string {
  const [got, due] = [result, expected].map((area) => `${EXAMPLES_SHEET}!${areaReference(area)}`);
  if (typeof expected.values[0]![0] === 'string') return `IF(IFERROR(EXACT(${got},${due}),FALSE),"yes","NO")`;
  const apart = `SUMPRODUCT(--(ABS(${got}-${due})>${TOLERANCE}*(1+ABS(${due}))))`;
  return `IF(IFERROR(${apart},1)=0,"yes","NO")`;
}

function writeExamples(sheet: ExcelJS.Worksheet, blocks: readonly ExampleBlock[]): void {
  sheet.getColumn(1).width = 34;
  const lastColumn = Math.max(...blocks.map(({ expected }) => expected.column + expected.values[0]!.length));
  for (let column = 2; column < lastColumn; column++) sheet.getColumn(column).width = 17;
  put(sheet, 1, 1, 'A live example of every function', 'title');
  put(sheet, 2, 1, 'Change a framed cell: the result beside it follows.', 'hint');
  for (const block of blocks) writeBlock(sheet, block);
}

function writeBlock(sheet: ExcelJS.Worksheet, block: ExampleBlock): void {
  const { described, row } = block;
  const lastColumn = Math.max(8, block.expected.column + block.expected.values[0]!.length - 1);
  for (let column = 1; column <= lastColumn; column++) put(sheet, row, column, null, 'section');
  put(sheet, row, 1, described.cellName, 'section');
  put(sheet, row, 2, described.summary, 'section');
  const { unit, description } = described.result;
  put(sheet, row + 1, 1, 'gives', 'hint');
  put(
    sheet,
    row + 1,
    2,
    `${unit === 'none' ? '' : `${unit}: `}${description} Source: ${described.source}.`,
    'text',
  );
  described.arguments.forEach((argument, index) => {
    put(sheet, row + 2 + index, 1, `  ${argument.name}`, 'label');
    put(sheet, row + 2 + index, 2, argumentHelp(argument), 'text');
  });
  const headingRow = block.result.row - 1;
  put(sheet, headingRow - 1, 1, 'type', 'hint');
  put(sheet, headingRow - 1, 2, `=${block.typedFormula}`, 'text');
  put(sheet, headingRow, 1, 'example', 'hint');
  block.arguments.forEach((area, index) => {
    if (area === undefined) return;
    const { kind, columns } = described.arguments[index]!;
    writeArea(sheet, area, (column) => INPUT_STYLES[columns?.[column]?.kind ?? kind]);
  });
  writeResult(sheet, block);
  writeArea(sheet, block.expected, () => 'text');
}

function writeArea(sheet: ExcelJS.Worksheet, area: ExampleArea, style: (column: number) => StyleName): void {
  area.headings.forEach((heading, c) => {
    put(sheet, area.row - 1, area.column + c, heading, 'header');
  });
  area.values.forEach((cells, r) => {
    cells.forEach((value, c) => {
      const look = typeof value === 'string' && style(c).startsWith('input') ? 'inputText' : style(c);
      put(sheet, area.row + r, area.column + c, value, look);
    });
  });
}

function writeResult(sheet: ExcelJS.Worksheet, { result, formula, described }: ExampleBlock): void {
  writeArea(sheet, result, () => 'textStrong');
  const first = sheet.getCell(result.row, result.column);
  if (described.result.shape === 'cell') {
    first.value = { formula, result: result.values[0]![0] } as ExcelJS.CellFormulaValue;
    return;
  }
  // The other cells of an array formula keep the values that they have.
  first.value = {
    formula,
    result: result.values[0]![0],
    shareType: 'array',
    ref: arrayReference(result),
  } as unknown as ExcelJS.CellFormulaValue;
}

function arrayReference({ row, column, values }: ExampleArea): string {
  return `${cellName(row, column)}:${cellName(row + values.length - 1, column + values[0]!.length - 1)}`;
}

function put(
  sheet: ExcelJS.Worksheet,
  row: number,
  column: number,
  value: CellScalar | ExcelJS.CellValue,
  style: StyleName,
): void {
  const cell = sheet.getCell(row, column);
  cell.value = value as ExcelJS.CellValue;
  cell.style = STYLES[style];
}
