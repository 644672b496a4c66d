import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import { headerWords } from './match-channels.js';
import { isBlankCell } from './parse-number.js';
import { lineText } from './place-text.js';
import type { Table } from './read-table.js';
import { type ChannelColumn, distinctCells, isMostly } from './text-columns.js';
import { noUnit, type Unit, unitIn } from './units.js';

/** A unit, and the first record that states it. */
interface StatedUnit {
  unit: Unit;
  record: number;
}

/** Column whose cells state the unit of their line. */
interface UnitColumn<C extends string> {
  column: number;
  /** Unit of each channel; under undefined that of all values where no column names the channel. */
  units: Map<C | undefined, StatedUnit>;
}

const UNIT_HEADER = /\b(unit|units|uom)\b/;
const LONGEST_UNIT = 10;

/**
 * Finds the column that states the unit: its cells are units alone, one for all values or one for each channel.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param free columns to look among
 * @param channelColumn column that names the channel of each line, undefined where there is none
 * @returns the column and its units, undefined where there is none
 * @throws InputError naming the line of a second unit for the same values, or of a word among the units that is none
 * @example findUnitColumn(table, columns, [3], undefined)?.units.get(undefined)?.unit.name // 'Wh'
 */
export function findUnitColumn<C extends string>(
  table: Table,
  columns: Columns,
  free: readonly number[],
  channelColumn: ChannelColumn<C> | undefined,
): UnitColumn<C> | undefined {
  for (const column of free) {
    if (columns.kinds[column] !== 'text') continue;
    const cells = distinctCells(table, columns, column);
    if (cells === undefined) continue;
    const words = [...cells].filter((cell) => !isBlankCell(cell));
    const known = new Map<string, Unit>();
    for (const cell of words) {
      const unit = cell.length <= LONGEST_UNIT ? unitIn(cell) : undefined;
      if (unit !== undefined) known.set(cell, unit);
    }
    const isNamed = UNIT_HEADER.test(headerWords(columns.header[column]!));
    if (known.size === 0) continue;
    const isUnits = isNamed || known.size === words.length;
    if (!isUnits && !isMostly(table, columns, column, (cell) => known.has(cell))) continue;
    return { column, units: unitsByChannel(table, columns, column, known, channelColumn) };
  }
  return undefined;
}

function unitsByChannel<C extends string>(
  table: Table,
  columns: Columns,
  column: number,
  known: ReadonlyMap<string, Unit>,
  channelColumn: ChannelColumn<C> | undefined,
): Map<C | undefined, StatedUnit> {
  const units = new Map<C | undefined, StatedUnit>();
  const bare = (record: number, at: number): string => table.records[record]![at]?.trim().toLowerCase() ?? '';
  const place = (record: number) => ({ file: table.file, line: table.lineOf(record, column) });
  for (const record of columns.rows) {
    const cell = bare(record, column);
    if (isBlankCell(cell)) continue;
    const unit = known.get(cell);
    const way = leaveOut(columns, column);
    if (unit === undefined) throw noUnit(table.records[record]![column]!.trim(), place(record), way);
    const channel = channelColumn?.channels.get(bare(record, channelColumn.column));
    const stated = units.get(channel);
    if (stated === undefined) units.set(channel, { unit, record });
    else if (stated.unit !== unit) {
      throw new InputError(
        `the unit${channel === undefined ? '' : ` of ${channel}`} is ${unit.name} here and ${stated.unit.name} on ${lineText(table.lineOf(stated.record, column))}`,
        `Give the values in one unit, ${way}`,
        place(record),
      );
    }
  }
  return units;
}

/**
 * How to do without a column of units, for messages.
 *
 * @param columns headers of the table
 * @param column the column of units
 * @returns the end of a sentence
 * @example leaveOut(columns, 2) // 'or leave the column of units out: --channel "unit=ignore".'
 */
export function leaveOut(columns: Columns, column: number): string {
  return `or leave the column of units out: --channel "${columns.header[column] || column + 1}=ignore".`;
}
