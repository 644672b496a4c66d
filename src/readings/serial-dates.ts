import { EARLIEST_SERIAL, LATEST_SERIAL } from '../time/serial.js';
import { hasReadings } from './find-header.js';
import { headerWords } from './match-channels.js';
import { STAMP } from './names-columns.js';
import { isBlankCell, parseNumber } from './parse-number.js';
import type { Table } from './read-table.js';
import { serialText } from './sheets/serial-text.js';

const AS_STAMP = { date: true, time: true, elapsed: false };
const AS_DATE = { date: true, time: false, elapsed: false };
/** Fewest lines that show a column of dates. */
const FEWEST = 3;
const MINUTES_A_DAY = 1440;
/** Minutes that a serial of four decimals may be off. */
const OFF_MINUTES = 0.1;
/** Lines looked at for the names of columns. */
const SEARCHED = 200;

/**
 * The serial of a date that a spreadsheet wrote as a plain number.
 *
 * @param cell text of a cell
 * @returns days since 1899-12-30, on the minute; undefined for what is no date of the years 1990 to 2099
 * @example serialOf('46027.0208333333') // 46027 + 1 / 48
 */
export function serialOf(cell: string): number | undefined {
  if (!/^\s*\d{5}([.,]\d+)?\s*$/.test(cell)) return undefined;
  const value = parseNumber(cell.trim().replace(',', '.'), '.');
  if (!(value >= EARLIEST_SERIAL && value < LATEST_SERIAL + 1)) return undefined;
  const minutes = value * MINUTES_A_DAY;
  const whole = Math.round(minutes);
  return Math.abs(minutes - whole) <= OFF_MINUTES ? whole / MINUTES_A_DAY : undefined;
}

/**
 * A table whose dates are numbers, as spreadsheets keep them and write them where the format of the cells is lost, with texts in their
 * place. Only where no line has a date that can be read, and in a column whose name says that it holds dates or times.
 *
 * @param table the table
 * @returns the table, and what to say as assumed; the table itself where there are no such dates
 * @example withSerialDates(table).table.records[1] // ['2026-01-05 00:30', '0.2'] for 46027.0208333333,0.2
 */
export function withSerialDates(table: Table): { table: Table; assumption?: string } {
  if (hasReadings(table.records)) return { table };
  const found = serialColumn(table);
  if (found === undefined) return { table };
  const { column, header } = found;
  const name = table.records[header]![column]!.trim();
  const is1904 = table.source?.countsFrom1904 === true;
  const serials = table.records.map((record, r) => (r > header ? serialOf(record[column] ?? '') : undefined));
  // Whole days throughout are dates; among times, one is midnight.
  const shown = serials.every((serial) => serial === undefined || Number.isInteger(serial))
    ? AS_DATE
    : AS_STAMP;
  const records = table.records.map((record, r) => {
    const serial = serials[r];
    return serial === undefined ? record : record.with(column, serialText(serial, shown, is1904));
  });
  const first = serials.findIndex((serial) => serial !== undefined);
  return {
    table: { ...table, records },
    assumption: `"${name}" counts days as spreadsheets do: ${table.records[first]![column]!.trim()} is ${records[first]![column]}`,
  };
}

/** The column of serials below its name; nearly all that stands below it is one. */
function serialColumn({ records }: Table): { column: number; header: number } | undefined {
  for (let header = 0; header < Math.min(records.length, SEARCHED); header++) {
    for (const [column, cell] of records[header]!.entries()) {
      if (!/\p{L}/u.test(cell) || !STAMP.test(headerWords(cell))) continue;
      const below = records.slice(header + 1).filter((record) => !isBlankCell(record[column]));
      const serials = below.filter((record) => serialOf(record[column]!) !== undefined).length;
      if (serials >= FEWEST && serials >= 0.9 * below.length) return { column, header };
    }
  }
  return undefined;
}
