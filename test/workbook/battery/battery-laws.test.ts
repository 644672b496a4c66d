import { beforeAll, describe, expect, it } from 'vitest';
import type { Column, Line } from '../../../src/workbook/book/terms.js';
import type { Calculated } from '../../../src/workbook/calculate.js';
import { calculateWorkbook } from '../../../src/workbook/calculate-inputs.js';
import {
  type BatterySpan,
  batterySpan,
  type SpanOfTariff,
} from '../../../src/workbook/model/battery/battery-span.js';
import type { Book } from '../../../src/workbook/model/book.js';
import { tariffOf } from '../../../src/workbook/model/period-line.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { filledMonth } from '../template.js';
import { valuesOf } from '../values-of.js';

/** The tariff looked at: its half-hours have import with the battery beside them. */
const LOOKED = 1;
const OTHER = 2;
const LAWS = ['outOfBounds', 'unbalanced', 'unrounded', 'impossible'] as const;
type Law = (typeof LAWS)[number];

let values: WorkbookValues;
let span: BatterySpan;
beforeAll(async () => {
  values = valuesOf(await filledMonth());
  span = batterySpan(values.book);
});

/** What a cell held, and what is typed over its formula. */
interface Overwriting {
  book: Book;
  /** Number in a row of a column, from 0, as it was worked out. */
  was: (column: Column, row: number) => number;
  of: (line: Line) => number;
  overwrite: (column: Column, row: number, value: number) => void;
  /** The first row of a column, from 0, that holds what is asked for. */
  find: (column: Column, is: (value: number, row: number) => boolean) => number;
}

/** Laws that a month breaks on each of the tariffs, after formulas were overwritten with numbers. */
function broken(tariffs: readonly number[], change: (hands: Overwriting) => void): Law[][] {
  const { inputs, book, calculated } = values;
  const again: Calculated = calculateWorkbook(workbookModel(inputs, book), book, inputs);
  const was = (column: Column, row: number): number => calculated.value(column.cell(row)) as number;
  change({
    book,
    was,
    of: (line) => calculated.of(line) as number,
    overwrite: (column, row, value) => again.type(column.cell(row), value),
    find: (column, is) => {
      const row = calculated.numbers(column).findIndex(is);
      if (row < 0) throw new Error(`no row of "${column.text.label}" will do`);
      return row;
    },
  });
  return tariffs.map((t) => LAWS.filter((law) => again.of((span.tariffs[t] as SpanOfTariff)[law]) === 1));
}

/** Laws that hold on a tariff, whether or not it is looked at. */
const BREAKS: [name: string, change: (hands: Overwriting, tariff: number) => void, laws: Law[]][] = [
  [
    'a level above the capacity',
    ({ book, overwrite }, t) => overwrite(tariffOf(book, t).level, 99, 50),
    ['outOfBounds', 'unbalanced'],
  ],
  [
    'a level below nothing',
    ({ book, overwrite }, t) => overwrite(tariffOf(book, t).level, 99, -1),
    ['outOfBounds', 'unbalanced'],
  ],
  [
    'a day that took what never reached the level',
    ({ book, overwrite, was }, t) => {
      const { chargedKwh } = tariffOf(book, t).battery;
      overwrite(chargedKwh, 12, was(chargedKwh, 12) + 1);
    },
    ['unbalanced'],
  ],
  [
    'a level within its bounds that no half-hour can reach from the one before',
    ({ book, overwrite, was, of, find }, t) => {
      const { level } = tariffOf(book, t);
      const step = of(book.workings.battery.chargeStepKwh);
      const { usableKwh } = book.workings.battery;
      const row = find(level, (_, i) => i > 100 && was(level, i - 1) + 1.5 * step < of(usableKwh));
      overwrite(level, row, was(level, row - 1) + 1.2 * step);
    },
    ['unbalanced'],
  ],
  [
    'a level that falls by more than the home takes',
    ({ book, overwrite, was, find }, t) => {
      const { level } = tariffOf(book, t);
      const { storeChangeKwh, readingRow } = book.workings.halfHours;
      const row = find(
        storeChangeKwh,
        (change, i) => i > 100 && was(readingRow, i) > 0 && change < -0.05 && was(level, i - 1) > 1,
      );
      overwrite(level, row, was(level, row - 1) + was(storeChangeKwh, row) - 0.5);
    },
    ['unbalanced'],
  ],
  [
    'a month that costs more than its half-hours',
    ({ book, overwrite, was, find }, t) => {
      const { energy } = tariffOf(book, t).batteryMonths;
      const month = find(energy, (pounds) => pounds !== 0);
      overwrite(energy, month, was(energy, month) + 1);
    },
    ['unrounded'],
  ],
  [
    'a day that buys more than it takes',
    ({ book, overwrite, was, find }, t) => {
      const { boughtKwh, chargedKwh } = tariffOf(book, t).battery;
      const day = find(boughtKwh, (kwh) => kwh > 1);
      overwrite(boughtKwh, day, was(chargedKwh, day) + 0.1);
    },
    ['impossible'],
  ],
];

describe('the laws of the battery', () => {
  it('hold in a filled month, with the tariff looked at', () => {
    expect(values.calculated.of(values.book.workings.looked)).toBe(LOOKED + 1);
    const tariffs = span.tariffs.map((_, t) => t);
    expect(broken(tariffs, () => {})).toEqual(tariffs.map(() => []));
  });

  it.each(BREAKS)('are broken by %s', (_, change, laws) => {
    const [ofOther, ...others] = broken([OTHER, 0, 3], (hands) => change(hands, OTHER));
    expect(ofOther).toEqual(laws);
    expect(others).toEqual([[], []]);
    const [ofLooked] = broken([LOOKED], (hands) => change(hands, LOOKED));
    expect(ofLooked).toEqual(expect.arrayContaining(laws));
  });

  it.each<[string, (hands: Overwriting) => void]>([
    [
      'import that does not fall where the battery gives',
      ({ book, overwrite, find }) => {
        const { importChangeKwh } = book.workings.realCost;
        overwrite(
          importChangeKwh,
          find(importChangeKwh, (kwh) => kwh < -0.1),
          0,
        );
      },
    ],
    [
      'import that does not rise where the battery takes',
      ({ book, overwrite, find }) => {
        const { importChangeKwh } = book.workings.realCost;
        overwrite(
          importChangeKwh,
          find(importChangeKwh, (kwh) => kwh > 1),
          0,
        );
      },
    ],
  ])('are broken, on the tariff looked at, by %s', (_, change) => {
    expect(broken([LOOKED, OTHER], change)).toEqual([['unrounded', 'impossible'], []]);
  });
});
