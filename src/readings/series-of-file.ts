import { InputError } from '../errors.js';
import { DAY_MS, HALF_HOUR_MS } from '../time/serial.js';
import { startOfLocalDay } from '../time/start-of-local-day.js';
import type { ZoneClock } from '../time/zone-clock.js';
import { type Draft, isDateOnly } from './draft.js';
import type { Findings } from './findings.js';
import type { DecimalMark, StampPosition } from './import-options.js';
import { resolveLocal } from './local-to-utc.js';
import { isBlankCell, parseNumber } from './parse-number.js';
import { placeDay } from './place-day.js';
import type { Stamps } from './read-stamps.js';
import type { Series } from './series.js';
import type { ValueColumn } from './value-columns.js';

const MINUTE_MS = 60_000;
const HOUR_MS = 3_600_000;

/** A file with all that needed settling settled. */
export interface Settled<C extends string> {
  draft: Draft<C>;
  stamps: Stamps;
  position: StampPosition;
  /** Why the position was taken, where nothing states it. */
  positionAssumed: string | undefined;
  stepMs: number;
  decimalMark: DecimalMark;
  /** Offset of stamps without one, minutes; undefined for the home's clock. */
  fixedOffsetMinutes: number | undefined;
}

/**
 * The values of a file as series in epoch time.
 *
 * @param settled the file
 * @param clock clock of the home, covering its stamps
 * @param findings where to say what was found
 * @returns a series for each channel
 * @throws InputError naming the line of a value that is no number, or of a stamp that is off the grid of its interval
 * @example seriesOfFile(settled, clock, findings)[0].channel // 'importKwh'
 */
export function seriesOfFile<C extends string>(
  settled: Settled<C>,
  clock: ZoneClock,
  findings: Findings,
): Series<C>[] {
  return settled.draft.slots === undefined
    ? seriesOfLines(settled, clock, findings)
    : seriesOfDays(settled, clock, findings);
}

/** Lines of one channel: all of them, or those that the channel column names. */
interface Group<C extends string> {
  channel: C | undefined;
  /** Positions among the data rows. */
  positions: Int32Array;
}

function groupsOf<C extends string>(settled: Settled<C>): Group<C>[] {
  const { draft } = settled;
  const { rows } = draft.columns;
  const channelColumn = draft.values.channelColumn;
  if (channelColumn === undefined) {
    const positions = new Int32Array(rows.length);
    for (let i = 0; i < positions.length; i++) positions[i] = i;
    return [{ channel: undefined, positions }];
  }
  const byChannel = new Map<C, number[]>();
  rows.forEach((r, i) => {
    const cell = draft.table.records[r]![channelColumn.column]?.trim().toLowerCase() ?? '';
    const channel = channelColumn.channels.get(cell);
    if (channel === undefined) {
      throw new InputError('the line does not say which channel it is', 'Complete the line or delete it.', {
        file: draft.table.file,
        line: draft.table.lineOf(r),
      });
    }
    const list = byChannel.get(channel);
    if (list === undefined) byChannel.set(channel, [i]);
    else list.push(i);
  });
  return [...byChannel].map(([channel, positions]) => ({ channel, positions: Int32Array.from(positions) }));
}

function seriesOfLines<C extends string>(
  settled: Settled<C>,
  clock: ZoneClock,
  findings: Findings,
): Series<C>[] {
  const { draft } = settled;
  const result: Series<C>[] = [];
  for (const group of groupsOf(settled)) {
    const utcMs = stampsAsUtc(settled, group.positions, clock, findings, group.channel);
    const shift = settled.position === 'end' && settled.stepMs < DAY_MS ? settled.stepMs : 0;
    const records = new Int32Array(group.positions.length);
    for (let k = 0; k < records.length; k++) records[k] = draft.columns.rows[group.positions[k]!]!;
    for (const column of draft.values.values) {
      const cells = { utcMs, records, columns: undefined };
      const channel = group.channel ?? column.channel;
      const series = toSeries(settled, { ...column, channel }, cells, shift, findings);
      // What the numbers settled is kept for the report.
      if (column.register === 'ask') column.register = series.kind === 'register';
      result.push(series);
    }
  }
  return result;
}

/** Stamps of a group of lines as epoch ms; NaN where the clock skipped the label. */
function stampsAsUtc<C extends string>(
  settled: Settled<C>,
  positions: Int32Array,
  clock: ZoneClock,
  findings: Findings,
  channel: C | undefined,
): Float64Array {
  const { draft, stamps, fixedOffsetMinutes } = settled;
  const all = positions.length === stamps.ms.length;
  const ms = all ? stamps.ms : Float64Array.from(positions, (i) => stamps.ms[i]!);
  if (stamps.instants) return ms;
  const period = draft.stamps.period;
  if (period !== undefined) return periodsAsUtc(settled, positions, ms, period, clock);
  if (fixedOffsetMinutes !== undefined) return ms.map((local) => local - fixedOffsetMinutes * MINUTE_MS);
  if (isDateOnly(draft)) return ms.map((day) => startOfLocalDay(clock, day));
  const resolved = resolveLocal(ms, clock, settled.stepMs);
  const place = (k: number): { record: number; text: string } => {
    const record = draft.columns.rows[positions[k]!]!;
    return { record, text: localText(ms[k]!) };
  };
  for (const k of resolved.undecided) {
    findings.add(draft.index, 'repeated hour', channel ?? '', place(k));
  }
  reportSkipped(settled, resolved.skipped, positions, ms, findings, channel);
  return resolved.utcMs;
}

function periodsAsUtc<C extends string>(
  settled: Settled<C>,
  positions: Int32Array,
  dayMs: Float64Array,
  period: number,
  clock: ZoneClock,
): Float64Array {
  const { table, columns } = settled.draft;
  const days = new Map<number, { start: number; count: number }>();
  return dayMs.map((day, k) => {
    let known = days.get(day);
    if (known === undefined) {
      const start = startOfLocalDay(clock, day);
      known = { start, count: (startOfLocalDay(clock, day + DAY_MS) - start) / HALF_HOUR_MS };
      days.set(day, known);
    }
    const record = columns.rows[positions[k]!]!;
    const cell = table.records[record]![period] ?? '';
    const number = Number(cell);
    if (!(Number.isInteger(number) && number >= 1 && number <= known.count)) {
      throw new InputError(
        `"${cell.trim()}" is no half-hour of a day that has ${known.count}`,
        'Correct the number of the half-hour, or give the time zone of the readings.',
        { file: table.file, line: table.lineOf(record) },
      );
    }
    // A numbered half-hour begins at its place, whatever end stamps would say.
    return known.start + (number - 1) * HALF_HOUR_MS + (settled.position === 'end' ? settled.stepMs : 0);
  });
}

function reportSkipped<C extends string>(
  settled: Settled<C>,
  skipped: readonly number[],
  positions: Int32Array,
  ms: Float64Array,
  findings: Findings,
  channel: C | undefined,
): void {
  const { draft, decimalMark } = settled;
  for (const k of skipped) {
    const record = draft.columns.rows[positions[k]!]!;
    const row = draft.table.records[record]!;
    for (const column of draft.values.values) {
      const cell = row[column.column];
      if (isBlankCell(cell) || parseNumber(cell!, decimalMark) === 0) continue;
      findings.add(draft.index, 'skipped hour', channel ?? column.channel, {
        record,
        text: `${localText(ms[k]!)} holds ${cell!.trim()} ${column.unit.name}`,
      });
    }
  }
}

/** Wall-clock text of ms counted as if UTC. */
export function localText(localMs: number): string {
  return new Date(localMs).toISOString().slice(0, 16).replace('T', ' ');
}

function seriesOfDays<C extends string>(
  settled: Settled<C>,
  clock: ZoneClock,
  findings: Findings,
): Series<C>[] {
  const { draft, stamps } = settled;
  const slots = draft.slots!;
  const [column] = draft.values.values;
  const result: Series<C>[] = [];
  for (const group of groupsOf(settled)) {
    const utcMs: number[] = [];
    const records: number[] = [];
    const columns: number[] = [];
    const channel = group.channel ?? column!.channel;
    for (const i of group.positions) {
      const record = draft.columns.rows[i]!;
      const row = draft.table.records[record]!;
      placeDay({
        row,
        dayMs: stamps.ms[i]!,
        slots,
        clock,
        fixedOffsetMinutes: settled.fixedOffsetMinutes,
        value: (cell) => numberIn(settled, cell, record),
        place: (slotColumn, instant) => {
          utcMs.push(instant);
          records.push(record);
          columns.push(slotColumn);
        },
        report: (kind, text) => findings.add(draft.index, kind, channel, { record, text }),
        tooMany: (found, whatToDo) => {
          throw new InputError(found, whatToDo, { file: draft.table.file, line: draft.table.lineOf(record) });
        },
      });
    }
    const cells = {
      utcMs: Float64Array.from(utcMs),
      records: Int32Array.from(records),
      columns: Int32Array.from(columns),
    };
    result.push(toSeries(settled, { ...column!, channel }, cells, 0, findings));
  }
  return result;
}

/** Number in a cell of values that is not blank. */
function numberIn<C extends string>(settled: Settled<C>, cell: string, record: number): number {
  const value = parseNumber(cell, settled.decimalMark);
  if (!Number.isNaN(value)) return value;
  throw badValue(settled, cell, record);
}

function badValue<C extends string>(settled: Settled<C>, cell: string, record: number): InputError {
  const { table } = settled.draft;
  const bare = cell.trim().slice(0, 60);
  const place = { file: table.file, line: table.lineOf(record) };
  if (bare.startsWith('=')) {
    return new InputError(
      `"${bare}" is a formula, not a value`,
      'Give the number itself, or leave the cell empty.',
      place,
    );
  }
  return new InputError(
    `"${bare}" is not a number (the decimal mark is "${settled.decimalMark}")`,
    'Correct the cell, or leave it empty where there is no reading; --decimal says another decimal mark.',
    place,
  );
}

interface Cells {
  utcMs: Float64Array;
  records: Int32Array;
  /** Column of each value, where a line holds many. */
  columns: Int32Array | undefined;
}

function toSeries<C extends string>(
  settled: Settled<C>,
  column: ValueColumn<C>,
  cells: Cells,
  shiftMs: number,
  findings: Findings,
): Series<C> {
  const { draft, decimalMark, stepMs } = settled;
  const { records: rows, file } = draft.table;
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
    const cell = row[cells.columns === undefined ? column.column : cells.columns[k]!];
    if (cell === undefined || isBlankCell(cell)) continue;
    const value = parseNumber(cell, decimalMark);
    if (Number.isNaN(value)) throw badValue(settled, cell, record);
    if (Number.isNaN(at)) continue;
    utcMs[count] = at;
    values[count] = value;
    records[count] = record;
    if (marks?.marks.has(row[marks.column]?.trim().toLowerCase() ?? '')) estimated[count] = 1;
    count++;
  }
  const used = values.subarray(0, count);
  const register = isRegister(settled, column, used, findings);
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
    stepMs,
    utcMs: starts,
    values: used,
    records: records.subarray(0, count),
    files: new Int16Array(count).fill(draft.index),
    estimated: estimated.subarray(0, count),
  };
}

const SURELY_RISING = 24;

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
    if (falls > rises + 50 && falls > 100) return false;
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
