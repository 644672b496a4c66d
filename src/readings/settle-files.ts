import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import { ZoneClock } from '../time/zone-clock.js';
import { type Draft, draftTable, isDateOnly } from './draft.js';
import { Findings } from './findings.js';
import { fixedOffsetOf } from './fixed-offset.js';
import {
  type DateOrder,
  type DecimalMark,
  type ImportOptions,
  type InputFile,
  optionsOf,
} from './import-options.js';
import { listText } from './list-text.js';
import { openTables } from './open-tables.js';
import { settleDecimalMark } from './parse-number.js';
import { readStamps, type Stamps } from './read-stamps.js';
import { mergeSeries, type Series, type Twice } from './series.js';
import { seriesOfFile } from './series-of-file.js';
import { askForDateOrder } from './settle-date-order.js';
import { usualStepMs } from './settle-interval.js';
import { settlePositions } from './settle-positions.js';
import { settleSessions } from './settle-sessions.js';
import type { Settled } from './settled.js';
import { snapToGrid } from './snap-to-grid.js';
import { stepOfNumbers } from './step-of-numbers.js';
import { unpackFiles } from './unpack-files.js';
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
  /** What was left out of zip files, and why. */
  notRead: { file: string; why: string }[];
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
  const { files: unpacked, notRead } = unpackFiles(files);
  const drafts = unpacked
    .flatMap((file) => openTables(file, optionsOf(options, file), vocabulary))
    .map((opened, index) => draftTable(opened, index, options.timeZone, vocabulary));
  checkNamedColumns(drafts, options);
  const findings = new Findings(drafts.map((draft) => draft.table));
  const orders = settleOrders(drafts);
  const stamps = drafts.map((draft, i) => readStamps(draft, orders[i]));
  const sessions = drafts.map((draft, i) => settleSessions(draft, stamps[i]!, vocabulary));
  const snapped = stamps.map((one, i) => (sessions[i] === true ? 0 : snapToGrid(one, drafts[i]!, findings)));
  const clock = clockOver(options.timeZone, stamps);
  const steps = settleSteps(drafts, stamps, findings).map((step, i) =>
    sessions[i] === true ? DEFAULT_STEP_MS : step,
  );
  const positions = settlePositions(drafts, stamps, steps, snapped, clock);
  const settled = drafts.map(
    (draft, i): Settled<C> => ({
      draft,
      stamps: stamps[i]!,
      ...positions[i]!,
      stepMs: steps[i]!,
      sessions: sessions[i]!,
      decimalMark: decimalMarkOf(draft),
      fixedOffsetMinutes: fixedOffsetOf(draft),
    }),
  );
  const groups = new Map<string, Series<C>[]>();
  for (const file of settled) {
    for (const series of seriesOfFile(file, clock, findings)) {
      const key = `${series.channel} ${series.kind} ${series.stepMs} ${series.restartsDaily === true}`;
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
    notRead,
    series: merged.map((m) => m.series),
    duplicates: merged.flatMap((m) => m.duplicates),
    conflicts: merged.flatMap((m) => m.conflicts),
  };
}

/** A column that an option names must be in one of the files, or in the file that the option is about. */
function checkNamedColumns<C extends string>(drafts: readonly Draft<C>[], options: ImportOptions): void {
  for (const name of Object.keys(options.channels ?? {})) requireColumn(name, drafts);
  for (const [file, own] of Object.entries(options.perFile ?? {})) {
    const named = drafts.filter(({ input }) => input.name === file || input.packedIn === file);
    if (named.length === 0) {
      throw new InputError(
        `options are given for "${file}", which is not among the files`,
        'Give its name as in the list of files.',
      );
    }
    for (const name of Object.keys(own.channels ?? {})) requireColumn(name, named);
  }
}

function requireColumn<C extends string>(name: string, drafts: readonly Draft<C>[]): void {
  const bare = name.trim().toLowerCase();
  const isThere = drafts.some(
    ({ columns: { header }, table: { source } }) =>
      source?.names?.some((known) => known.toLowerCase() === bare) ||
      header.some((cell) => cell.trim().toLowerCase() === bare) ||
      (Number(bare) >= 1 && Number(bare) <= header.length),
  );
  if (isThere) return;
  const { columns, table } = drafts[0]!;
  const known = [...(table.source?.names ?? []), ...columns.header]
    .filter((cell) => cell !== '')
    .map((cell) => `"${cell}"`);
  throw new InputError(
    `no column "${name}"`,
    known.length > 0
      ? `The columns are ${listText(known, 12)}.`
      : 'The file has no header: give the number of the column.',
    { file: table.file },
  );
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
  const numbered = new Map<string, ReturnType<typeof stepOfNumbers>>();
  const own = drafts.map((draft, i) => {
    if (draft.options.intervalMinutes !== undefined) return draft.options.intervalMinutes * MINUTE_MS;
    if (draft.slots !== undefined) return draft.slots.stepMinutes * MINUTE_MS;
    if (draft.stamps.period !== undefined) {
      const { signature } = draft;
      const known =
        numbered.get(signature) ?? stepOfNumbers(drafts.filter((other) => other.signature === signature));
      numbered.set(signature, known);
      if (known.assumption !== undefined) findings.assume(i, known.assumption);
      return known.stepMs;
    }
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

function decimalMarkOf<C extends string>(draft: Draft<C>): DecimalMark {
  const { options, columns, values, slots, table } = draft;
  if (options.decimalMark !== undefined) return options.decimalMark;
  const records = columns.rows.map((r) => table.records[r]!);
  const cells = slots?.columns ?? [...new Set(values.values.map((value) => value.column))];
  const evidence = settleDecimalMark(records, cells);
  if (evidence === 'none') return '.';
  if (typeof evidence === 'string') return evidence;
  throw new InputError(
    `"${evidence.cell}" could be a decimal comma or a thousands comma, and no value of the file settles it`,
    'Say which mark is decimal: --decimal comma or --decimal point.',
    { file: table.file, line: table.lineOf(columns.rows[evidence.ambiguousRow]!) },
  );
}
