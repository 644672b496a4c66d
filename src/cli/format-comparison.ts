import { plainText } from '../plain-text.js';
import { hasName } from '../workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../workbook/layout.js';
import { BILLS_WORDS_NAME } from '../workbook/model/bills/bill-places.js';
import { TARIFF_ROW, tariffLetters } from '../workbook/model/tariff-rows.js';
import type { WorkbookValues } from '../workbook/workbook-values.js';
import { TERMINAL_COLUMNS, textTable } from './text-table.js';

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
  return [
    ...wrapped(String(calculated.named('answer_sentence'))),
    ...wrapped(String(calculated.named('how_sure_words'))),
    '',
    // Without a tariff the sentence says what to type: there is nothing to compare.
    ...(ranked.length === 0
      ? []
      : [
          ...textTable([HEADERS, units, ...rows], 1),
          '',
          '* today’s tariff',
          ...(Number(calculated.of(book.workings.battery.usableKwh)) > 0
            ? wrapped('With the battery; the off-peak share is that of import without it.')
            : []),
        ]),
    ...wrapped(String(calculated.named('as_metered_words'))),
    ...wrapped(String(calculated.named('no_total_words'))),
    ...wrapped(String(calculated.named('period_holds_words'))),
    ...yearLines(calculated, ranked.length),
    ...billLines(calculated),
  ].join('\n');
}

/** What a year costs at the latest rates, where there is a tariff. */
function yearLines(calculated: WorkbookValues['calculated'], tariffs: number): string[] {
  const words = String(calculated.named('year_words'));
  return tariffs === 0 || words === '' ? [] : wrapped(`A year: ${words}`);
}

/** What the bills say, where any could be held against the readings. */
function billLines(calculated: WorkbookValues['calculated']): string[] {
  const words = String(calculated.named(BILLS_WORDS_NAME));
  return words === '' ? [] : wrapped(`${SHEETS.bills}: ${words}`);
}

function rankOf(figure: (row: number) => number | null): number {
  return figure(TARIFF_ROW.rank) ?? Number.POSITIVE_INFINITY;
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
    if (line !== '' && line.length + 1 + word.length > TERMINAL_COLUMNS) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}

function piecesOf(word: string): string[] {
  return word.length <= TERMINAL_COLUMNS ? [word] : word.match(new RegExp(`.{1,${TERMINAL_COLUMNS}}`, 'gu'))!;
}
