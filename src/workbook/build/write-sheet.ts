import type ExcelJS from 'exceljs';
import type { Calculated } from '../calculate.js';
import { columnNumber } from '../cell-address.js';
import { COLOURS, SCALE_ENDS, STYLES, type StyleName } from '../look/styles.js';
import { cellFormula, columnFormula, isSharedColumn } from '../model/column-text.js';
import type { Cell, FormulaColumn, FormulaValue, InputRule, SheetModel } from '../model/sheet-model.js';
import { CellError } from '../package/index.js';
import { hasLongColumns } from './extend-columns.js';

const TABS = {
  answer: COLOURS.result,
  input: COLOURS.inputEdge,
  workings: COLOURS.quietInk,
  notes: 'FFBFC7CF',
} as const;

/** Points; a title needs more than the usual row. */
const TITLE_HEIGHT = 30;

/** Sheet and page, on every page. */
const FOOTER = '&L&A&RPage &P of &N';

/** The builder puts a dollar before the column alone; of a print area that moves, LibreOffice prints nothing. */
const absoluteRows = (range: string): string => range.replaceAll(/\d+/g, '$$$&');

/** Writes one sheet of the model into a workbook that exceljs builds. */
export function writeSheet(workbook: ExcelJS.Workbook, model: SheetModel, calculated: Calculated): void {
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
      ...(model.printArea === undefined ? {} : { printArea: absoluteRows(model.printArea) }),
      ...(model.printTitleRows === undefined ? {} : { printTitlesRow: model.printTitleRows }),
    },
    headerFooter: { oddFooter: FOOTER },
  });
  for (const [letters, width] of Object.entries(model.widths)) sheet.getColumn(letters).width = width;
  for (const column of model.inputColumns) sheet.getColumn(column.letters).style = styleOf(column.style);
  sheet.getRow(1).height = TITLE_HEIGHT;
  for (const [row, height] of Object.entries(model.heights ?? {})) sheet.getRow(Number(row)).height = height;
  for (const cell of model.cells) writeCell(sheet, cell, calculated);
  // Of a sheet with long columns only first cells are written here; the rest is added to the package afterwards.
  const isLong = hasLongColumns(model);
  for (const column of model.formulaColumns) {
    writeColumn(sheet, isLong ? { ...column, rows: 1 } : column, calculated);
  }
  for (const column of model.valueColumns ?? []) {
    const rows = isLong ? 1 : column.values.length;
    for (let i = 0; i < rows; i++) {
      const target = sheet.getCell(`${column.letters}${column.firstRow + i}`);
      target.value = column.values[i] ?? null;
      target.style = styleOf(column.style);
    }
  }
  for (const { range, formula, style } of model.conditional) {
    sheet.addConditionalFormatting({
      ref: range,
      rules: [{ type: 'expression', priority: 1, formulae: [formula], style: CONDITIONAL[style] }],
    });
  }
  for (const { range, most } of model.colourScales ?? []) {
    sheet.addConditionalFormatting({
      ref: range,
      rules: [
        {
          type: 'colorScale',
          priority: 1,
          cfvo: [{ type: 'min' }, { type: 'max' }],
          color: [{ argb: COLOURS.paper }, { argb: SCALE_ENDS[most] }],
        },
      ],
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

function writeCell(sheet: ExcelJS.Worksheet, cell: Cell, calculated: Calculated): void {
  const target = sheet.getCell(cell.at);
  if (cell.kind === 'formula') {
    target.value = formulaValue(cellFormula(sheet.name, cell), calculated.at(sheet.name, cell.at));
  } else if (cell.kind === 'label' && cell.link !== undefined) {
    target.value = { text: String(cell.value), hyperlink: `#${cell.link}` };
  } else target.value = cell.value;
  target.style = styleOf(cell.style);
  if (cell.kind === 'input') {
    if (cell.rule !== undefined) target.dataValidation = validationOf(cell.rule);
    if (cell.comment !== undefined) target.note = cell.comment;
  }
  if ('mergeTo' in cell && cell.mergeTo !== undefined) sheet.mergeCells(`${cell.at}:${cell.mergeTo}`);
}

function writeColumn(sheet: ExcelJS.Worksheet, column: FormulaColumn, calculated: Calculated): void {
  const { letters, firstRow, rows } = column;
  const number = columnNumber(letters);
  const first = `${letters}${firstRow}`;
  const isShared = isSharedColumn(sheet.name, column);
  for (let row = firstRow; row < firstRow + rows; row++) {
    const target = sheet.getCell(`${letters}${row}`);
    const value = calculated.value({ sheet: sheet.name, row, column: number });
    if (isShared && row > firstRow) target.value = { sharedFormula: first, result: resultOf(value) } as never;
    else {
      const shared = { shareType: 'shared', ref: `${first}:${letters}${firstRow + rows - 1}` };
      target.value = {
        ...formulaValue(columnFormula(sheet.name, column, row), value),
        ...(isShared ? shared : {}),
      } as never;
    }
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

function validationOf(rule: InputRule): ExcelJS.DataValidation {
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
    case 'formula':
      return { ...told, type: 'custom', formulae: [rule.formula ?? 'TRUE'] } as ExcelJS.DataValidation;
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
