import type { Style } from 'exceljs';
import { describe, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { PATHS } from '../../src/cli/paths.js';
import { parseCell } from '../../src/workbook/cell-address.js';
import { BILL_FIELDS } from '../../src/workbook/fields/bill-fields.js';
import { clearTariff } from '../../src/workbook/fill/clear-tariff.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { readInputs, shapeOfWorkbook } from '../../src/workbook/inputs/read-inputs.js';
import { SHEETS, TARIFF_COUNT } from '../../src/workbook/layout.js';
import { STYLES } from '../../src/workbook/look/styles.js';
import {
  clearName,
  TARIFF_ROW,
  TODAYS_TARIFF_CELL,
  tariffLetters,
} from '../../src/workbook/model/tariff-rows.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { keptFile, sourceKey } from './kept-file.js';
import { withTyped } from './sample-workbooks.js';
import { NOW, october } from './template.js';
import { valuesOf } from './values-of.js';

const FILE = 'home.xlsx';
/** Of the sample's tariffs, that of the third column. */
const PLACE = 2;
const NAME = 'Heat pump hours';

/** The sample home's tariffs and an October, in a workbook of two months for speed. */
const filled = (): Promise<Uint8Array> =>
  keptFile('short-month.xlsx', sourceKey(), async () => {
    const workbook = await buildTemplate(PATHS.sampleInputs, 62);
    return fillWorkbook(workbook, FILE, october(), { now: NOW }).bytes;
  });

/** Empties all that a defined name selects, as the Delete key does. */
function emptied(bytes: Uint8Array, name: string): Uint8Array {
  const workbook = openWorkbookPackage(bytes, FILE);
  const areas = (workbook.definedName(name) ?? '').split(',').map((area) => area.split('!'));
  for (const [sheet = '', range = ''] of areas) {
    const [from = '', to = from] = range.replaceAll('$', '').split(':');
    const [first, last] = [parseCell(from), parseCell(to)];
    expect(first.column).toBe(last.column);
    workbook.editSheet(sheet, {
      inputs: [
        {
          column: first.column,
          firstRow: first.row,
          values: Array.from({ length: last.row - first.row + 1 }, () => null),
        },
      ],
    });
  }
  return workbook.toBytes();
}

/** Every cell of every sheet that shows a text with this name in it. */
function placesOf(name: string, { inputs, book, calculated }: WorkbookValues): string[] {
  return workbookModel(inputs, book).flatMap(({ name: sheet, cells }) =>
    cells
      .filter(({ at }) => String(calculated.at(sheet, at)).includes(name))
      .map(({ at }) => `${sheet}!${at}`),
  );
}

/** Checks that aren't well, by name. */
function notWell({ inputs, book, calculated }: WorkbookValues): string[] {
  const { cells = [] } = workbookModel(inputs, book).find(({ name }) => name === SHEETS.checks) ?? {};
  return cells
    .filter(({ at }) => /^C\d+$/.test(at) && calculated.at(SHEETS.checks, at) === 'look')
    .map(({ at }) => String(calculated.at(SHEETS.checks, at.replace('C', 'A'))));
}

describe('a tariff is cleared in one go', () => {
  it('by a name for every column that selects all its inputs, and no cell that the protection guards', async () => {
    const workbook = openWorkbookPackage(await filled(), FILE);
    const { inputs, book } = valuesOf(await filled());
    const { cells = [] } = workbookModel(inputs, book).find(({ name }) => name === SHEETS.tariffs) ?? {};
    const isOpen = (style: keyof typeof STYLES): boolean =>
      (STYLES[style] as Partial<Style>).protection?.locked === false;
    for (let t = 0; t < TARIFF_COUNT; t++) {
      const open = cells
        .filter(({ at, style }) => new RegExp(`^${tariffLetters(t)}\\d+$`).test(at) && isOpen(style))
        .map(({ at }) => at)
        // The cell with the name of today's tariff stands above the first column, and is none of its inputs.
        .filter((at) => parseCell(at).row >= TARIFF_ROW.name);
      const selected = (workbook.definedName(clearName(t)) ?? '').split(',').flatMap((area) => {
        const [from = '', to = from] = area
          .replace(/^Tariffs!/, '')
          .replaceAll('$', '')
          .split(':');
        const [first, last] = [parseCell(from).row, parseCell(to).row];
        return Array.from({ length: last - first + 1 }, (_, i) => `${tariffLetters(t)}${first + i}`);
      });
      expect(selected.sort(), clearName(t)).toEqual(open.sort());
      expect(selected.length).toBeGreaterThan(50);
    }
  });

  it('then it is gone from answer, ranks, charts and checks, and the others keep their totals', async () => {
    const before = valuesOf(await filled());
    expect(placesOf(NAME, before).length).toBeGreaterThan(4);
    const { values, altered } = fillWorkbook(emptied(await filled(), clearName(PLACE)), FILE, undefined, {
      now: NOW,
    });
    expect(altered).toEqual([]);
    expect(placesOf(NAME, values)).toEqual([]);
    expect(notWell(values)).toEqual(notWell(before));
    const ofRow = ({ calculated }: WorkbookValues, row: number): unknown[] =>
      Array.from({ length: TARIFF_COUNT }, (_, t) =>
        calculated.at(SHEETS.tariffs, `${tariffLetters(t)}${row}`),
      );
    expect(ofRow(values, TARIFF_ROW.total)).toEqual(
      ofRow(before, TARIFF_ROW.total).map((total, t) => (t === PLACE ? '' : total)),
    );
    const ranks = ofRow(values, TARIFF_ROW.rank);
    expect(ranks[PLACE]).toBe('');
    expect(ranks.filter((rank) => rank !== '').sort()).toEqual([1, 2, 3, 4, 5]);
  });

  it('or by the fill, which empties the same cells', async () => {
    const inputsOf = (bytes: Uint8Array) => {
      const workbook = openWorkbookPackage(bytes, FILE);
      return readInputs(workbook, shapeOfWorkbook(workbook));
    };
    const byFill = inputsOf(clearTariff(await filled(), FILE, NAME.toUpperCase()));
    expect(byFill).toEqual(inputsOf(emptied(await filled(), clearName(PLACE))));
    expect(byFill.tariffs[PLACE]?.name).toBeNull();
  });

  it('not where a bill names it, which is said before anything is emptied', async () => {
    const first = BILL_FIELDS[0]!.tariff.at;
    const other = withTyped(await filled(), [
      { sheet: SHEETS.tariffs, cell: TODAYS_TARIFF_CELL, value: 'Single rate' },
    ]);
    expect(() => clearTariff(other, FILE, 'TWO-rate night')).toThrow(
      `home.xlsx, Bills!${first}: "TWO-rate night" is the tariff of a bill. Clear that row of Bills, or name another tariff in it, first.`,
    );
  });

  it('not where it is today’s, with which the others are compared, nor where there is none of the name', async () => {
    const bytes = await filled();
    expect(() => clearTariff(bytes, FILE, 'two-rate night')).toThrow(
      'home.xlsx, Tariffs!C3: "two-rate night" is today\'s tariff, with which the others are compared. Choose another as today\'s first.',
    );
    expect(() => clearTariff(bytes, FILE, 'Moonlight')).toThrow(
      'home.xlsx, Tariffs: no tariff is called "Moonlight". Give one of: Single rate, Two-rate night, Heat pump hours,',
    );
  });
});
