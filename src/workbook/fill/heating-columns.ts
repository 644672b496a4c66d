import { columnNumber } from '../cell-address.js';
import type { GasCells, HeatingCells, TemperatureCells } from '../inputs/heating-cells.js';
import { FIRST_ROW } from '../layout.js';
import { GAS, TEMPERATURE } from '../model/heating/heating-rows.js';
import type { InputColumn } from '../package/index.js';

const column = <Row>(
  letters: string,
  rows: readonly Row[],
  held: readonly Row[],
  key: keyof Row,
): InputColumn => ({
  column: columnNumber(letters),
  firstRow: FIRST_ROW,
  // A cell that stays as it is keeps what was typed, a formula for example.
  values: rows.map((row, i) => (row[key] === held[i]?.[key] ? undefined : row[key])) as InputColumn['values'],
});

/** What changes on the gas sheet. */
export function gasInputColumns(rows: HeatingCells['gas'], held: HeatingCells['gas']): InputColumn[] {
  const keys: (keyof GasCells)[] = [
    'firstDay',
    'lastDay',
    'kwh',
    'volume',
    'volumeUnit',
    'calorificValue',
    'degreeDays',
  ];
  return rows === held ? [] : keys.map((key) => column(GAS[key], rows, held, key));
}

/** What changes on the temperatures sheet. */
export function temperatureInputColumns(
  rows: HeatingCells['temperatures'],
  held: HeatingCells['temperatures'],
): InputColumn[] {
  const keys: (keyof TemperatureCells)[] = ['date', 'meanC', 'maxC', 'minC'];
  return rows === held ? [] : keys.map((key) => column(TEMPERATURE[key], rows, held, key));
}
