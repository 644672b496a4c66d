import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import { askAboutRestarts } from './ask-about-restarts.js';
import type { Findings } from './findings.js';
import { placeKey } from './marks-in-cells.js';
import { isBlankCell, parseNumber } from './parse-number.js';
import type { Series } from './series.js';
import type { Settled } from './settled.js';
import type { ValueColumn } from './value-columns.js';

const HOUR_MS = 3_600_000;

interface Cells {
  utcMs: Float64Array;
  records: Int32Array;
  /** Column of each value, where a line holds many. */
  columns: Int32Array | undefined;
}

/**
 * The values of a column as a series in its canonical unit (kWh, °C, p/kWh, m³).
 *
 * @param settled the file
 * @param column the column, its channel and unit
 * @param cells instants, records and columns of the values
 * @param shiftMs what lies between a stamp and the start of its interval, ms
 * @param findings where to say what was assumed
 * @returns the series; blank cells are no part of it
 * @throws InputError for a cell that is no number, and for a column that may be a register
 * @example toSeries(settled, column, cells, 0, findings).values[0] // 0.25
 */
export function toSeries<C extends string>(
  settled: Settled<C>,
  column: ValueColumn<C>,
  cells: Cells,
  shiftMs: number,
  findings: Findings,
): Series<C> {
  const { draft, stepMs } = settled;
  const { records: rows, file, estimatedCells } = draft.table;
  const marks = draft.values.estimated;
  const n = cells.utcMs.length;
  const utcMs = new Float64Array(n);
  const values = new Float64Array(n);
  const records = new Int32Array(n);
  const estimated = new Uint8Array(n);
  let count = 0;
  for (let k = 0; k < n; k++) {
    const at = cells.utcMs[k]!;
    const record = cells.records[k]!;
    const row = rows[record]!;
    const cellColumn = cells.columns === undefined ? column.column : cells.columns[k]!;
    const cell = row[cellColumn];
    if (cell === undefined || isBlankCell(cell)) continue;
    const value = numberIn(settled, cell, record, cellColumn);
    if (Number.isNaN(at)) continue;
    utcMs[count] = at;
    values[count] = column.sign === undefined ? value : Math.max(0, column.sign * value);
    records[count] = record;
    if (
      marks?.marks.has(row[marks.column]?.trim().toLowerCase() ?? '') ||
      estimatedCells?.has(placeKey(record, cellColumn))
    ) {
      estimated[count] = 1;
    }
    count++;
  }
  const used = values.subarray(0, count);
  const register = column.sign === undefined && isRegister(settled, column, used, findings);
  if (!register && column.sign === undefined && draft.options.register === undefined && stepMs < DAY_MS) {
    askAboutRestarts(draft, column, utcMs.subarray(0, count), used);
  }
  const { unit } = column;
  if (register && unit.quantity === 'power') {
    throw new InputError(
      `a register cannot be in ${unit.name}`,
      'Say what the column is: --register no, or --unit kWh.',
      {
        file,
      },
    );
  }
  const factor = unit.factor * (unit.quantity === 'power' ? stepMs / HOUR_MS : 1);
  if (factor !== 1 || unit.offset !== 0) {
    for (let k = 0; k < count; k++) used[k] = used[k]! * factor + unit.offset;
  }
  const starts = utcMs.subarray(0, count);
  // A read of a register is of its instant, whatever the header calls it.
  if (!register && shiftMs !== 0) for (let k = 0; k < count; k++) starts[k]! -= shiftMs;
  return {
    channel: column.channel,
    kind: register ? 'register' : 'interval',
    ...(register && draft.options.register === 'daily' ? { restartsDaily: true } : {}),
    stepMs,
    utcMs: starts,
    values: used,
    records: records.subarray(0, count),
    files: new Int16Array(count).fill(draft.index),
    estimated: estimated.subarray(0, count),
  };
}

const SURELY_RISING = 24;
const LARGEST = 1e15;

/** Whether a column of values is a register: as stated, or as its own numbers show. */
function isRegister<C extends string>(
  settled: Settled<C>,
  column: ValueColumn<C>,
  values: Float64Array,
  findings: Findings,
): boolean {
  if (column.register === true) return true;
  const { options, table, columns, index } = settled.draft;
  if (
    options.register === false ||
    column.unit.quantity === 'temperature' ||
    column.unit.quantity === 'price'
  ) {
    return false;
  }
  let rises = 0;
  let falls = 0;
  for (let k = 1; k < values.length; k++) {
    if (values[k]! > values[k - 1]!) rises++;
    else if (values[k]! < values[k - 1]!) falls++;
    // Neither way prevails, whatever the rest holds; a register listed newest first only falls.
    if (Math.min(rises, falls) > 0.01 * values.length) return false;
  }
  const oneWay = Math.min(rises, falls) <= 0.01 * (rises + falls);
  const monotone = oneWay && rises + falls >= 2;
  const name = columns.header[column.column] || `column ${column.column + 1}`;
  if (column.register === 'ask') {
    if (monotone) {
      findings.assume(
        index,
        `"${name}" is a cumulative register, as it only rises (--register no says otherwise)`,
      );
      return true;
    }
    return false;
  }
  const neverFalls = Math.min(rises, falls) === 0;
  if (neverFalls && rises + falls >= SURELY_RISING && rises + falls > 0.2 * values.length) {
    throw new InputError(
      `"${name}" only ever rises, like a cumulative register`,
      'Say what it is: --register yes or --register no.',
      { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
    );
  }
  return false;
}

/**
 * Number in a cell of values, at most 10¹⁵ either way: a spreadsheet keeps no more digits, and a meter shows far fewer.
 *
 * @param settled the file
 * @param cell text of the cell, not blank
 * @param record record that it stands in
 * @param column column that it stands in, for messages
 * @returns the number
 * @throws InputError naming the line where it is none, or too large
 * @example numberIn(settled, '0.25', 12) // 0.25
 */
export function numberIn<C extends string>(
  settled: Settled<C>,
  cell: string,
  record: number,
  column?: number,
): number {
  const value = parseNumber(cell, settled.decimalMark);
  if (Math.abs(value) <= LARGEST) return value;
  throw badValue(settled, cell, record, column);
}

function badValue<C extends string>(
  settled: Settled<C>,
  cell: string,
  record: number,
  column: number | undefined,
): InputError {
  const { table } = settled.draft;
  const bare = cell.trim().slice(0, 60);
  const place = { file: table.file, line: table.lineOf(record, column) };
  if (bare.startsWith('=')) {
    return new InputError(
      `"${bare}" is a formula, not a value`,
      'Give the number itself, or leave the cell empty.',
      place,
    );
  }
  if (!Number.isNaN(parseNumber(cell, settled.decimalMark))) {
    return new InputError(
      `"${bare}" is too large for a reading`,
      'Correct the cell, or leave it empty where there is no reading.',
      place,
    );
  }
  return new InputError(
    `"${bare}" is not a number (the decimal mark is "${settled.decimalMark}")`,
    'Correct the cell, or leave it empty where there is no reading; --decimal says another decimal mark.',
    place,
  );
}
