import { readFileSync } from 'node:fs';
import type { Style } from 'exceljs';
import { describe, expect, it } from 'vitest';
import { PATHS } from '../../src/cli/paths.js';
import { saysNothing } from '../../src/formula/empty-text.js';
import { namedFormulas } from '../../src/workbook/calculate.js';
import { parseStartingInputs } from '../../src/workbook/inputs/parse-starting-inputs.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { STYLES, type StyleName } from '../../src/workbook/look/styles.js';
import { cellFormula, columnFormula, isSharedColumn } from '../../src/workbook/model/column-text.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { comparableFormula } from '../../src/workbook/package/index.js';

const model = workbookModel(
  parseStartingInputs(readFileSync(PATHS.startingInputs, 'utf8'), PATHS.startingInputs),
);

const formulas = model.flatMap((sheet) => [
  ...sheet.cells.flatMap((cell) =>
    cell.kind === 'formula'
      ? [{ place: `${sheet.name}!${cell.at}`, text: cellFormula(sheet.name, cell) }]
      : [],
  ),
  // Of the last row, whose numbers are the longest.
  ...sheet.formulaColumns.map((column) => ({
    place: `${sheet.name}!${column.letters}`,
    text: columnFormula(sheet.name, column, column.firstRow + column.rows - 1),
  })),
]);

/** What names stand for: parts of formulas, and formulas of long columns. */
const named = [...namedFormulas(model)].map(([name, text]) => ({ place: name, text }));

/** The formula without its texts, in which anything may stand. */
const bare = (text: string): string =>
  text.replace(/"(?:[^"]|"")*"/g, '""').replace(/'(?:[^']|'')*'!/g, 'S!');

/**
 * Functions that every spreadsheet program has: OpenFormula's Medium group (OASIS, Open Document Format 1.2 part 2,
 * 2.3.3; from memory), IFERROR, SUMIFS and COUNTIFS.
 */
const PORTABLE = new Set(
  (
    'ABS AND AVERAGE CHOOSE COUNT COUNTA COUNTIF COUNTIFS DATE DAY EXP FIXED IF IFERROR INDEX INT INTERCEPT ISBLANK ISERROR ' +
    'ISNUMBER ISTEXT LARGE LEFT LEN LN LOG10 LOOKUP MATCH MAX MID MIN MOD MONTH NA NOT OR POWER RIGHT ROUND ROUNDDOWN ROUNDUP ' +
    'ROW RSQ SEARCH SLOPE SMALL SQRT STEYX SUBSTITUTE SUM SUMIF SUMIFS SUMPRODUCT SUMSQ TINV TRIM UPPER VALUE YEAR DEVSQ'
  ).split(' '),
);

describe('every formula of the workbook', () => {
  it('can be read at a glance: no more than 300 characters in any row, and so what is named for it', () => {
    expect(named.length).toBeGreaterThan(100);
    expect([...formulas, ...named].filter(({ text }) => text.length > 300)).toEqual([]);
  });

  it('has no fraction in the text of a criterion: a program that writes a decimal comma reads none there', () => {
    const hasFraction = (text: string): boolean =>
      (text.match(/"(?:[^"]|"")*"/g) ?? []).some((inner) => /^"[<>=]+-?\d*\.\d/.test(inner));
    expect(hasFraction('IF(level=0,"",COUNTIFS(stays_kWh,">0.001"))')).toBe(true);
    expect([...formulas, ...named].filter(({ text }) => hasFraction(text))).toEqual([]);
  });

  it('is within what spreadsheet programs hold: 8,192 characters, 64 levels', () => {
    const depth = (text: string): number => {
      let level = 0;
      let deepest = 0;
      for (const character of bare(text)) {
        if (character === '(') deepest = Math.max(deepest, ++level);
        if (character === ')') level--;
      }
      return deepest;
    };
    const tooMuch = [...formulas, ...named].filter(({ text }) => text.length > 8192 || depth(text) > 64);
    expect(tooMuch.map(({ place }) => place)).toEqual([]);
  });

  it('says the sheet beside every cell that a name looks at', () => {
    // [MS-XLSB] 2.5.98.12 NameParsedFormula: no reference without a sheet.
    const cell = /(?<![!:$\w'.])\$?[A-Z]{1,3}\$?\d+(?![\w(])/;
    expect(cell.test('SUM(Days!$D1)+COUNTIFS($D$8:$D1,">0")')).toBe(true);
    expect(named.filter(({ text }) => cell.test(bare(text)))).toEqual([]);
  });

  it('of a column that shows a name is said above its heading', () => {
    for (const { name, formulaColumns, cells } of model) {
      const said = new Set(cells.flatMap(({ at, kind }) => (kind === 'label' ? [at] : [])));
      const shown = formulaColumns.filter((column) =>
        /^[a-z_\d]+$/i.test(columnFormula(name, column, column.firstRow)),
      );
      const unsaid = shown.filter(({ letters, rows }) => rows > 48 && !said.has(`${letters}4`));
      expect(unsaid.map(({ label }) => `${name}: ${label}`)).toEqual([]);
    }
  });

  it('uses portable functions only, none of them volatile', () => {
    const used = new Map<string, string>();
    for (const { place, text } of [...formulas, ...named]) {
      for (const [, name] of bare(text).matchAll(/([A-Z][A-Z0-9.]*)\(/g)) used.set(name!, place);
    }
    expect([...used].filter(([name]) => !PORTABLE.has(name))).toEqual([]);
  });

  it('keeps clear of what single programs can not do', () => {
    const wrong = [...formulas, ...named].filter(
      ({ text }) => /(?<![A-Z])N\(/.test(bare(text)) || /\{|\}|@|#REF/.test(bare(text)),
    );
    expect(wrong.map(({ place }) => place)).toEqual([]);
  });

  it('is the same all the way down a column that shares it, and shares nothing that the format forbids to share', () => {
    for (const { formulaColumns, name } of model) {
      for (const column of formulaColumns) {
        const text = (row: number): string => columnFormula(name, column, row);
        if (!isSharedColumn(name, column)) continue;
        const at = (row: number): string => comparableFormula(text(row), `${column.letters}${row}`);
        const rows = [column.firstRow, column.firstRow + 1, column.firstRow + column.rows - 1];
        expect(new Set(rows.map(at)).size, `${name}!${column.letters}`).toBe(1);
      }
    }
  });

  it('of a column of half-hours, days, weeks or runs is shared or a name, where it always gives a value', () => {
    // Fewer than those of a week of runs: written out, they weigh nothing.
    const MANY_ROWS = 48;
    const written = [SHEETS.halfHours, SHEETS.days, SHEETS.months, SHEETS.rateGrid].flatMap((name) => {
      const columns = model.find((sheet) => sheet.name === name)?.formulaColumns ?? [];
      expect(columns.length, name).toBeGreaterThan(20);
      return columns
        .filter(({ rows }) => rows > MANY_ROWS)
        .filter(({ formula }) => typeof formula === 'function' || !saysNothing(formula))
        .filter((column) => !isSharedColumn(name, column))
        .filter((column) => !/^\w+$/.test(columnFormula(name, column, column.firstRow)))
        .map(({ label }) => label);
    });
    expect(written).toEqual([]);
  });
});

describe('every input of the workbook', () => {
  const inputs = model
    .filter((sheet) => sheet.tab !== 'workings')
    .flatMap((sheet) =>
      sheet.cells.flatMap((cell) =>
        cell.kind === 'input' ? [{ place: `${sheet.name}!${cell.at}`, ...cell }] : [],
      ),
    );

  it('looks like an input and has a message that helps', () => {
    const isOpen = (style: StyleName): boolean => {
      const look: Partial<Style> = STYLES[style];
      return look.protection?.locked === false;
    };
    // A cell that the fill writes is locked and looks like a figure.
    const wrong = inputs.filter(
      ({ style, rule }) =>
        style.startsWith('input') !== isOpen(style) || (isOpen(style) && rule === undefined),
    );
    expect(wrong.map(({ place }) => place)).toEqual([]);
  });

  it('has a message that spreadsheet programs hold: a title of 32, a text of 255 characters', () => {
    const long = inputs.filter(
      ({ rule }) => (rule?.title.length ?? 0) > 32 || (rule?.message.length ?? 0) > 255,
    );
    expect(long.map(({ place }) => place)).toEqual([]);
  });
});

describe('every column of the workbook', () => {
  it('says its unit, unless it holds words', () => {
    const silent = model.flatMap(({ name, formulaColumns }) =>
      formulaColumns
        .filter(({ unit, style }) => unit.trim() === '' && !/^(text|label|hint)/.test(style))
        .map(({ letters }) => `${name}!${letters}`),
    );
    expect(silent).toEqual([]);
  });
});
