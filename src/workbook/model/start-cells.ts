import { SHEETS } from '../layout.js';
import type { StyleName } from '../look/styles.js';
import { label } from './cells.js';
import type { Cell } from './sheet-model.js';

const LINES: readonly [string, string, string][] = [
  [
    '1',
    'Drop in half-hours',
    `Paste a month below the last row of ${SHEETS.readings}, or let the fill script do it.`,
  ],
  ['2', 'Type the tariffs', `On ${SHEETS.tariffs}: one column a tariff, its total at the top; name today’s.`],
  ['3', 'Read the answer', 'Above: the sentence, the ranking, the period.'],
  ['4', 'Test a switch', `Change a rate on ${SHEETS.tariffs}: the totals above it move at once.`],
  ['5', 'See how sure it is', `${SHEETS.checks} counts what is missing or wrong, and says what to do.`],
];
const TARGETS = [SHEETS.readings, SHEETS.tariffs, SHEETS.answer, SHEETS.tariffs, SHEETS.checks];

/** How cells look and what that says. */
const KEY: readonly [sample: string, style: StyleName, means: string][] = [
  ['yours to fill in', 'inputChoice', 'A cell in a frame is an input; nothing else is to be typed over.'],
  ['worked out', 'textCentre', 'Figures and words without a frame: formulas.'],
  ['stored', 'sampleStored', 'In italics: written by the fill, which says when it has to run again.'],
  ['chosen or cheapest', 'sampleBest', 'Today’s tariff, the cheapest one, or the one looked at.'],
  ['well', 'sampleGood', 'A check that found nothing.'],
  [
    'look',
    'sampleBad',
    'An input that can’t be used, a check that found something, a figure that is out of date.',
  ],
  ['p/kWh', 'sampleUnit', 'Small and grey: units and hints.'],
  ['a heading', 'headerLeft', 'On a band: headings of a table.'],
  ['go there', 'link', 'Underlined: a link to another sheet.'],
];
const CAUTIONS = [
  'Figures are estimates from the readings and rates given, not a bill, a quote or advice. Check a tariff’s terms with the supplier before you switch.',
  'Work on wiring, batteries, inverters or gas is for qualified, licensed people under the local codes and the network operator’s rules.',
] as const;
const TAB_WORDS =
  'Tabs: dark green are answers, brown are yours to fill in, dark grey are workings, light grey are notes.';

/** Last column of the texts. */
const LAST = 'P';
/** Rows that the steps, the key and the cautions take. */
export const START_ROWS = 1 + LINES.length + 2 + KEY.length + 3 + CAUTIONS.length;

/**
 * Five lines to begin with, the key to colours and styles, cautions.
 *
 * @param first row of their heading
 */
export function startCells(first: number): Cell[] {
  const key = first + LINES.length + 2;
  const caution = key + KEY.length + 3;
  const section = (row: number, text: string): Cell =>
    label(`A${row}`, text, 'section', { mergeTo: `${LAST}${row}` });
  return [
    section(first, 'How to use this workbook'),
    ...LINES.flatMap(([number, what, how], i) => {
      const row = first + 1 + i;
      return [
        label(`A${row}`, number, 'labelStrong'),
        label(`B${row}`, what, 'link', { link: `'${TARGETS[i]}'!A1` }),
        label(`C${row}`, how, 'label'),
      ];
    }),
    section(key, 'Key'),
    ...KEY.flatMap(([sample, style, means], i) => [
      label(`B${key + 1 + i}`, sample, style),
      label(`C${key + 1 + i}`, means, 'label'),
    ]),
    label(`B${caution - 1}`, TAB_WORDS, 'label'),
    section(caution, 'Caution'),
    ...CAUTIONS.map((text, i) =>
      label(`A${caution + 1 + i}`, text, 'labelWrap', { mergeTo: `${LAST}${caution + 1 + i}` }),
    ),
  ];
}
