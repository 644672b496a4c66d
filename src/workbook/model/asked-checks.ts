import { f } from '../book/terms.js';
import { cellAt } from '../cell-address.js';
import { SHEETS } from '../layout.js';
import { countsOf, type FigureGroup, firstQuestion } from './asked-figures.js';
import { type AskedRateKind, askedLine, askedOfTariffs, askedRate } from './asked-tariffs.js';
import { formula } from './cells.js';
import type { Check } from './checks.js';

const rates = (kind: AskedRateKind, name: string, advice: string): Check => ({
  name,
  formula: askedOfTariffs(kind),
  advice,
  kind: 'ask',
  question: (row, counts) => askedRate(kind, row, counts),
});
const figures = (group: FigureGroup, name: string, advice: string): Check => ({
  name,
  formula: f`SUM(${countsOf(group)})`,
  advice,
  kind: 'ask',
  question: (row) => {
    const words = askedLine(row);
    return { words, cells: [formula(cellAt(words.place.column, row), firstQuestion(group), 'text')] };
  },
});

/** Checks of what is within its limits, and hardly ever meant: it counts as typed, and the first is asked about by name. */
export function askedChecks(): Check[] {
  return [
    rates(
      'unitRate',
      'Unit rates that look mistyped',
      'In the small unit: 28.5, not 0.285. A window at 0 beside dearer hours does not ask.',
    ),
    rates(
      'standing',
      'Standing charges that look mistyped',
      'A day, in the small unit: 53.8, not 0.538; 0 where there is none.',
    ),
    rates(
      'exportRate',
      'Export rates that look mistyped',
      'In the small unit: 15, not 0.15. One above the dearest unit rate asks too.',
    ),
    figures(
      'battery',
      'Battery figures that look mistyped',
      `Those on ${SHEETS.battery}: power, capacity, efficiencies, wear.`,
    ),
    figures(
      'heatingRates',
      'Heating: rates that look mistyped',
      `Those on ${SHEETS.heatingInputs}, in the small unit: 6.3, not 0.063.`,
    ),
    figures(
      'heating',
      'Heating: figures of gas, boiler, water, weather or carbon that look mistyped',
      `Those on ${SHEETS.heatingInputs}, and the calorific values on ${SHEETS.gas}.`,
    ),
  ];
}
