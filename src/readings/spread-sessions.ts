import { InputError } from '../errors.js';
import { HALF_HOUR_MS } from '../time/serial.js';
import type { ZoneClock } from '../time/zone-clock.js';
import type { Findings } from './findings.js';
import { localText } from './local-text.js';
import { isBlankCell } from './parse-number.js';
import { lineText } from './place-text.js';
import type { Series } from './series.js';
import type { Settled } from './settled.js';
import { stampsAsUtc } from './stamps-as-utc.js';
import { numberIn } from './to-series.js';

interface Session {
  startMs: number;
  endMs: number;
  kWh: number;
  record: number;
}

/**
 * Spreads the energy of sessions over half-hours: evenly over the time of each, in proportion to the minutes that a half-hour has of it.
 * Between the first and the last session, half-hours without one hold nought. Sessions that overlap are added and told; one that is
 * given twice counts once.
 *
 * @param settled a file that lists sessions
 * @param clock clock of the home
 * @param findings where to say what was found
 * @returns half-hours of each channel
 * @throws InputError naming the line of a session that ends before it begins, or whose value is no number
 * @example spreadSessions(settled, clock, findings)[0].values // 22:10 to 23:10, 6 kWh: 2, 3 and 1
 */
export function spreadSessions<C extends string>(
  settled: Settled<C>,
  clock: ZoneClock,
  findings: Findings,
): Series<C>[] {
  const { draft, stamps } = settled;
  const { table, columns, values, index } = draft;
  const all = Int32Array.from(columns.rows, (_, i) => i);
  const starts = stampsAsUtc(settled, all, clock, findings, undefined);
  const ends = stampsAsUtc(
    { ...settled, stamps: { ...stamps, ms: stamps.endMs! } },
    all,
    clock,
    findings,
    undefined,
  );
  return values.values.map((column): Series<C> => {
    const sessions: Session[] = [];
    columns.rows.forEach((record, i) => {
      const cell = table.records[record]![column.column];
      const startMs = starts[i]!;
      const endMs = ends[i]!;
      // An hour that the clock skipped is told already.
      if (Number.isNaN(startMs) || Number.isNaN(endMs)) return;
      const place = { file: table.file, line: table.lineOf(record, column.column) };
      const value = isBlankCell(cell) ? 0 : numberIn(settled, cell!, record, column.column);
      if (endMs < startMs || (endMs === startMs && value !== 0)) {
        throw new InputError(
          `the session ends at ${localText(clock.localMsAt(endMs))}, and begins at ${localText(clock.localMsAt(startMs))}`,
          'Correct its start or its end.',
          place,
        );
      }
      if (endMs === startMs || isBlankCell(cell)) return;
      sessions.push({ startMs, endMs, kWh: value * column.unit.factor, record });
    });
    sessions.sort((a, b) => a.startMs - b.startMs || a.endMs - b.endMs || a.record - b.record);
    const apart = withoutTwice(sessions, (session, before) => {
      const text = `${localText(clock.localMsAt(session.startMs))}, also on ${lineText(table.lineOf(before.record))}`;
      findings.add(index, 'duplicate', column.channel, { record: session.record, text });
    });
    let before: Session | undefined;
    for (const session of apart) {
      if (before !== undefined && session.startMs < before.endMs) {
        const text = `begins at ${localText(clock.localMsAt(session.startMs))}, before that of ${lineText(table.lineOf(before.record))} ends`;
        findings.add(index, 'overlapping sessions', column.channel, { record: session.record, text });
      }
      if (before === undefined || session.endMs > before.endMs) before = session;
    }
    return seriesOf(settled, column.channel, apart, clock);
  });
}

function withoutTwice(
  sessions: readonly Session[],
  tell: (session: Session, before: Session) => void,
): Session[] {
  const kept: Session[] = [];
  for (const session of sessions) {
    const before = kept.at(-1);
    const isTwice =
      before !== undefined &&
      before.startMs === session.startMs &&
      before.endMs === session.endMs &&
      before.kWh === session.kWh;
    if (isTwice) tell(session, before);
    else kept.push(session);
  }
  return kept;
}

function seriesOf<C extends string>(
  { draft }: Settled<C>,
  channel: C,
  sessions: readonly Session[],
  clock: ZoneClock,
): Series<C> {
  const first = sessions[0]?.startMs ?? 0;
  const last = sessions.reduce((latest, { endMs }) => Math.max(latest, endMs), first);
  // Half-hours follow the local clock: nought but in zones that stand on a quarter-hour.
  const phaseMs = -(clock.offsetMinutesAt(first) * 60_000) % HALF_HOUR_MS;
  const startOf = (at: number): number => Math.floor((at - phaseMs) / HALF_HOUR_MS) * HALF_HOUR_MS + phaseMs;
  const from = startOf(first);
  const n = sessions.length === 0 ? 0 : Math.ceil((last - from) / HALF_HOUR_MS);
  const values = new Float64Array(n);
  const records = new Int32Array(n).fill(-1);
  for (const { startMs, endMs, kWh, record } of sessions) {
    for (let at = startOf(startMs); at < endMs; at += HALF_HOUR_MS) {
      const shared = Math.min(endMs, at + HALF_HOUR_MS) - Math.max(startMs, at);
      const k = (at - from) / HALF_HOUR_MS;
      values[k] = values[k]! + (kWh * shared) / (endMs - startMs);
      if (records[k] === -1) records[k] = record;
    }
  }
  // Nought between sessions stands nowhere: the session before says where it came from.
  for (let k = 1; k < n; k++) if (records[k] === -1) records[k] = records[k - 1]!;
  return {
    channel,
    kind: 'interval',
    stepMs: HALF_HOUR_MS,
    utcMs: Float64Array.from(values, (_, k) => from + k * HALF_HOUR_MS),
    values,
    records,
    files: new Int16Array(n).fill(draft.index),
    estimated: new Uint8Array(n),
  };
}
