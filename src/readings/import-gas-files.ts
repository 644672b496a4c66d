import { InputError } from '../errors.js';
import { DAY_MS, localMsToSerial } from '../time/serial.js';
import { askWhetherRegister } from './ask-whether-register.js';
import { localTextOf, placeIn, refuseConflicts, reportTwice } from './check-series.js';
import type { FilesReport } from './file-report.js';
import { thousands } from './format-number.js';
import { type GasChannel, gasVocabulary } from './gas-vocabulary.js';
import type { ImportOptions, InputFile } from './import-options.js';
import { localText } from './local-text.js';
import { placeText } from './merge-readings.js';
import { registerUses } from './registers.js';
import { reportOfFile } from './report-of-file.js';
import { mergeSeries, type Series } from './series.js';
import { type ReadFiles, readSeries } from './settle-files.js';
import { MONTH_MS } from './settle-interval.js';

/** More than a year and a month between two ends is rarely meant. */
const LONG_DAYS = 396;
/** A quarter of an hour, in days: periods closer than that follow each other. */
const TOUCHING = 1 / 96;

/** Gas used from one moment to another. */
export interface GasPeriod {
  /** Local wall-clock times, days since 1899-12-30. The end is not part of the period. */
  fromSerial: number;
  toSerial: number;
  /** Gas used, in `unit`. */
  value: number;
  /** kWh where the file gives energy, m³ where it gives a volume (cubic feet are converted). */
  unit: 'kWh' | 'm3';
  /** Whether a read of the period was marked as estimated. */
  estimated: boolean;
}

/** Gas by periods, and the report. */
export interface ImportedGas {
  /** Ascending in time, none over another. */
  periods: GasPeriod[];
  report: FilesReport;
}

/** A period and where it stands. */
interface PlacedPeriod extends GasPeriod {
  file: number;
  record: number;
}

/**
 * Imports gas readings: a register or intervals, in m³, ft³ or kWh; half-hourly, daily, monthly or at any dates (a register, or lines
 * with both ends). Cubic feet become m³ (1 ft³ = 0.0283168 m³, Gas (Calculation of Thermal Energy) Regulations 1996; from memory).
 *
 * @param files names and bytes, in any order
 * @param options time zone, and what the user says about the files
 * @returns periods with their gas, and the report
 * @throws InputError as the electricity import does; also where no unit is stated, and where periods overlap
 * @example importGasFiles([{ name: 'gas.csv', bytes }], { timeZone: 'Europe/London' }).periods[0].unit // 'm3'
 */
export function importGasFiles(files: readonly InputFile[], options: ImportOptions): ImportedGas {
  const read = readSeries(files, options, gasVocabulary);
  askForUnit(read);
  const textOf = localTextOf(read);
  const registers = read.series.filter((series) => series.kind === 'register');
  const duplicates = [...read.duplicates];
  const conflicts = [...read.conflicts];
  const placed: PlacedPeriod[] = [];
  if (registers.length > 0) {
    refuseMixedRegisters(read);
    const merged = mergeSeries(registers);
    duplicates.push(...merged.duplicates);
    conflicts.push(...merged.conflicts);
    for (const use of registerUses(merged.series, read.findings, textOf)) {
      placed.push({
        fromSerial: serialAt(read, use.fromUtcMs),
        toSerial: serialAt(read, use.toUtcMs),
        value: use.used,
        unit: unitOf(read, use.file),
        estimated: use.estimated === 1,
        file: use.file,
        record: use.record,
      });
    }
  }
  refuseConflicts(read, conflicts, options);
  reportTwice(read, duplicates, conflicts);
  for (const series of read.series) {
    if (series.kind !== 'interval') continue;
    askWhetherRegister(read, series);
    placed.push(...periodsOf(read, series));
  }
  placed.sort((a, b) => a.fromSerial - b.fromSerial || a.toSerial - b.toSerial || a.file - b.file);
  if (placed.length === 0) {
    throw new InputError('the files hold no gas used', 'A register needs at least two reads.', {
      file: files[0]!.name,
    });
  }
  lookOver(read, placed);
  const wholeDays = joinPartsOfDays(read, placed);
  const periods = wholeDays.map(({ file: _, record: __, ...period }) => period);
  return {
    periods,
    report: {
      timeZone: options.timeZone,
      files: read.settled.map((file) => reportOfFile(file, read.clock, read.findings, gasVocabulary)),
      notRead: read.notRead,
      summary: summaryOf(periods),
    },
  };
}

/** A cubic metre holds about eleven kWh: a guess of the unit would be far off. */
function askForUnit(read: ReadFiles<GasChannel>): void {
  for (const { draft } of read.settled) {
    const { table, columns, values } = draft;
    const unknown = values.values.find((column) => column.unitAssumed);
    if (unknown === undefined) continue;
    const name = columns.headerRecord === undefined ? '' : ` of "${columns.header[unknown.column]}"`;
    throw new InputError(
      `no unit${name} is stated`,
      'Say whether the gas is in --unit m3, ft3, 100ft3 or kWh: it stands on the meter and on the bill.',
      { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
    );
  }
}

/** Reads in kWh and in m³ are of two counters: their difference means nothing. */
function refuseMixedRegisters(read: ReadFiles<GasChannel>): void {
  const counters = read.settled.filter(({ draft }) => draft.values.values[0]!.register === true);
  const other = counters.find(
    ({ draft }) => unitOf(read, draft.index) !== unitOf(read, counters[0]!.draft.index),
  );
  if (other === undefined) return;
  throw new InputError(
    `the register is in ${unitOf(read, other.draft.index)}, that of ${counters[0]!.draft.table.file} in ${unitOf(read, counters[0]!.draft.index)}`,
    'Give the reads of one register in one unit.',
    { file: other.draft.table.file },
  );
}

function unitOf(read: ReadFiles<GasChannel>, file: number): 'kWh' | 'm3' {
  return read.settled[file]!.draft.values.values[0]!.unit.quantity === 'volume' ? 'm3' : 'kWh';
}

function serialAt(read: ReadFiles<GasChannel>, utcMs: number): number {
  return localMsToSerial(read.clock.localMsAt(utcMs));
}

/** Periods of interval values: from both ends where a file gives them, else from the pace of its lines. */
function periodsOf(read: ReadFiles<GasChannel>, series: Series<GasChannel>): PlacedPeriod[] {
  const ends = new Map(read.settled.map(({ draft }) => [draft.index, endsOf(read, draft.index)]));
  askWhereUneven(read, series, ends);
  return Array.from(series.utcMs, (utcMs, i) => {
    const file = series.files[i]!;
    const record = series.records[i]!;
    const end = ends.get(file)?.get(record);
    const local = read.clock.localMsAt(utcMs);
    const [from, to] =
      end !== undefined
        ? [local, end]
        : series.stepMs < DAY_MS
          ? [local, read.clock.localMsAt(utcMs + series.stepMs)]
          : wholeDays(local, series.stepMs, read.settled[file]!.position, monthEnds(read, file));
    return {
      fromSerial: localMsToSerial(from),
      toSerial: localMsToSerial(to),
      value: series.values[i]!,
      unit: unitOf(read, file),
      estimated: series.estimated[i] === 1,
      file,
      record,
    };
  });
}

/** Ends of a file's lines by record, wall-clock ms; a date names the last day of its period unless the next period begins with it. */
function endsOf(read: ReadFiles<GasChannel>, file: number): Map<number, number> | undefined {
  const { draft, stamps } = read.settled[file]!;
  const { endMs, ms } = stamps;
  if (endMs === undefined) return undefined;
  const dateOnly = draft.stamps.endDate !== undefined && draft.columns.kinds[draft.stamps.endDate] === 'date';
  const included = dateOnly && endIncluded(read, file, ms, endMs);
  const toLocal = (end: number): number => (stamps.instants ? read.clock.localMsAt(end) : end);
  return new Map(
    draft.columns.rows.map((record, i) => [record, toLocal(endMs[i]!) + (included ? DAY_MS : 0)]),
  );
}

/** Whether the end date belongs to the period: the next line tells, else whole months do; else it is taken so and said. */
function endIncluded(
  read: ReadFiles<GasChannel>,
  file: number,
  ms: Float64Array,
  endMs: Float64Array,
): boolean {
  const starts = new Set(ms);
  const count = (test: (end: number, i: number) => boolean): number => endMs.filter(test).length;
  const begun = count((end) => starts.has(end));
  const followed = count((end) => starts.has(end + DAY_MS));
  if (count((end, i) => end === ms[i]) > 0) return true;
  if (begun !== followed) return followed > begun;
  const dayOf = (at: number): number => new Date(at).getUTCDate();
  const wholeWithout = count((end, i) => dayOf(end) === dayOf(ms[i]!));
  const wholeWith = count((end, i) => dayOf(end + DAY_MS) === dayOf(ms[i]!));
  const included = wholeWith >= wholeWithout;
  read.findings.assume(file, `the end date is ${included ? 'the last day of' : 'the day after'} its period`);
  return included;
}

function monthEnds(read: ReadFiles<GasChannel>, file: number): boolean {
  return read.settled[file]!.stamps.ms.every((ms) => new Date(ms + DAY_MS).getUTCDate() === 1);
}

/** A day, several, or a calendar month from a date; the month that a last day names; the month up to a date where stamped by end. */
function wholeDays(
  local: number,
  stepMs: number,
  position: 'start' | 'end',
  atMonthEnd: boolean,
): [number, number] {
  if (stepMs !== MONTH_MS) return [local, local + stepMs];
  if (atMonthEnd) return [addMonths(local + DAY_MS, -1), local + DAY_MS];
  return position === 'end' ? [addMonths(local, -1), local] : [local, addMonths(local, 1)];
}

function addMonths(localMs: number, months: number): number {
  const d = new Date(localMs);
  const first = Date.UTC(d.getUTCFullYear(), d.getUTCMonth() + months, 1);
  const inMonth = new Date(Date.UTC(d.getUTCFullYear(), d.getUTCMonth() + months + 1, 0)).getUTCDate();
  return (
    first +
    (Math.min(d.getUTCDate(), inMonth) - 1) * DAY_MS +
    (localMs - Math.floor(localMs / DAY_MS) * DAY_MS)
  );
}

/** Lines at uneven dates do not say how long each lasted. */
function askWhereUneven(
  read: ReadFiles<GasChannel>,
  series: Series<GasChannel>,
  ends: ReadonlyMap<number, Map<number, number> | undefined>,
): void {
  if (series.stepMs < DAY_MS) return;
  for (let i = 1; i < series.utcMs.length; i++) {
    if (ends.get(series.files[i]!) !== undefined) continue;
    const days = Math.round((series.utcMs[i]! - series.utcMs[i - 1]!) / DAY_MS);
    const even = isEven(days, series.stepMs);
    if (even) continue;
    throw new InputError(
      `${days} days lie between this line and the one before, so its period is unclear`,
      'Give both ends in columns From and To, or the reads of the register: --register yes.',
      placeIn(read, { file: series.files[i]!, record: series.records[i]! }),
    );
  }
}

/** Whether lines some days apart keep the pace of days, weeks or months. */
function isEven(days: number, stepMs: number): boolean {
  if (stepMs === MONTH_MS) return days >= 28 && isMonths(days);
  return (stepMs === DAY_MS || stepMs === 7 * DAY_MS) && days % (stepMs / DAY_MS) === 0;
}

/** Whether a number of days can be whole calendar months. */
function isMonths(days: number): boolean {
  const months = Math.round(days / 30.44);
  return Math.abs(days - months * 30.44) <= 3;
}

function lookOver(read: ReadFiles<GasChannel>, periods: readonly PlacedPeriod[]): void {
  const text = serialText;
  for (let i = 0; i < periods.length; i++) {
    const { fromSerial, toSerial, value, unit, estimated, file, record } = periods[i]!;
    const span = `${text(fromSerial)} to ${text(toSerial)}`;
    const before = periods[i - 1];
    if (toSerial <= fromSerial) {
      throw new InputError(
        `the period ends at ${text(toSerial)}, before it begins at ${text(fromSerial)}`,
        'Correct its ends.',
        placeIn(read, { file, record }),
      );
    }
    if (toSerial - fromSerial > LONG_DAYS)
      read.findings.add(file, 'long period', 'gas', { record, text: span });
    if (before !== undefined && before.toSerial > fromSerial + 1e-6) {
      throw new InputError(
        `the period ${span} begins before that of ${placeText(placeIn(read, before))} ends`,
        'Take one of them out: the gas would be counted twice.',
        placeIn(read, { file, record }),
      );
    }
    if (before !== undefined && before.toSerial < fromSerial - 1e-6) {
      read.findings.add(before.file, 'missing period', 'gas', {
        record: before.record,
        text: `${text(before.toSerial)} to ${text(fromSerial)}`,
      });
    }
    if (value < 0) read.findings.add(file, 'negative', 'gas', { record, text: `${span}: ${value} ${unit}` });
    if (estimated)
      read.findings.add(file, 'estimated gas', 'gas', {
        record,
        text: `${span}: ${Number(value.toFixed(3))} ${unit}`,
      });
  }
}

/**
 * Gas is kept by whole days: a part of a day, as between two reads of one day, goes with the longer period that touches it. Where none
 * does, nothing is joined, and less than a day between two gaps is told.
 */
function joinPartsOfDays(read: ReadFiles<GasChannel>, periods: readonly PlacedPeriod[]): PlacedPeriod[] {
  const isPart = ({ fromSerial, toSerial }: PlacedPeriod): boolean => toSerial - fromSerial < 1 - TOUCHING;
  const touch = (a: PlacedPeriod, b: PlacedPeriod): boolean =>
    Math.abs(b.fromSerial - a.toSerial) < TOUCHING && a.unit === b.unit;
  const tell = (part: PlacedPeriod): void => {
    const { fromSerial, toSerial, file, record } = part;
    const span = `${serialText(fromSerial)} to ${serialText(toSerial)}`;
    read.findings.add(file, 'part of a day', 'gas', { record, text: span });
  };
  const join = (a: PlacedPeriod, b: PlacedPeriod, at: PlacedPeriod): PlacedPeriod => ({
    ...at,
    fromSerial: a.fromSerial,
    toSerial: b.toSerial,
    value: a.value + b.value,
    estimated: a.estimated || b.estimated,
  });
  const joined: PlacedPeriod[] = [];
  // From the last to the first, so that several parts of one day join one after another.
  for (const period of [...periods].reverse()) {
    const next = joined.at(-1);
    if (next !== undefined && isPart(period) && !isPart(next) && touch(period, next)) {
      tell(period);
      joined[joined.length - 1] = join(period, next, next);
    } else joined.push(period);
  }
  joined.reverse();
  const result: PlacedPeriod[] = [];
  for (const period of joined) {
    const before = result.at(-1);
    if (before !== undefined && isPart(period) && !isPart(before) && touch(before, period)) {
      tell(period);
      result[result.length - 1] = join(before, period, before);
    } else result.push(period);
  }
  tellShortRuns(read, result, touch);
  return result;
}

function tellShortRuns(
  read: ReadFiles<GasChannel>,
  periods: readonly PlacedPeriod[],
  touch: (a: PlacedPeriod, b: PlacedPeriod) => boolean,
): void {
  for (let i = 0; i < periods.length; ) {
    let end = i;
    while (end + 1 < periods.length && touch(periods[end]!, periods[end + 1]!)) end++;
    const { fromSerial, file, record } = periods[i]!;
    const { toSerial } = periods[end]!;
    if (toSerial - fromSerial < 1 - TOUCHING) {
      const span = `${serialText(fromSerial)} to ${serialText(toSerial)}`;
      read.findings.add(file, 'less than a day', 'gas', { record, text: span });
    }
    i = end + 1;
  }
}

const serialText = (serial: number): string => localText((serial - 25_569) * DAY_MS).replace(' 00:00', '');

function summaryOf(periods: readonly GasPeriod[]): FilesReport['summary'] {
  return (['m3', 'kWh'] as const).flatMap((unit) => {
    const own = periods.filter((period) => period.unit === unit);
    if (own.length === 0) return [];
    const text = serialText;
    const total = own.reduce((sum, period) => sum + period.value, 0);
    const span = `${text(own[0]!.fromSerial)} to ${text(own.at(-1)!.toSerial)}`;
    return [
      { name: 'gas', text: `${span}, ${thousands(own.length)} periods, ${thousands(total, 1)} ${unit}` },
    ];
  });
}
