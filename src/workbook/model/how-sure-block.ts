import type { StyleName } from '../look/styles.js';
import { formula, label, quoted } from './cells.js';
import { CLOSE_SHARE, CONFIDENCE } from './how-sure.js';
import type { Cell } from './sheet-model.js';

/** What is shown of the lines, by their defined names. */
const SHOWN: readonly (readonly [name: string, text: string, style: StyleName])[] = [
  ['lead_of_cheapest', 'Second less first, {major}', 'moneyStrong'],
  ['lead_share', 'Share of the second’s total', 'percent'],
  ['months_first_cheaper', 'Months in which the first was cheaper', 'integer'],
  ['months_second_cheaper', 'Months in which the second was cheaper', 'integer'],
  ['tie_at_rise', 'They tie where every unit rate of the first, as typed, rises by, {minor}/kWh', 'rate'],
  ['tie_off_peak_share', 'They tie where the off-peak share of the first is', 'percent'],
  ['spans_counted', 'Spans of four whole weeks that the range rests on', 'integer'],
  ['days_ahead', 'Days ahead that the range speaks of', 'integer'],
  ['difference_ahead_low', 'Second less first over them, from, {major}', 'moneySigned'],
  ['difference_ahead_high', 'to, {major}', 'moneySigned'],
];

/** How each is meant. */
const HINTS: readonly string[] = [
  `Clear: the range is above 0, and the difference is ${100 * CLOSE_SHARE} % of the second’s total at least. Close: above 0, but less. Else not told apart by these readings.`,
  `The range holds ${100 * CONFIDENCE} times in 100 where use and rates stay alike: Student’s t, by the change from each four weeks to the next, so that summer and winter count little.`,
  'What changes is not in it: new rates, a car, another heating, more people or fewer. Sources: Notes.',
];

/** Rows that the block takes. */
export const SURE_ROWS = 1 + SHOWN.length + HINTS.length;

/**
 * How sure it is that the first is cheaper than the second.
 *
 * @param first row of the heading
 */
export function sureCells(first: number): Cell[] {
  const row = (i: number): number => first + 1 + i;
  return [
    formula(
      `A${first}`,
      '"How sure is it? "&IF(second_name="","",cheapest_name&" (first) against "&second_name&" (second)"&IF(how_sure="","",": "&how_sure))',
      'section',
      { mergeTo: `H${first}` },
    ),
    ...SHOWN.flatMap(([name, text, style], i) => [
      // Blank with its figure: there is no such share of most tariffs, nor through storage.
      name === 'tie_off_peak_share'
        ? formula(`B${row(i)}`, `IF(COUNT(${name})=0,"",${quoted(text)})`, 'label', { mergeTo: `G${row(i)}` })
        : label(`B${row(i)}`, text, 'label', { mergeTo: `G${row(i)}` }),
      formula(`H${row(i)}`, name, style),
    ]),
    ...HINTS.map((text, i) => label(`B${row(SHOWN.length + i)}`, text, 'hint')),
  ];
}
