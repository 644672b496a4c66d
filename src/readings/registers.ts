import type { Findings } from './findings.js';
import type { Series } from './series.js';

const HOUR_MS = 3_600_000;

/** A difference of two reads of a register. */
interface RegisterUse {
  fromUtcMs: number;
  toUtcMs: number;
  /** Energy or volume between the reads, in the register's unit. */
  used: number;
  /** Record and file of the later read, to say where. */
  record: number;
  file: number;
  /** 1 where either read was estimated. */
  estimated: number;
}

/**
 * What a cumulative register counted between its reads. A counter that restarts each day counts from nought after midnight; a read at
 * midnight that is no lower than the one before still shows the day that ends. A read lower than the one before is a register that passed its highest
 * number, where counting on from nought gives no more than the register ever counted at that pace; else it is reported and left out.
 *
 * @param series reads, ascending in time
 * @param findings where to report reads that go backwards
 * @param localTextOf wall-clock text of an instant, for messages
 * @returns differences in the order of time
 * @example registerUses(reads, findings, text)[0].used // 0.25
 */
export function registerUses<C extends string>(
  series: Series<C>,
  findings: Findings,
  localTextOf: (utcMs: number) => string,
): RegisterUse[] {
  const { utcMs, values, records, files, estimated, channel } = series;
  const uses: RegisterUse[] = [];
  let fastest = 0;
  const textAt = (i: number): string => localTextOf(utcMs[i]!);
  const isMidnight = (i: number): boolean => textAt(i).endsWith(' 00:00');
  /** Whether the counter was restarted between two reads: a midnight lies there, or the first read at midnight shows the day before. */
  const isAfterRestart = (i: number): boolean => {
    if (isMidnight(i - 1)) return values[i]! < values[i - 1]! || !isRestarted(i - 1);
    return textAt(i).slice(0, 10) !== textAt(i - 1).slice(0, 10) && (!isMidnight(i) || isRestarted(i));
  };
  /** Whether a read at midnight is of the new day: it is lower than the one before. */
  const isRestarted = (i: number): boolean => i === 0 || values[i]! < values[i - 1]!;
  for (let i = 1; i < utcMs.length; i++) {
    const used = values[i]! - values[i - 1]!;
    if (used > 0) fastest = Math.max(fastest, used / ((utcMs[i]! - utcMs[i - 1]!) / HOUR_MS));
  }
  for (let i = 1; i < utcMs.length; i++) {
    let used = values[i]! - values[i - 1]!;
    if (series.restartsDaily === true && isAfterRestart(i)) {
      // What the counter shows was used since midnight; only a read at midnight itself tells what came before.
      if (!isMidnight(i - 1)) {
        const text = `${localTextOf(utcMs[i - 1]!)} to ${localTextOf(utcMs[i]!)}: ${number(values[i - 1]!)} then ${number(values[i]!)}`;
        findings.add(files[i]!, 'register restarted', channel, { record: records[i]!, text });
        continue;
      }
      used = values[i]!;
    } else if (used < 0) {
      const hours = (utcMs[i]! - utcMs[i - 1]!) / HOUR_MS;
      const full = 10 ** Math.ceil(Math.log10(values[i - 1]! + 1e-9));
      const over = full - values[i - 1]! + values[i]!;
      const rolled = values[i]! >= 0 && values[i - 1]! > 0.9 * full && over <= fastest * hours * 1.0001;
      const text = `${localTextOf(utcMs[i]!)}: ${number(values[i - 1]!)} then ${number(values[i]!)}`;
      const place = { record: records[i]!, text };
      findings.add(files[i]!, rolled ? 'register rolled over' : 'register backwards', channel, place);
      if (!rolled) continue;
      used = over;
    }
    uses.push({
      fromUtcMs: utcMs[i - 1]!,
      toUtcMs: utcMs[i]!,
      used,
      record: records[i]!,
      file: files[i]!,
      estimated: estimated[i]! | estimated[i - 1]!,
    });
  }
  return uses;
}

const number = (value: number): string => String(Number(value.toFixed(3)));

/**
 * The intervals of a register that was read at its usual pace. Where reads are missing the energy in between is known only as a sum:
 * it is reported, not spread.
 *
 * @param series reads, ascending in time
 * @param findings where to report
 * @param localTextOf wall-clock text of an instant
 * @returns a series of interval values
 * @example intervalsOfRegister(reads, findings, text).kind // 'interval'
 */
export function intervalsOfRegister<C extends string>(
  series: Series<C>,
  findings: Findings,
  localTextOf: (utcMs: number) => string,
): Series<C> {
  const uses = registerUses(series, findings, localTextOf);
  const even: RegisterUse[] = [];
  for (const use of uses) {
    if (use.toUtcMs - use.fromUtcMs === series.stepMs) {
      even.push(use);
      continue;
    }
    findings.add(use.file, 'register gap', series.channel, {
      record: use.record,
      text: `${localTextOf(use.fromUtcMs)} to ${localTextOf(use.toUtcMs)}: ${number(use.used)} in all`,
    });
  }
  return {
    ...series,
    kind: 'interval',
    utcMs: Float64Array.from(even, (use) => use.fromUtcMs),
    values: Float64Array.from(even, (use) => use.used),
    records: Int32Array.from(even, (use) => use.record),
    files: Int16Array.from(even, (use) => use.file),
    estimated: Uint8Array.from(even, (use) => use.estimated),
  };
}
