import type ExcelJS from 'exceljs';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import type { Cell, FormulaColumn, FormulaValue, InputRule, SheetModel } from '../model/sheet-model.js';
import { CellError } from '../package/index.js';
import { COLOURS, STYLES, type StyleName } from './styles.js';

const TABS = {
  answer: COLOURS.result,
  input: COLOURS.inputEdge,
  workings: COLOURS.quietInk,
  notes: 'FFBFC7CF',
} as const;

/** Points; a title needs more than the usual row. */
const TITLE_HEIGHT = 30;

/** Columns longer than this are written as one row here; the rest is added to the package afterwards. */
export const LONG_COLUMN_ROWS = 1000;

/** Whether a column is too long for one cell at a time. */
export function isLong(column: FormulaColumn): boolean {
  return column.rows > LONG_COLUMN_ROWS;
}

/** Writes one sheet of the model into a workbook that exceljs builds. */
export function writeSheet(workbook: ExcelJS.Workbook, model: SheetModel, results: WorkbookResults): void {
  const sheet = workbook.addWorksheet(model.name, {
    properties: { tabColor: { argb: TABS[model.tab] } },
    views: [
      {
        showGridLines: false,
        ...(model.freeze === undefined
          ? {}
          : { state: 'frozen', xSplit: model.freeze.columns, ySplit: model.freeze.rows }),
      } as ExcelJS.WorksheetView,
    ],
    pageSetup: {
      paperSize: 9,
      orientation: model.landscape ? 'landscape' : 'portrait',
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: 0,
      ...(model.printArea === undefined ? {} : { printArea: model.printArea }),
      ...(model.printTitleRows === undefined ? {} : { printTitlesRow: model.printTitleRows }),
    },
  });
  for (const [letters, width] of Object.entries(model.widths)) sheet.getColumn(letters).width = width;
  for (const column of model.inputColumns) sheet.getColumn(column.letters).style = styleOf(column.style);
  sheet.getRow(1).height = TITLE_HEIGHT;
  for (const [row, height] of Object.entries(model.heights ?? {})) sheet.getRow(Number(row)).height = height;
  for (const cell of model.cells) writeCell(workbook, sheet, cell, results);
  for (const column of model.formulaColumns) writeColumn(sheet, column, results);
  for (const { range, formula, style } of model.conditional) {
    sheet.addConditionalFormatting({
      ref: range,
      rules: [{ type: 'expression', priority: 1, formulae: [formula], style: CONDITIONAL[style] }],
    });
  }
  if (model.protected) {
    // Without a password: it guards against slips, and nobody is locked out.
    (sheet as unknown as { sheetProtection: object }).sheetProtection = {
      sheet: true,
      objects: false,
      scenarios: false,
      selectLockedCells: true,
      selectUnlockedCells: true,
      formatCells: true,
      formatColumns: true,
      formatRows: true,
    };
  }
}

function styleOf(name: StyleName): Partial<ExcelJS.Style> {
  return STYLES[name] as Partial<ExcelJS.Style>;
}

function writeCell(
  workbook: ExcelJS.Workbook,
  sheet: ExcelJS.Worksheet,
  cell: Cell,
  results: WorkbookResults,
): void {
  const target = sheet.getCell(cell.at);
  if (cell.kind === 'formula') target.value = formulaValue(cell.formula, cell.value(results));
  else if (cell.kind === 'label' && cell.link !== undefined) {
    target.value = { text: String(cell.value), hyperlink: `#${cell.link}` };
  } else target.value = cell.value;
  target.style = styleOf(cell.style);
  if (cell.kind === 'input') {
    if (cell.rule !== undefined) target.dataValidation = validationOf(cell.rule, cell.at);
    if (cell.comment !== undefined) target.note = cell.comment;
  }
  if ('mergeTo' in cell && cell.mergeTo !== undefined) sheet.mergeCells(`${cell.at}:${cell.mergeTo}`);
  if ('name' in cell && cell.name !== undefined) {
    workbook.definedNames.add(`'${sheet.name}'!$${cell.at.replace(/(\d+)/, '$$$1')}`, cell.name);
  }
}

function writeColumn(sheet: ExcelJS.Worksheet, column: FormulaColumn, results: WorkbookResults): void {
  const values = column.values(results);
  const rows = isLong(column) ? 1 : column.rows;
  const first = `${column.letters}${column.firstRow}`;
  for (let i = 0; i < rows; i++) {
    const target = sheet.getCell(`${column.letters}${column.firstRow + i}`);
    const value = values[i] as FormulaValue;
    if (i === 0) {
      const shared = { shareType: 'shared', ref: `${first}:${column.letters}${column.firstRow + rows - 1}` };
      target.value = {
        ...formulaValue(column.formula(column.firstRow), value),
        ...(rows === 1 ? {} : shared),
      } as never;
    } else target.value = { sharedFormula: first, result: resultOf(value) } as never;
    target.style = styleOf(column.style);
  }
}

function formulaValue(formula: string, value: FormulaValue): ExcelJS.CellFormulaValue {
  return { formula, result: resultOf(value) } as ExcelJS.CellFormulaValue;
}

function resultOf(value: FormulaValue): ExcelJS.CellFormulaValue['result'] {
  if (value instanceof CellError) return { error: value.code } as ExcelJS.CellErrorValue;
  return value ?? '';
}

function validationOf(rule: InputRule, at: string): ExcelJS.DataValidation {
  const told = {
    allowBlank: true,
    showInputMessage: true,
    promptTitle: rule.title,
    prompt: rule.message,
    showErrorMessage: true,
    errorStyle: 'stop',
    errorTitle: rule.title,
    error: rule.message,
  };
  const between = { operator: 'between', formulae: [rule.minimum ?? 0, rule.maximum ?? 0] };
  switch (rule.kind) {
    case 'list': {
      const choices = typeof rule.choices === 'string' ? rule.choices : `"${(rule.choices ?? []).join(',')}"`;
      return { ...told, type: 'list', formulae: [choices] } as ExcelJS.DataValidation;
    }
    case 'time': {
      // Times move in steps of half an hour.
      const onHalfHour = `AND(ISNUMBER(${at}),${at}>=0,${at}<=1,ABS(${at}*48-ROUND(${at}*48,0))<0.001)`;
      return { ...told, type: 'custom', formulae: [onHalfHour] } as ExcelJS.DataValidation;
    }
    case 'number':
      return { ...told, type: 'decimal', ...between } as ExcelJS.DataValidation;
    case 'date':
      return { ...told, type: 'date', ...between } as unknown as ExcelJS.DataValidation;
    default:
      return {
        ...told,
        showErrorMessage: false,
        type: 'custom',
        formulae: ['TRUE'],
      } as ExcelJS.DataValidation;
  }
}

const fill = (argb: string): ExcelJS.Fill => ({ type: 'pattern', pattern: 'solid', bgColor: { argb } });
const CONDITIONAL: Record<SheetModel['conditional'][number]['style'], Partial<ExcelJS.Style>> = {
  bad: { fill: fill(COLOURS.bad), font: { color: { argb: COLOURS.badInk } } },
  good: { fill: fill(COLOURS.good) },
  quiet: { font: { color: { argb: COLOURS.quietInk } } },
  best: { fill: fill(COLOURS.best) },
};
