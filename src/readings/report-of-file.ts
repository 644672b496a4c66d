import { shortened } from '../plain-text.js';
import type { ZoneClock } from '../time/zone-clock.js';
import { countLines } from './count-lines.js';
import { isDateOnly } from './draft.js';
import type { ColumnReport, FileReport } from './file-report.js';
import type { Findings } from './findings.js';
import { fixedOffsetOf } from './fixed-offset.js';
import { localText } from './local-text.js';
import { lineText } from './place-text.js';
import { lengthsText } from './settle-sessions.js';
import type { Settled } from './settled.js';
import type { Vocabulary } from './vocabulary.js';

const DELIMITER_NAMES: Record<string, string> = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'pipe' };
const ORDER_NAMES = { dmy: 'day first', mdy: 'month first', ymd: 'year first' };

/**
 * Says what was understood of a file.
 *
 * @param file the file, settled
 * @param clock clock of the home
 * @param findings what was found
 * @param vocabulary channels of the reader
 * @returns the file's part of the report
 * @example reportOfFile(settled, clock, findings, electricityVocabulary).stamp // 'start of the interval'
 */
export function reportOfFile<C extends string>(
  file: Settled<C>,
  clock: ZoneClock,
  findings: Findings,
  vocabulary: Vocabulary<C>,
): FileReport {
  const { draft, stamps, stepMs, position } = file;
  const { table, columns, values, dates, slots, options } = draft;
  const name = (i: number): string => (columns.header[i] ? `"${columns.header[i]}"` : `column ${i + 1}`);
  const register = values.values.every((column) => column.register === true);
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < stamps.ms.length; i++) {
    if (stamps.ms[i]! < first) first = stamps.ms[i]!;
    if (stamps.ms[i]! > last) last = stamps.ms[i]!;
  }
  const dayOnly = isDateOnly(draft) || draft.stamps.period !== undefined;
  const text = (ms: number): string => {
    const utcMs = stamps.instants
      ? ms
      : file.fixedOffsetMinutes === undefined
        ? undefined
        : ms - file.fixedOffsetMinutes * 60_000;
    return localText(utcMs === undefined ? ms : clock.localMsAt(utcMs)).slice(0, dayOnly ? 10 : 16);
  };
  return {
    file: table.file,
    ...(table.source === undefined ? {} : { source: table.source.text }),
    lineName: table.source?.lineName ?? 'line',
    encoding: table.encoding,
    delimiter: DELIMITER_NAMES[table.delimiter] ?? table.delimiter,
    decimalMark: file.decimalMark,
    ...(columns.headerRecord === undefined || table.source?.counts !== undefined
      ? {}
      : { headerLine: table.lineNumber(columns.headerRecord) }),
    layout: slots === undefined ? 'one line an interval' : 'one line a day',
    rows: columns.rows.length,
    lines: countLines(draft),
    columns: table.source?.columns ?? columnReports(file, name),
    unusedColumns: values.unused.map(name),
    clock: clockText(file, clock.timeZone),
    stamp: register
      ? 'moment of the read'
      : slots !== undefined
        ? slotText(slots.labels)
        : file.sessions
          ? 'start and end of the session'
          : `${position} of the interval`,
    dates: !dates.needed
      ? 'year first, or month named'
      : options.dateOrder !== undefined
        ? `${ORDER_NAMES[options.dateOrder]}, as told`
        : dates.order !== undefined
          ? `${ORDER_NAMES[dates.order]}, settled by ${lineText(dates.line!)}`
          : dates.ambiguous === undefined
            ? 'day and month the same number'
            : 'as in the other files of this export',
    interval: file.sessions
      ? `sessions of ${lengthsText(stamps)}, each spread evenly over its half-hours`
      : intervalText(stepMs, vocabulary, file),
    from: text(first),
    to: text(last),
    assumptions: [
      ...(file.sessions ? ['nothing was used between the first and the last session but in them'] : []),
      ...(table.source?.assumptions ?? []),
      ...values.assumptions,
      ...(file.positionAssumed === undefined || register ? [] : [file.positionAssumed]),
      ...findings.assumptionsOf(draft.index),
    ],
    findings: findings.of(draft.index),
  };
}

function columnReports<C extends string>({ draft }: Settled<C>, name: (i: number) => string): ColumnReport[] {
  const { stamps, values, slots } = draft;
  const list: ColumnReport[] = [
    { column: name(stamps.date), meaning: stamps.time === undefined ? 'stamp' : 'date' },
  ];
  if (stamps.time !== undefined) list.push({ column: name(stamps.time), meaning: 'time' });
  if (stamps.period !== undefined)
    list.push({ column: name(stamps.period), meaning: 'number of the interval' });
  const ends = [stamps.endDate, stamps.endTime].filter((i): i is number => i !== undefined);
  for (const i of ends) list.push({ column: name(i), meaning: 'end' });
  const by = values.channelColumn;
  if (by !== undefined) {
    const channels = [...by.channels].map(([cell, channel]) => `${shortened(cell)} = ${channel}`).join(', ');
    list.push({ column: name(by.column), meaning: `names the channel: ${channels}` });
  }
  for (const { column, channel, unit, register, sign } of values.values) {
    const counter =
      draft.options.register === 'daily' ? 'counter that restarts each day' : 'cumulative register';
    const part = sign === undefined ? '' : sign === 1 ? ', what is above nought' : ', what is below';
    const meaning = register === true ? `${channel}, ${counter}` : `${channel}${part}`;
    const columnName =
      slots === undefined ? name(column) : `${slots.columns.length} columns from ${name(slots.first)}`;
    list.push({ column: columnName, meaning, unit: unit.name });
  }
  if (values.estimated !== undefined)
    list.push({ column: name(values.estimated.column), meaning: 'estimated or actual' });
  return list;
}

function slotText(labels: 'start' | 'end' | 'number' | 'none'): string {
  return labels === 'end'
    ? 'end of the interval, in the header'
    : labels === 'start'
      ? 'start of the interval, in the header'
      : 'place in the day';
}

function clockText<C extends string>({ draft, stamps }: Settled<C>, timeZone: string): string {
  if (stamps.instants) return 'offset from UTC in each stamp';
  const fixed = fixedOffsetOf(draft);
  if (fixed === undefined) return `local time of ${timeZone}`;
  if (fixed === 0) return 'UTC';
  const size = Math.abs(fixed);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `fixed offset ${fixed < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

function intervalText<C extends string>(
  stepMs: number,
  vocabulary: Vocabulary<C>,
  { draft }: Settled<C>,
): string {
  const minutes = stepMs / 60_000;
  if (minutes === 30) return '30 minutes';
  const averaged = draft.values.values.every((column) => vocabulary.averaged(column.channel));
  if (minutes === 60)
    return averaged ? '60 minutes, held for both half-hours' : '60 minutes, split into two equal halves';
  if (minutes < 30) return `${minutes} minutes, ${averaged ? 'averaged' : 'summed'} to half-hours`;
  return minutes % 1440 === 0 ? `${minutes / 1440} days` : `${minutes} minutes`;
}
