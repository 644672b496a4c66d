import type {
  ArgumentDescription,
  ArgumentKind,
  CellArgument,
  CellScalar,
  ColumnDescription,
} from '../../functions/described-function.js';

type Rows = readonly (readonly CellScalar[])[];

/** Kinds of which 0 is no value: nobody means the first day of the calendar, or a number for a text. */
const NEVER_ZERO: readonly ArgumentKind[] = ['text', 'date', 'dateTime'];

/**
 * Makes single cells blank again that a host has handed over as 0. A number or a time that is 0 stays 0: whether its
 * cell was blank can't be told.
 *
 * @param args as the host gives them
 * @param described the function's arguments
 * @returns the arguments with blanks as null where the description says that 0 can't be meant
 */
export function restoreBlankCells(
  args: readonly CellArgument[],
  described: readonly ArgumentDescription[],
): CellArgument[] {
  return args.map((value, index) =>
    value === 0 && NEVER_ZERO.includes(described[index]?.kind ?? 'number') ? null : value,
  );
}

/**
 * The same for ranges, in hosts that hand over their blank cells as 0 too: rows of nothing but 0, texts and dates
 * that are 0, a window whose times are both 0, and optional numbers in a column that has other numbers.
 */
export function restoreBlankRanges(
  args: readonly CellArgument[],
  described: readonly ArgumentDescription[],
): CellArgument[] {
  return args.map((value, index) => {
    const argument = described[index];
    if (!isRows(value) || argument === undefined) return value;
    if (argument.columns !== undefined) return restoreTable(value, argument.columns);
    if (!NEVER_ZERO.includes(argument.kind)) return value;
    return value.map((row) => row.map((cell) => (cell === 0 ? null : cell)));
  });
}

function restoreTable(rows: Rows, columns: readonly ColumnDescription[]): Rows {
  const hasNumbers = columns.map((_, c) => rows.some((row) => typeof row[c] === 'number' && row[c] !== 0));
  return rows.map((row) => {
    if (row.every((cell) => cell === 0)) return row.map(() => null);
    const noTimes = columns.every(({ kind }, c) => kind !== 'time' || row[c] === 0);
    return row.map((cell, c) => {
      const column = columns[c];
      if (cell !== 0 || column === undefined) return cell;
      if (NEVER_ZERO.includes(column.kind)) return null;
      if (column.kind === 'time') return noTimes ? null : cell;
      return column.optional && hasNumbers[c] ? null : cell;
    });
  });
}

function isRows(value: CellArgument): value is Rows {
  return Array.isArray(value);
}
