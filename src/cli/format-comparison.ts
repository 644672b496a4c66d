import type { WorkbookResults } from '../workbook/evaluate/workbook-results.js';
import { hasName } from '../workbook/inputs/workbook-inputs.js';
import { periodText, sentenceOf } from '../workbook/model/sentences.js';

const HEADERS = [
  'Tariff',
  'Energy',
  'Standing',
  'Export',
  'Total',
  'Diff.',
  'All-in',
  'Off-pk',
  'Covered',
] as const;
const WIDTH = 80;
/** A name is cut where the table would be wider than the terminal, but never to less than this. */
const SHORTEST_NAME = 8;

/**
 * The comparison as a table that fits 80 columns, cheapest first.
 *
 * @param results what the library worked out
 * @returns lines of text, without colour
 */
export function formatComparison(results: WorkbookResults): string {
  const { inputs, tariffs, todays } = results;
  const currency = String(inputs.home.currency ?? '');
  const minor = String(inputs.home.minorUnit ?? '');
  const ranked = tariffs
    .map((tariff, t) => ({ totals: tariff.totals, name: inputs.tariffs[t]!.name, isTodays: t === todays }))
    .filter(({ name }) => hasName(name))
    .sort((a, b) => (a.totals.rank ?? 0) - (b.totals.rank ?? 0));
  const rows = ranked.map(({ totals, name, isTodays }) => [
    `${isTodays ? '*' : ' '}${String(name)}`,
    money(totals.energyPounds),
    money(totals.standingPounds),
    money(totals.exportCreditPounds === null ? null : -totals.exportCreditPounds),
    money(totals.totalPounds),
    signed(totals.differencePounds),
    plain(totals.allInPence, 2),
    percent(totals.offPeakShare),
    percent(totals.coverage),
  ]);
  const units = ['', currency, currency, currency, currency, currency, `${minor}/kWh`, 'share', ''];
  const table = [[...HEADERS], units, ...rows];
  const widths = HEADERS.map((_, column) => Math.max(...table.map((row) => row[column]!.length)));
  const others = widths.slice(1).reduce((sum, width) => sum + width + 1, 0);
  widths[0] = Math.min(widths[0]!, Math.max(SHORTEST_NAME, WIDTH - others));
  const lines = table.map((row) =>
    row
      .map((cell, column) =>
        column === 0 ? clipped(cell, widths[0]!).padEnd(widths[0]!) : cell.padStart(widths[column]!),
      )
      .join(' ')
      .trimEnd(),
  );
  lines.splice(2, 0, '-'.repeat(widths.reduce((sum, width) => sum + width + 1, -1)));
  return [
    ...wrapped(sentenceOf(results)),
    '',
    ...lines,
    '',
    '* today’s tariff',
    ...wrapped(periodText(results)),
  ].join('\n');
}

function clipped(text: string, width: number): string {
  return text.length <= width ? text : `${text.slice(0, width - 1)}…`;
}

function money(pounds: number | null): string {
  return plain(pounds, 2);
}

function signed(pounds: number | null): string {
  if (pounds === null) return '';
  return pounds > 0 ? `+${money(pounds)}` : money(pounds);
}

function plain(value: number | null, digits: number): string {
  // Adding 0 takes the sign off minus zero.
  return value === null ? '' : (value + 0).toFixed(digits);
}

function percent(share: number | null): string {
  return share === null ? '' : `${(share * 100).toFixed(1)}%`;
}

/** Breaks a text into lines of at most 80 characters. */
export function wrapped(text: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}
