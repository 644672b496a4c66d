import type { FileReport, FindingKind } from '../../../src/readings/index.js';
import type { Understood } from './fuzz-readers.js';
import { CHANGE_UTC, type FuzzSample } from './fuzz-samples.js';
import type { Mutated } from './mutate.js';

/** Lines that show a file's interval and which way its columns go. */
const FEWEST_LINES = 3;
const NEAR = 1e-9;
const HOUR_MS = 3_600_000;

/** Findings that say of a line that it gave no value of its own. */
const LEFT_OUT: readonly FindingKind[] = [
  'duplicate',
  'conflict',
  'incomplete half-hour',
  'skipped hour',
  'register backwards',
  'register gap',
  'register end',
];

/**
 * Holds what a mutated file gave against the file that it was.
 *
 * @param sample the file
 * @param before what it gave
 * @param after what its mutation gave
 * @param mutated the mutation
 * @returns what is wrong and that the report does not name, in words; undefined where nothing is
 * @example judge(sample, before, before, mutated) // undefined
 */
export function judge(
  sample: FuzzSample,
  before: Understood,
  after: Understood,
  mutated: Mutated,
): string | undefined {
  return (
    linesUnaccounted(sample, after, mutated) ??
    (understanding(after.report) === understanding(before.report)
      ? differentValues(sample, before, after, mutated)
      : differentMeaning(sample, before, after, mutated))
  );
}

/** Whether the report's counts are those of the file, and each line of readings gave a value or is told. */
function linesUnaccounted(
  sample: FuzzSample,
  { report, values }: Understood,
  { text }: Mutated,
): string | undefined {
  const { all, readings, withoutValue, header, above, blank, other = [] } = report.lines;
  const others = other.reduce((sum, { count }) => sum + count, 0);
  if (all !== readings + withoutValue + header + above.length + blank + others)
    return 'the counts of lines do not add up';
  // What the readings of a document are counted by are no lines of a text.
  if (text !== undefined && !text.includes('"') && report.lineName === 'line') {
    const lines = text.split(/\r\n|\n|\r/);
    const count = lines.length - (lines.at(-1) === '' ? 1 : 0);
    if (all !== count) return `${all} lines counted of ${count}`;
  }
  const giving = new Set([...values.values()].map(({ line }) => line));
  // Where a value rests on several lines, or no line is named, that they add up says enough.
  if (sample.reach > 0 || giving.has(Number.NaN)) return undefined;
  const told = report.findings.reduce(
    (sum, { kind, count }) => sum + (LEFT_OUT.includes(kind) ? count : 0),
    0,
  );
  // One line of a document may hold several readings.
  const given =
    report.lineName === 'reading'
      ? [...values.keys()].filter((key) => !key.startsWith('mark')).length
      : giving.size;
  const silent = readings - given - told;
  return silent > 0 ? `${silent} lines of readings gave nothing, and nothing says so` : undefined;
}

/** Lines of data never change what the header says; another header does, or the report says what was assumed. */
function differentMeaning(
  sample: FuzzSample,
  before: Understood,
  after: Understood,
  { touched, absent, moved }: Mutated,
): string | undefined {
  const concerned = new Set([...touched, ...absent]).size;
  if (sample.lines.length - sample.headLines - concerned < FEWEST_LINES) return undefined;
  const isNamed =
    assumptionsOf(after.report) !== assumptionsOf(before.report) || saysSoItself(before.report, after.report);
  // Where no header states anything, the lines show it, and the report says what was assumed of them.
  const inHead =
    sample.headLines === 0 || [...touched, ...absent, ...moved].some((line) => line <= sample.headLines);
  if (inHead && (isNamed || hasSameValues(before, after))) return undefined;
  return `understood differently: ${understanding(before.report)} / ${understanding(after.report)}`;
}

/** Whether a file gives what it gave: what stands in its cells can say as much as a name above them. */
function hasSameValues(before: Understood, after: Understood): boolean {
  const isSame = [...before.values].every(
    ([key, { value }]) => Math.abs((after.values.get(key)?.value ?? Number.NaN) - value) <= NEAR,
  );
  return isSame && before.values.size === after.values.size;
}

/** Untouched lines give what they gave; nothing else comes but from touched lines. */
function differentValues(
  sample: FuzzSample,
  before: Understood,
  after: Understood,
  { touched, absent, moved }: Mutated,
): string | undefined {
  const restsOnChange = (line: number): boolean => {
    for (let n = line - sample.reach; n <= line + sample.reach; n++)
      if (touched.has(n) || absent.has(n)) return true;
    return false;
  };
  // Two lines of one label that change places are a file as good as the first.
  const isHourTold = after.report.findings.some(({ kind }) => kind.startsWith('repeated hour'));
  // A header of other columns can leave lines without a value: their number says so.
  // A session over others adds to what they gave, and is told.
  if (after.report.findings.some(({ kind }) => kind === 'overlapping sessions')) return undefined;
  let blank = after.report.lines.withoutValue - before.report.lines.withoutValue;
  for (const [key, { value, line }] of before.values) {
    if (restsOnChange(line) || (isRepeated(key) && (isHourTold || moved.has(line)))) continue;
    const now = after.values.get(key);
    if (now === undefined && blank-- > 0) continue;
    if (now === undefined) return `${key} of line ${line} is lost`;
    if (Math.abs(now.value - value) > NEAR) return `${key} of line ${line} is ${now.value} for ${value}`;
  }
  let added = 0;
  for (const key of after.values.keys()) if (!before.values.has(key)) added++;
  // Where a line is gone, one value may rest on its two neighbours.
  const allowed = (touched.size + (sample.reach > 0 ? absent.size : 0)) * sample.valuesOfLine;
  return added > allowed ? `${added} values came from nowhere` : undefined;
}

/** Whether a key is one of the two hours that autumn's change makes of one, {@link CHANGE_UTC}. */
function isRepeated(key: string): boolean {
  return Math.abs(Number(key.split(' ')[1]) - CHANGE_UTC) <= HOUR_MS;
}

/** Whether another header explains what is understood differently: a column of the same name means the same, as do its stamps. */
function saysSoItself(before: FileReport, after: FileReport): boolean {
  const names = new Set(before.columns.map(({ column }) => column));
  const meant = new Set(meaningsOf(before));
  const isSame = meaningsOf(after).every(
    (text, i) => meant.has(text) || !names.has(after.columns[i]!.column),
  );
  const stampsOf = (report: FileReport): string => `${report.clock} ${report.stamp}`;
  return (
    isSame && (before.columns[0]!.column !== after.columns[0]!.column || stampsOf(before) === stampsOf(after))
  );
}

/** How the columns and the stamps of a file were understood, as its report says. */
function understanding(report: FileReport): string {
  const { clock, stamp, interval, layout, headerLine } = report;
  const hasHeader = headerLine !== undefined;
  // How long sessions last, each line says for itself.
  const paced = interval.replace(/ of \d+( to \d+)? minutes/, '');
  return JSON.stringify([meaningsOf(report).sort(), clock, stamp, paced, layout, hasHeader]);
}

/** What each column was taken for; a column without a name may stand anywhere, and the order in which lines name channels means nothing. */
function meaningsOf({ columns }: FileReport): string[] {
  return columns.map(
    ({ column, meaning, unit }) =>
      `${column.replace(/^column \d+/, 'unnamed')} ${meaning.split(/: |, /).sort().join(', ')} ${unit}`,
  );
}

function assumptionsOf({ assumptions, unusedColumns, dates }: FileReport): string {
  // That nothing closes the last line says nothing of the others.
  const kept = assumptions.filter((text) => !text.includes('no line end closes it'));
  return JSON.stringify([kept, unusedColumns, dates]);
}
