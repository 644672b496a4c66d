import { shortQuotes } from '../plain-text.js';
import { channelsInWords } from './channel-words.js';
import type { FileReport, FilesReport, Finding, LineCounts } from './file-report.js';
import { thousands } from './format-number.js';
import { lineText } from './place-text.js';

const WIDTH = 80;
/** No line of a report is longer, whatever a file quotes in it; a file of many columns names them all. */
const LONGEST_ITEM = 5000;

/**
 * The report of an import as plain text for a terminal, at most 80 columns wide.
 *
 * @param report what was understood and found
 * @returns lines joined by line feeds, ending with one
 * @example formatImportReport(report).split('\n')[0] // 'may.csv'
 */
export function formatImportReport(report: FilesReport): string {
  const lines: string[] = [];
  for (const file of report.files) lines.push(...formatFileReport(file), '');
  for (const { file, why } of report.notRead ?? [])
    lines.push(...wrap(`${file}: not read, ${why}`, '', '  '));
  if ((report.notRead ?? []).length > 0) lines.push('');
  lines.push('Together');
  for (const { name, text } of report.summary) lines.push(...item(channelsInWords(name), text));
  return `${lines.join('\n')}\n`;
}

/**
 * One file's part of the report.
 *
 * @param file what was understood and found in it
 * @returns lines of at most 80 columns
 * @example formatFileReport(report.files[0]).join('\n')
 */
export function formatFileReport(file: FileReport): string[] {
  const { lineName: name } = file;
  const header =
    file.headerLine === undefined
      ? 'no header'
      : `header ${name === 'row' ? 'in row' : 'on line'} ${file.headerLine}`;
  const lines = [...wrap(file.file, '', '  ')];
  const layout = name === 'row' ? file.layout.replace('line', 'row') : file.layout;
  const shape = `${layout}, ${header}`;
  if (file.source !== undefined && name !== 'row') lines.push(...item('values', thousands(file.rows)));
  else lines.push(...item(`${name}s`, `${thousands(file.rows)}, ${shape}`));
  lines.push(...item('of', countsText(file.lines, name)));
  if (file.source !== undefined) lines.push(...item('file', file.source));
  else {
    const mark = file.decimalMark === ',' ? 'comma' : 'point';
    lines.push(...item('text', `${file.encoding}, ${file.delimiter} between cells, decimal ${mark}`));
  }
  for (const { column, meaning, unit } of file.columns) {
    lines.push(
      ...item('column', `${column}: ${channelsInWords(meaning)}${unit === undefined ? '' : `, ${unit}`}`),
    );
  }
  if (file.unusedColumns.length > 0) lines.push(...item('not used', file.unusedColumns.join(', ')));
  lines.push(...item('stamps', `${file.clock}; ${file.stamp}; dates ${file.dates}`));
  lines.push(...item('interval', file.interval));
  lines.push(...item('from, to', `${file.from}, ${file.to}`));
  if (file.remembered !== undefined) lines.push(...item('told', file.remembered));
  for (const assumption of file.assumptions) lines.push(...item('assumed', assumption));
  if (file.findings.length === 0) lines.push(...item('found', 'nothing out of the ordinary'));
  for (const finding of file.findings) lines.push(...formatFinding(finding));
  return lines;
}

/** The lines of a file by what they are: the numbers add up. */
function countsText(
  { all, readings, withoutValue, header, above, blank, other = [] }: LineCounts,
  name: string,
): string {
  const parts = [`${thousands(readings)} with readings`];
  if (withoutValue > 0) parts.push(`${thousands(withoutValue)} without a value`);
  if (header > 0) parts.push(`${header} of the header`);
  if (above.length > 0)
    parts.push(`${above.length} above the readings, not read (${rangesText(above, name)})`);
  if (blank > 0) parts.push(`${thousands(blank)} blank`);
  for (const { count, what } of other) parts.push(`${thousands(count)} ${what}`);
  return `${thousands(all)} ${all === 1 ? name : `${name}s`}: ${parts.join(', ')}`;
}

/** Numbers of lines as ranges: `line 1`, `lines 1 to 3, 5`. */
function rangesText(numbers: readonly number[], name: string): string {
  const ranges: [first: number, last: number][] = [];
  for (const number of numbers) {
    const range = ranges.at(-1);
    if (range !== undefined && range[1] === number - 1) range[1] = number;
    else ranges.push([number, number]);
  }
  const texts = ranges.map(([first, last]) => (first === last ? `${first}` : `${first} to ${last}`));
  return `${name}${numbers.length === 1 ? '' : 's'} ${texts.join(', ')}`;
}

function formatFinding(finding: Finding): string[] {
  const { channel, count, message, done, places, placeCount } = finding;
  const what = channel === undefined ? message : `${channelsInWords(channel)}, ${message}`;
  const lines = item('found', `${what}: ${thousands(count)}${done === '' ? '' : ` (${done})`}`);
  for (const { line, text } of places)
    lines.push(...wrap(`${lineText(line)}: ${text}`, ' '.repeat(14), ' '.repeat(16)));
  const more = placeCount - places.length;
  if (places.length > 0 && more > 0) lines.push(`${' '.repeat(14)}and ${thousands(more)} more`);
  return lines;
}

function item(name: string, text: string): string[] {
  return wrap(text, `  ${name.padEnd(9)} `, ' '.repeat(12));
}

/** Breaks a text at blanks; a word longer than a line is cut. */
function wrap(text: string, first: string, next: string): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (let word of shortQuotes(text, LONGEST_ITEM).split(' ')) {
    if (!empty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = next;
      empty = true;
    }
    while (line.length + (empty ? 0 : 1) + word.length > WIDTH) {
      const room = WIDTH - line.length;
      lines.push(line + word.slice(0, room));
      word = word.slice(room);
      line = next;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  lines.push(line.trimEnd());
  return lines;
}
