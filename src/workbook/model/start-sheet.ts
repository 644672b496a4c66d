import { SHEETS } from '../layout.js';
import type { StyleName } from '../look/styles.js';
import { label } from './cells.js';
import type { SheetModel } from './sheet-model.js';

const LINES: readonly [string, string, string][] = [
  [
    '1',
    'Drop in half-hours',
    `Paste a month below the last row of ${SHEETS.readings}, or let the fill script do it.`,
  ],
  ['2', 'Type the tariffs', `On ${SHEETS.tariffs}: one column a tariff, its total at the top; name today’s.`],
  ['3', 'Read the answer', `On ${SHEETS.answer}: the sentence, the ranking, the period.`],
  ['4', 'Test a switch', `Change a rate on ${SHEETS.tariffs}: the totals above it move at once.`],
  ['5', 'See how sure it is', `${SHEETS.checks} counts what is missing or wrong, and says what to do.`],
];
const TARGETS = [SHEETS.readings, SHEETS.tariffs, SHEETS.answer, SHEETS.tariffs, SHEETS.checks];

const KEY_ROW = 10;
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
const CAUTION_ROW = KEY_ROW + KEY.length + 4;
const CAUTIONS = [
  'Figures are estimates from the readings and rates given, not a bill, a quote or advice. Check a tariff’s terms with the supplier before you switch.',
  'Work on wiring, batteries, inverters or gas is for qualified, licensed people under the local codes and the network operator’s rules.',
] as const;
const TAB_WORDS =
  'Tabs: dark green are answers, brown are yours to fill in, dark grey are workings, light grey are notes.';

/** Five lines to begin with. */
export function startSheet(): SheetModel {
  return {
    name: SHEETS.start,
    tab: 'answer',
    widths: { A: 5, B: 26, C: 90 },
    heights: Object.fromEntries(LINES.map((_, i) => [i + 4, 26])),
    protected: true,
    landscape: true,
    cells: [
      label('A1', 'Home tariff workbook', 'title'),
      label(
        'A2',
        'What the energy cost, and what another tariff would have cost, from your own half-hourly readings.',
        'hint',
      ),
      ...LINES.flatMap(([number, what, how], i) => [
        label(`A${i + 4}`, number, 'labelStrong'),
        label(`B${i + 4}`, what, 'link', { link: `'${TARGETS[i]}'!A1` }),
        label(`C${i + 4}`, how, 'label'),
      ]),
      label(`A${KEY_ROW}`, 'Key', 'section', { mergeTo: `C${KEY_ROW}` }),
      ...KEY.flatMap(([sample, style, means], i) => [
        label(`B${KEY_ROW + 1 + i}`, sample, style),
        label(`C${KEY_ROW + 1 + i}`, means, 'label'),
      ]),
      label(`C${CAUTION_ROW - 2}`, TAB_WORDS, 'label'),
      label(`A${CAUTION_ROW}`, 'Caution', 'section', { mergeTo: `C${CAUTION_ROW}` }),
      ...CAUTIONS.map((text, i) =>
        label(`A${CAUTION_ROW + 1 + i}`, text, 'labelWrap', { mergeTo: `C${CAUTION_ROW + 1 + i}` }),
      ),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
