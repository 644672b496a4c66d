import { SHEETS } from '../layout.js';
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
      label('A10', 'Key', 'section'),
      label('B11', 'yours to fill in', 'inputChoice'),
      label('C11', 'Cells that look like this are inputs; everything else is worked out.', 'label'),
      label('A13', 'Caution', 'section'),
      label(
        'A14',
        'Figures are estimates from the readings and rates given, not a bill, a quote or advice. Check a tariff’s terms with the supplier before you switch.',
        'labelWrap',
        { mergeTo: 'C14' },
      ),
      label(
        'A15',
        'Work on wiring, batteries, inverters or gas is for qualified, licensed people under the local codes and the network operator’s rules.',
        'labelWrap',
        { mergeTo: 'C15' },
      ),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
