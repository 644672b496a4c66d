import { plainText } from '../plain-text.js';
import { hasName } from '../workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../workbook/layout.js';
import { BILLS_WORDS_NAME } from '../workbook/model/bills/bill-places.js';
import { TARIFF_ROW, tariffLetters } from '../workbook/model/tariff-rows.js';
import type { WorkbookValues } from '../workbook/workbook-values.js';

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
 * @param values a workbook, worked out
 * @returns lines of text, without colour
 */
export function formatComparison({ inputs, calculated, book }: WorkbookValues): string {
  const currency = String(inputs.home.currency ?? '');
  const minor = String(inputs.home.minorUnit ?? '');
  const todays = String(inputs.todaysTariff ?? '').toLowerCase();
  const ranked = inputs.tariffs
    .map(({ name }, t) => ({
      name: plainText(String(name)),
      isNamed: hasName(name),
      figure: (row: number): number | null => {
        const value = calculated.at(SHEETS.tariffs, `${tariffLetters(t)}${row}`);
        return typeof value === 'number' ? value : null;
      },
    }))
    .filter(({ isNamed }) => isNamed)
    // Those without a total come last.
    .sort((a, b) => rankOf(a.figure) - rankOf(b.figure));
  const rows = ranked.map(({ name, figure }) => {
    const credit = figure(TARIFF_ROW.exportCredit);
    return [
      `${name.toLowerCase() === todays ? '*' : ' '}${name}`,
      money(figure(TARIFF_ROW.energy)),
      money(figure(TARIFF_ROW.standing)),
      money(credit === null ? null : -credit),
      money(figure(TARIFF_ROW.total)),
      signed(figure(TARIFF_ROW.difference)),
      plain(figure(TARIFF_ROW.allIn), 2),
      percent(figure(TARIFF_ROW.offPeakShare)),
      percent(figure(TARIFF_ROW.coverage)),
    ];
  });
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
    ...wrapped(String(calculated.named('answer_sentence'))),
    ...wrapped(String(calculated.named('how_sure_words'))),
    '',
    // Without a tariff the sentence says what to type: there is nothing to compare.
    ...(ranked.length === 0
      ? []
      : [
          ...lines,
          '',
          '* today’s tariff',
          ...(Number(calculated.of(book.workings.battery.usableKwh)) > 0
            ? wrapped('With the battery; the off-peak share is that of import without it.')
            : []),
        ]),
    ...wrapped(String(calculated.named('as_metered_words'))),
    ...wrapped(String(calculated.named('no_total_words'))),
    ...wrapped(String(calculated.named('period_holds_words'))),
    ...billLines(calculated),
  ].join('\n');
}

/** What the bills say, where any could be held against the readings. */
function billLines(calculated: WorkbookValues['calculated']): string[] {
  const words = String(calculated.named(BILLS_WORDS_NAME));
  return words === '' ? [] : wrapped(`${SHEETS.bills}: ${words}`);
}

function rankOf(figure: (row: number) => number | null): number {
  return figure(TARIFF_ROW.rank) ?? Number.POSITIVE_INFINITY;
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

/** Breaks a text into lines of at most 80 characters, wherever a word is longer than a line. */
export function wrapped(text: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of plainText(text).split(' ').flatMap(piecesOf)) {
    if (line !== '' && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}

function piecesOf(word: string): string[] {
  return word.length <= WIDTH ? [word] : word.match(new RegExp(`.{1,${WIDTH}}`, 'gu'))!;
}
