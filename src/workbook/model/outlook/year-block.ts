import { TARIFF_COUNT } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { formula, label, unitFormula } from '../cells.js';
import { rankPlace } from '../chart-data-sheet.js';
import { tariffRow } from '../sentences.js';
import type { Cell } from '../sheet-model.js';
import { TARIFF_ROW as T } from '../tariff-rows.js';
import { worlds } from '../worlds.js';

/** Figures of a tariff: heading, and the defined name that its lines begin with. */
const HEADERS: readonly [letters: string, text: string, name: string, style: StyleName][] = [
  ['L', 'A year, {major}', 'year_cost', 'moneyStrong'],
  ['M', 'From, {major}', 'year_low', 'money'],
  ['N', 'To, {major}', 'year_high', 'money'],
];

/**
 * Row of the year in words, below the tariffs.
 *
 * @param first row of the heading
 * @returns row, from 1
 * @example yearWordsRow(30) // 40
 */
export function yearWordsRow(first: number): number {
  return first + TARIFF_COUNT + 2;
}

/**
 * What a year costs on each tariff, in the order of the ranking.
 *
 * @param book inputs and workings
 * @param first row of the heading
 * @returns cells of ten rows and one with words below them, columns J to P; {major} a year, but for the months metered
 * @example yearBlock(book, 30)[0].at // 'J30'
 */
export function yearBlock(book: Book, first: number): Cell[] {
  const header = first + 1;
  const chosen = (name: string, place: string): string =>
    `CHOOSE(MAX(1,${place}),${Array.from({ length: TARIFF_COUNT }, (_, t) => `${name}_${t + 1}`).join(',')})`;
  return [
    formula(
      `J${first}`,
      // Words of a width that the columns hold; how often the range holds is said below.
      '"What will a year cost? Latest rates"&IF(year_price_words="","",", prices as they were")&"; from … to …"',
      'section',
      { mergeTo: `P${first}` },
    ),
    label(`J${header}`, 'Tariff', 'headerLeft', { mergeTo: `K${header}` }),
    ...HEADERS.map(([letters, text]) => label(`${letters}${header}`, text, 'header')),
    label(`O${header}`, 'Months metered', 'header'),
    ...Array.from({ length: TARIFF_COUNT }, (_, i) => {
      const row = header + 1 + i;
      const place = rankPlace(i + 1);
      const shown = (text: string): string => `IF($J${row}="","",${text})`;
      return [
        formula(`J${row}`, `IF(${place}=0,"",INDEX(${tariffRow(T.name)},1,${place}))`, 'tariffName', {
          mergeTo: `K${row}`,
        }),
        ...HEADERS.map(([letters, , name, style]) =>
          formula(`${letters}${row}`, shown(chosen(name, place)), style),
        ),
        formula(`P${row}`, shown(chosen('year_battery_saves', place)), 'money'),
        formula(`O${row}`, shown(`IF(COUNT($L${row})=0,"",year_months_metered)`), 'integer'),
      ];
    }).flat(),
    formula(`P${header}`, worlds(book).whereBattery(unitFormula('Battery saves about, {major}')), 'header'),
    formula(`J${yearWordsRow(first)}`, 'year_words', 'hintMiddle', { mergeTo: `P${yearWordsRow(first)}` }),
  ];
}
