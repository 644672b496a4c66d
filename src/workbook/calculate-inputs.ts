import { CHANNELS } from '../readings/channels.js';
import { type Calculated, calculate, type TypedColumn } from './calculate.js';
import { columnNumber } from './cell-address.js';
import type { ReadingRows, WorkbookInputs } from './inputs/workbook-inputs.js';
import { FIRST_ROW, SHEETS } from './layout.js';
import type { Book } from './model/book.js';
import { TEMPERATURE } from './model/heating/heating-rows.js';
import type { SheetModel } from './model/sheet-model.js';

/** Stands for a text in a cell that should hold a number: what it says does not matter. */
const TEXT = '?';

/**
 * Works a workbook out from what its input cells hold.
 *
 * @param model every sheet, made with the same inputs
 * @param book the workings
 * @param inputs as the cells hold them, right or wrong
 * @returns every value, worked out on demand
 */
export function calculateWorkbook(
  model: readonly SheetModel[],
  book: Book,
  inputs: Pick<WorkbookInputs, 'readings' | 'heating'>,
): Calculated {
  return calculate(model, [...readingColumns(book, inputs.readings), ...temperatureColumns(inputs)]);
}

function readingColumns({ workings: { readings } }: Book, rows: ReadingRows): TypedColumn[] {
  const { count } = rows;
  const texts = CHANNELS.map(() => new Set<number>());
  for (let row = 0; row < count; row++) {
    // Which of a row's values is text is not kept: any of those without a number.
    let left = rows.textValues[row] ?? 0;
    CHANNELS.forEach((channel, i) => {
      if (left > 0 && Number.isNaN(rows.values[channel][row])) {
        texts[i]?.add(row);
        left--;
      }
    });
  }
  const column = (
    { sheet, column: number, firstRow }: { sheet: string; column: number; firstRow: number },
    valueAt: (row: number) => number | string,
  ): TypedColumn => ({
    sheet,
    column: number,
    firstRow,
    values: Array.from({ length: count }, (_, row) => valueAt(row)),
  });
  return [
    column(readings.start, (row) =>
      rows.startIsText[row] === 1 ? TEXT : (rows.startSerial[row] ?? Number.NaN),
    ),
    column(readings.offset, (row) => rows.offsetHours[row] ?? Number.NaN),
    ...CHANNELS.map((channel, i) =>
      column(readings.channels[channel], (row) =>
        texts[i]?.has(row) === true ? TEXT : (rows.values[channel][row] ?? Number.NaN),
      ),
    ),
    column(readings.mark, (row) => (rows.estimated[row] === 1 ? 'E' : Number.NaN)),
  ];
}

function temperatureColumns({ heating }: Pick<WorkbookInputs, 'heating'>): TypedColumn[] {
  return (['date', 'meanC', 'maxC', 'minC'] as const).map((key) => ({
    sheet: SHEETS.temperatures,
    column: columnNumber(TEMPERATURE[key]),
    firstRow: FIRST_ROW,
    values: heating.temperatures.map((row) => row[key]),
  }));
}
