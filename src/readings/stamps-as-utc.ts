import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import { startOfLocalDay } from '../time/start-of-local-day.js';
import type { ZoneClock } from '../time/zone-clock.js';
import { isDateOnly } from './draft.js';
import type { Findings } from './findings.js';
import { localText } from './local-text.js';
import { resolveLocal } from './local-to-utc.js';
import { isBlankCell, parseNumber } from './parse-number.js';
import type { Settled } from './settled.js';

const MINUTE_MS = 60_000;

/**
 * Stamps of lines of one channel as instants.
 *
 * @param settled the file
 * @param positions which of its data rows
 * @param clock clock of the home
 * @param findings where to tell of the hours that the clock skipped or repeated
 * @param channel channel of the lines where a column names it
 * @returns epoch ms; NaN where the clock skipped the label
 * @throws InputError for the number of an interval that its day has not
 * @example stampsAsUtc(settled, positions, clock, findings, undefined)[0]
 */
export function stampsAsUtc<C extends string>(
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
  const byWall = settled.position === 'end' && endsCountOnWall(ms, clock);
  const labels = byWall ? ms.map((end) => end - settled.stepMs) : ms;
  const resolved = resolveLocal(labels, clock, settled.stepMs);
  if (byWall) for (let k = 0; k < ms.length; k++) resolved.utcMs[k] = resolved.utcMs[k]! + settled.stepMs;
  const place = (k: number): { record: number; text: string } => {
    const record = draft.columns.rows[positions[k]!]!;
    return { record, text: localText(ms[k]!) };
  };
  for (const k of resolved.undecided) {
    findings.add(draft.index, 'repeated hour', channel ?? '', place(k));
  }
  for (const k of resolved.unordered) {
    findings.add(draft.index, 'repeated hour order', channel ?? '', place(k));
  }
  reportSkipped(settled, resolved.skipped, positions, ms, findings, channel);
  return resolved.utcMs;
}

/**
 * Whether the ends of a file were made by adding the interval to the label of the start, as some programs do: at a change of the
 * clock such an end is off by the change. In autumn the label at the end of the repeated hour then comes twice, that at its
 * beginning once; in spring the skipped hour's first label is there, its last is not.
 */
function endsCountOnWall(ms: Float64Array, clock: ZoneClock): boolean {
  return clock.changes.some(({ utcMs, offsetBeforeMinutes, offsetAfterMinutes }) => {
    const before = utcMs + offsetBeforeMinutes * MINUTE_MS;
    const after = utcMs + offsetAfterMinutes * MINUTE_MS;
    let atBefore = 0;
    let atAfter = 0;
    for (let k = 0; k < ms.length; k++) {
      if (ms[k] === before) atBefore++;
      if (ms[k] === after) atAfter++;
    }
    return after < before ? atBefore === 2 && atAfter === 1 : atBefore > 0 && atAfter === 0;
  });
}

function periodsAsUtc<C extends string>(
  settled: Settled<C>,
  positions: Int32Array,
  dayMs: Float64Array,
  period: number,
  clock: ZoneClock,
): Float64Array {
  const { stepMs, fixedOffsetMinutes } = settled;
  const { table, columns } = settled.draft;
  const startOf = (day: number): number =>
    fixedOffsetMinutes === undefined ? startOfLocalDay(clock, day) : day - fixedOffsetMinutes * MINUTE_MS;
  const minutes = stepMs / MINUTE_MS;
  const what = minutes === 30 ? 'half-hour' : minutes === 60 ? 'hour' : `interval of ${minutes} minutes`;
  const days = new Map<number, { start: number; count: number }>();
  return dayMs.map((day, k) => {
    let known = days.get(day);
    if (known === undefined) {
      const start = startOf(day);
      known = { start, count: Math.floor((startOf(day + DAY_MS) - start) / stepMs) };
      days.set(day, known);
    }
    const record = columns.rows[positions[k]!]!;
    const cell = table.records[record]![period] ?? '';
    const number = Number(cell);
    if (!(Number.isInteger(number) && number >= 1 && number <= known.count)) {
      throw new InputError(
        `"${cell.trim()}" is no ${what} of a day that has ${known.count}`,
        `Correct the number of the ${what}, or give the time zone of the readings.`,
        { file: table.file, line: table.lineOf(record) },
      );
    }
    // A numbered interval begins at its place, whatever end stamps would say.
    return known.start + (number - 1) * stepMs + (settled.position === 'end' ? stepMs : 0);
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
