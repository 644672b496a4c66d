import { HEATING_CAUTIONS } from '../../../heating/cautions.js';
import { SHEETS } from '../../layout.js';
import { formula, label } from '../cells.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { figureValue } from './figure-values.js';
import { figureCell } from './heating-figures-rows.js';
import { keyFigureCells } from './heating-key-figures.js';
import { monthTableCells } from './heating-month-table.js';
import { HEATING_ROWS as R } from './heating-rows.js';
import { sensitivityCells } from './heating-sensitivity.js';
import { basisFormula, basisText, heatingSentence, inCurrencyFormula } from './heating-sentences.js';
import { hotWaterCells, yearCells } from './heating-year-block.js';

const LAST = 'P';

function sentences(): Cell[] {
  const text = (key: string) => (r: Parameters<typeof figureValue>[0]) => figureValue(r, key);
  return [
    label('A1', 'Did the heat pump cost more than the boiler would have?', 'title'),
    formula('A2', inCurrencyFormula(figureCell('verdict')), heatingSentence, 'sentence', {
      name: 'heating_verdict',
      mergeTo: 'N2',
    }),
    formula('A3', figureCell('estimatesVerdict'), text('estimatesVerdict'), 'label', {
      name: 'heating_estimates_verdict',
    }),
    formula('A4', figureCell('yearVerdict'), text('yearVerdict'), 'label', { name: 'heating_year_verdict' }),
    formula('A5', basisFormula(), basisText, 'hint'),
    label(
      'A6',
      'Heat pump less boiler: a minus says that the heat pump was cheaper. Both sides leave out electricity’s standing charge, paid either way.',
      'hint',
    ),
    label('L1', 'Change the inputs', 'link', { link: `'${SHEETS.heatingInputs}'!A1` }),
    label('N1', 'See the workings', 'link', { link: `'${SHEETS.heatingMonths}'!A1` }),
  ];
}

function cautions(): Cell[] {
  return [
    label(`A${R.cautions}`, 'Cautions', 'section'),
    ...HEATING_CAUTIONS.map((text, i) =>
      label(`A${R.cautions + 1 + i}`, text, 'labelWrap', { mergeTo: `N${R.cautions + 1 + i}` }),
    ),
  ];
}

/** Heat pump against boiler: the verdict, the months, the year, and what it hangs on. */
export function heatingSheet(): SheetModel {
  return {
    name: SHEETS.heating,
    tab: 'answer',
    widths: {
      A: 36,
      ...Object.fromEntries([...'BCDEFGHIJKLMNO'].map((letters) => [letters, 11.5])),
      [LAST]: 62,
      Q: 46,
    },
    heights: {
      2: 42,
      [R.keyFigures]: 30,
      [R.year]: 30,
      [R.sensitivity]: 22,
      [R.months]: 22,
      [R.months + 1]: 48,
      ...Object.fromEntries(HEATING_CAUTIONS.map((_, i) => [R.cautions + 1 + i, 28])),
    },
    freeze: { columns: 0, rows: 2 },
    protected: true,
    landscape: true,
    printArea: `A1:O${R.cautions + HEATING_CAUTIONS.length}`,
    cells: [
      ...sentences(),
      ...keyFigureCells(),
      ...monthTableCells(),
      ...yearCells(),
      ...hotWaterCells(),
      ...sensitivityCells(),
      ...cautions(),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
