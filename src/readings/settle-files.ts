import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import { ZoneClock } from '../time/zone-clock.js';
import { type Draft, draftFile, isDateOnly } from './draft.js';
import { Findings } from './findings.js';
import type { DateOrder, DecimalMark, ImportOptions, InputFile, StampPosition } from './import-options.js';
import { settleDecimalMark } from './parse-number.js';
import { readStamps, type Stamps } from './read-stamps.js';
import { mergeSeries, type Series, type Twice } from './series.js';
import { type Settled, seriesOfFile } from './series-of-file.js';
import { askForDateOrder } from './settle-date-order.js';
import { positionFromSpan, type StampSpan, usualStepMs } from './settle-interval.js';
import type { Vocabulary } from './vocabulary.js';

const MINUTE_MS = 60_000;
const DEFAULT_STEP_MS = 30 * MINUTE_MS;

/** All files read: their series, clock and what was found so far. */
export interface ReadFiles<C extends string> {
  settled: Settled<C>[];
  clock: ZoneClock;
  findings: Findings;
  /** One merged series for each channel, kind and interval length. */
  series: Series<C>[];
  duplicates: Twice[];
  conflicts: Twice[];
}

/**
 * Reads files of one vocabulary into merged series. What one file of an export settles (order of dates, interval, start or end)
 * holds for all files with the same columns.
 *
 * @param files names and bytes
 * @param options options of the import
 * @param vocabulary channels to look for
 * @returns series, clock, and what was found
 * @throws InputError for a file that is no table of readings, and wherever something could mean two things
 * @example readSeries([file], { timeZone: 'Europe/London' }, electricityVocabulary).series.length // 1
 */
export function readSeries<C extends string>(
  files: readonly InputFile[],
  options: ImportOptions,
  vocabulary: Vocabulary<C>,
): ReadFiles<C> {
  if (files.length === 0) throw new InputError('no file was given', 'Give at least one file of readings.');
  const drafts = files.map((file, index) => draftFile(file, index, options, vocabulary));
  checkNamedColumns(drafts, options);
  const findings = new Findings(drafts.map((draft) => draft.table));
  const orders = settleOrders(drafts);
  const stamps = drafts.map((draft, i) => readStamps(draft, orders[i]));
  const snapped = stamps.map((one, i) => snapToGrid(one, drafts[i]!, findings));
  const clock = clockOver(options.timeZone, stamps);
  const steps = settleSteps(drafts, stamps, findings);
  const positions = settlePositions(drafts, stamps, steps, snapped, clock);
  const settled = drafts.map(
    (draft, i): Settled<C> => ({
      draft,
      stamps: stamps[i]!,
      ...positions[i]!,
      stepMs: steps[i]!,
      decimalMark: decimalMarkOf(draft),
      fixedOffsetMinutes: fixedOffsetOf(draft),
    }),
  );
  const groups = new Map<string, Series<C>[]>();
  for (const file of settled) {
    for (const series of seriesOfFile(file, clock, findings)) {
      const key = `${series.channel} ${series.kind} ${series.stepMs}`;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [series]);
      else group.push(series);
    }
  }
  const merged = [...groups.values()].map((group) => mergeSeries(group));
  return {
    settled,
    clock,
    findings,
    series: merged.map((m) => m.series),
    duplicates: merged.flatMap((m) => m.duplicates),
    conflicts: merged.flatMap((m) => m.conflicts),
  };
}

/** A column that an option names must be in one of the files. */
function checkNamedColumns<C extends string>(drafts: readonly Draft<C>[], options: ImportOptions): void {
  for (const name of Object.keys(options.channels ?? {})) {
    const bare = name.trim().toLowerCase();
    const there = drafts.some(
      ({ columns: { header } }) =>
        header.some((cell) => cell.trim().toLowerCase() === bare) ||
        (Number(bare) >= 1 && Number(bare) <= header.length),
    );
    if (there) continue;
    const known = drafts[0]!.columns.header.filter((cell) => cell !== '').map((cell) => `"${cell}"`);
    throw new InputError(
      `no column "${name}"`,
      known.length > 0
        ? `The columns are ${known.slice(0, 12).join(', ')}.`
        : 'The file has no header: give the number of the column.',
      { file: drafts[0]!.table.file },
    );
  }
  for (const [file, own] of Object.entries(options.perFile ?? {})) {
    if (!drafts.some((draft) => draft.table.file === file)) {
      throw new InputError(
        `options are given for "${file}", which is not among the files`,
        'Give its name as in the list of files.',
      );
    }
    void own;
  }
}

function settleOrders<C extends string>(drafts: readonly Draft<C>[]): (DateOrder | undefined)[] {
  const bySignature = new Map<string, Set<DateOrder>>();
  for (const { signature, dates } of drafts) {
    if (dates.order === undefined) continue;
    const set = bySignature.get(signature) ?? new Set();
    bySignature.set(signature, set.add(dates.order));
  }
  return drafts.map(({ options, dates, signature, table }) => {
    if (!dates.needed) return undefined;
    if (options.dateOrder !== undefined) return options.dateOrder;
    if (dates.order !== undefined) return dates.order;
    if (dates.ambiguous === undefined) return 'dmy';
    const [sibling, other] = bySignature.get(signature) ?? [];
    if (sibling !== undefined && other === undefined && !dates.twoDigitYear) return sibling;
    throw askForDateOrder(table.file, dates);
  });
}

const GRID_MS = 5 * MINUTE_MS;

/**
 * Moves stamps such as 00:29:59 or 00:30:01 to the five minutes that they stand next to, where all of a file stand so.
 * Returns 1 where every stamp that moved moved forward, as ends written as the last second do; -1 where not; 0 where none moved.
 */
function snapToGrid<C extends string>({ ms, endMs }: Stamps, draft: Draft<C>, findings: Findings): number {
  const off = (at: number): number => at - Math.round(at / GRID_MS) * GRID_MS;
  // An end written as the last second (23:59:59) is the next midnight.
  if (endMs?.every((at) => Math.abs(off(at)) <= MINUTE_MS))
    for (let i = 0; i < endMs.length; i++) endMs[i] = endMs[i]! - off(endMs[i]!);
  const first = ms.findIndex((at) => off(at) !== 0);
  if (first < 0 || ms.some((at) => Math.abs(off(at)) > MINUTE_MS)) return 0;
  let forward = true;
  for (let i = 0; i < ms.length; i++) {
    const by = off(ms[i]!);
    if (by >= 0) forward = false;
    ms[i] = ms[i]! - by;
  }
  const line = draft.table.lineOf(draft.columns.rows[first]!);
  findings.assume(
    draft.index,
    `stamps up to a minute off are read as the nearest five minutes, first on line ${line}`,
  );
  return forward ? 1 : -1;
}

function clockOver(timeZone: string, stamps: readonly Stamps[]): ZoneClock {
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (const { ms } of stamps) {
    for (let i = 0; i < ms.length; i++) {
      if (ms[i]! < first) first = ms[i]!;
      if (ms[i]! > last) last = ms[i]!;
    }
  }
  return new ZoneClock(timeZone, first - 2 * DAY_MS, last + 40 * DAY_MS);
}

function settleSteps<C extends string>(
  drafts: readonly Draft<C>[],
  stamps: readonly Stamps[],
  findings: Findings,
): number[] {
  const own = drafts.map((draft, i) => {
    if (draft.options.intervalMinutes !== undefined) return draft.options.intervalMinutes * MINUTE_MS;
    if (draft.slots !== undefined) return draft.slots.stepMinutes * MINUTE_MS;
    if (draft.stamps.period !== undefined) return DEFAULT_STEP_MS;
    return usualStepMs(draft, stamps[i]!);
  });
  return own.map((step, i) => {
    const { signature } = drafts[i]!;
    // A file of a few lines follows its longer siblings.
    const siblings = drafts.flatMap((d, k) => (d.signature === signature && own[k] !== undefined ? [k] : []));
    if (step !== undefined && stamps[i]!.ms.length > 2) return step;
    const longest = siblings.reduce(
      (a, b) => (stamps[b]!.ms.length > stamps[a]!.ms.length ? b : a),
      siblings[0] ?? i,
    );
    if (own[longest] !== undefined) return own[longest]!;
    if (isDateOnly(drafts[i]!)) {
      findings.assume(
        i,
        'the line holds one day, as a single line cannot show it (--interval says otherwise)',
      );
      return DAY_MS;
    }
    findings.assume(
      i,
      'the interval is 30 minutes, as a single line cannot show it (--interval says otherwise)',
    );
    return DEFAULT_STEP_MS;
  });
}

type Position = Pick<Settled<string>, 'position' | 'positionAssumed'>;

function settlePositions<C extends string>(
  drafts: readonly Draft<C>[],
  stamps: readonly Stamps[],
  steps: readonly number[],
  snapped: readonly number[],
  clock: ZoneClock,
): Position[] {
  const stated = (position: StampPosition): Position => ({ position, positionAssumed: undefined });
  const assumed = (position: StampPosition, why: string): Position => {
    const other = position === 'start' ? 'end' : 'start';
    return {
      position,
      positionAssumed: `stamps mark the ${position} of the interval, ${why} (--stamp ${other} says otherwise)`,
    };
  };
  return drafts.map((draft, i) => {
    if (draft.slots !== undefined || draft.stamps.period !== undefined) return stated('start');
    if (draft.stamps.position !== undefined) return stated(draft.stamps.position);
    if (snapped[i]! > 0) return assumed('end', 'as they stand just before it');
    // A value of a day or a month is of the day or month that it names.
    if (steps[i]! >= DAY_MS) return stated('start');
    const span = spanOfExport(draft, drafts, stamps, clock);
    const shown = positionFromSpan(span, steps[i]!);
    if (shown === undefined) return assumed('start', 'as nothing says which');
    const [first, last] = [span.firstMs, span.lastMs].map((ms) => new Date(ms).toISOString().slice(11, 16));
    return assumed(shown, `as they run from ${first} to ${span.has24 ? '24:00' : last}`);
  });
}

/** First and last wall-clock stamp over all files of the same export: a cut of it shows neither. */
function spanOfExport<C extends string>(
  draft: Draft<C>,
  drafts: readonly Draft<C>[],
  stamps: readonly Stamps[],
  clock: ZoneClock,
): StampSpan {
  const span = { firstMs: Number.POSITIVE_INFINITY, lastMs: Number.NEGATIVE_INFINITY, has24: false };
  drafts.forEach((other, k) => {
    if (other.signature !== draft.signature) return;
    const { ms, instants, has24 } = stamps[k]!;
    const offset = instants ? 0 : fixedOffsetOf(other);
    for (let j = 0; j < ms.length; j++) {
      const local = offset === undefined ? ms[j]! : clock.localMsAt(ms[j]! - offset * MINUTE_MS);
      if (local < span.firstMs) span.firstMs = local;
      if (local > span.lastMs) span.lastMs = local;
    }
    span.has24 ||= has24;
  });
  return span;
}

function decimalMarkOf<C extends string>(draft: Draft<C>): DecimalMark {
  const { options, columns, values, slots, table } = draft;
  if (options.decimalMark !== undefined) return options.decimalMark;
  const records = columns.rows.map((r) => table.records[r]!);
  const cells = slots?.columns ?? values.values.map((value) => value.column);
  const evidence = settleDecimalMark(records, cells);
  if (evidence === 'none') return '.';
  if (typeof evidence === 'string') return evidence;
  throw new InputError(
    `"${evidence.cell}" could be a decimal comma or a thousands comma, and no value of the file settles it`,
    'Say which mark is decimal: --decimal comma or --decimal point.',
    { file: table.file, line: table.lineOf(columns.rows[evidence.ambiguousRow]!) },
  );
}

/** Offset of stamps that do not follow the home's clock, minutes. */
export function fixedOffsetOf<C extends string>(draft: Draft<C>): number | undefined {
  const { zone } = draft.stamps;
  if (zone === undefined || zone.toLowerCase() === 'local') return undefined;
  if (['utc', 'gmt', 'z'].includes(zone.toLowerCase())) return 0;
  const match = /^([+-])(\d{2}):?(\d{2})$/.exec(zone);
  if (match === null) {
    throw new InputError(
      `"${zone}" is no zone of stamps`,
      'Give local, utc or a fixed offset such as +10:00.',
    );
  }
  return (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match[3]));
}
