import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import type { ZoneClock } from '../time/zone-clock.js';
import { shortRows } from './check-widths.js';
import type { Findings } from './findings.js';
import { placeDay } from './place-day.js';
import type { Series } from './series.js';
import type { Settled } from './settled.js';
import { spreadSessions } from './spread-sessions.js';
import { stampsAsUtc } from './stamps-as-utc.js';
import { numberIn, toSeries } from './to-series.js';

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
  tellOddMarks(settled, findings);
  tellShortLines(settled, findings);
  if (settled.sessions) return spreadSessions(settled, clock, findings);
  return settled.draft.slots === undefined
    ? seriesOfLines(settled, clock, findings)
    : seriesOfDays(settled, clock, findings);
}

/** Marks that are read as neither word are told line by line. */
function tellOddMarks<C extends string>({ draft }: Settled<C>, findings: Findings): void {
  const { estimated } = draft.values;
  if (estimated === undefined || estimated.odd.size === 0) return;
  for (const record of draft.columns.rows) {
    const cell = draft.table.records[record]![estimated.column]?.trim() ?? '';
    if (!estimated.odd.has(cell.toLowerCase())) continue;
    findings.add(draft.index, 'odd mark', '', { record, text: `"${cell}"` });
  }
}

function tellShortLines<C extends string>({ draft }: Settled<C>, findings: Findings): void {
  const { table, columns, slots, index } = draft;
  if (slots !== undefined) return;
  for (const record of shortRows(table, columns)) {
    const text = `"${table.records[record]!.join(table.delimiter).slice(0, 60)}"`;
    findings.add(index, 'short line', '', { record, text });
  }
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

/** The file with the columns of a group's channel alone. */
function columnsOf<C extends string>(settled: Settled<C>, { channel }: Group<C>): Settled<C> {
  if (channel === undefined) return settled;
  const { draft } = settled;
  const values = draft.values.values.filter((column) => column.channel === channel);
  return { ...settled, draft: { ...draft, values: { ...draft.values, values } } };
}

function seriesOfLines<C extends string>(
  settled: Settled<C>,
  clock: ZoneClock,
  findings: Findings,
): Series<C>[] {
  const { draft } = settled;
  const result: Series<C>[] = [];
  for (const group of groupsOf(settled)) {
    const own = columnsOf(settled, group);
    const utcMs = stampsAsUtc(own, group.positions, clock, findings, group.channel);
    const shift = settled.position === 'end' && settled.stepMs < DAY_MS ? settled.stepMs : 0;
    const records = new Int32Array(group.positions.length);
    for (let k = 0; k < records.length; k++) records[k] = draft.columns.rows[group.positions[k]!]!;
    for (const column of own.draft.values.values) {
      const cells = { utcMs, records, columns: undefined };
      const series = toSeries(settled, column, cells, shift, findings);
      // What the numbers settled is kept for the report.
      if (column.register === 'ask') column.register = series.kind === 'register';
      result.push(series);
    }
  }
  return result;
}

function seriesOfDays<C extends string>(
  settled: Settled<C>,
  clock: ZoneClock,
  findings: Findings,
): Series<C>[] {
  const { draft, stamps } = settled;
  const slots = draft.slots!;
  const result: Series<C>[] = [];
  for (const group of groupsOf(settled)) {
    const utcMs: number[] = [];
    const records: number[] = [];
    const columns: number[] = [];
    const valueColumns = columnsOf(settled, group).draft.values.values;
    const { channel } = valueColumns[0]!;
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
    for (const column of valueColumns) result.push(toSeries(settled, column, cells, 0, findings));
  }
  return result;
}
