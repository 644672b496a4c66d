import { HEATING_CAUTIONS } from '../../../heating/cautions.js';
import { partLetters, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { figureName } from './heating-figures-rows.js';
import { keyFigureCells } from './heating-key-figures.js';
import { monthTableCells } from './heating-month-table.js';
import { rangeCells } from './heating-range.js';
import { type HeatingRows, heatingRows } from './heating-rows.js';
import { sensitivityCells } from './heating-sensitivity.js';
import {
  basisCells,
  coldestDaysFormula,
  dailyLineFormula,
  fromRoofFormula,
  notCountedFormula,
  oneYearFormula,
  verdictFormula,
} from './heating-sentences.js';
import { hotWaterCells, yearCells } from './heating-year-block.js';
import { otherWayCells } from './other-way-of-degree-days.js';

const LAST = 'P';

function sentences(book: Book, R: HeatingRows): Cell[] {
  return [
    label('A1', 'Did the heat pump cost more than the boiler would have?', 'title'),
    formula('A2', verdictFormula(), 'sentence', {
      name: 'heating_verdict',
      mergeTo: 'N2',
    }),
    formula('A3', figureName('estimatesVerdict'), 'label', {
      name: 'heating_estimates_verdict',
    }),
    formula('A4', figureName('yearVerdict'), 'label', { name: 'heating_year_verdict' }),
    ...basisCells(book, 'A5'),
    ...otherWayCells(book),
    label(
      'A6',
      'Heat pump less boiler: a minus says that the heat pump was cheaper. Both sides leave out electricity’s standing charge, paid either way.',
      'hint',
    ),
    formula(`A${R.months - 2}`, notCountedFormula(), 'hint'),
    formula(`A${R.months - 1}`, fromRoofFormula(), 'hint', { name: 'heating_from_roof' }),
    formula(`E${R.year - 2}`, dailyLineFormula(), 'hint', { name: 'where_the_line_holds' }),
    formula(`E${R.year - 1}`, coldestDaysFormula(), 'hint', { name: 'line_on_the_coldest_days' }),
    formula(`A${R.hotWater - 1}`, oneYearFormula(), 'hint', { name: 'usual_weather_of_one_year' }),
    label('L1', 'Change the inputs', 'link', {
      link: `'${SHEETS.heatingInputs}'!${partLetters('heatingInputs', 1)}1`,
    }),
    label('N1', 'See the workings', 'link', {
      link: `'${SHEETS.heatingMonths}'!${partLetters('heatingMonths', 1)}1`,
    }),
  ];
}

function cautions(R: HeatingRows): Cell[] {
  return [
    label(`A${R.cautions}`, 'Cautions', 'section'),
    ...HEATING_CAUTIONS.map((text, i) =>
      label(`A${R.cautions + 1 + i}`, text, 'labelWrap', { mergeTo: `N${R.cautions + 1 + i}` }),
    ),
  ];
}

/** Heat pump against boiler: the verdict, the months, the year, and what it hangs on. */
export function heatingSheet(book: Book): SheetModel {
  const R = heatingRows(book.shape);
  return {
    name: SHEETS.heating,
    tab: 'answer',
    widths: {
      A: 28,
      ...Object.fromEntries([...'BCDEFGHIJKLMNO'].map((letters) => [letters, 10.5])),
      [LAST]: 62,
      Q: 46,
    },
    heights: {
      2: 51,
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
      ...sentences(book, R),
      ...keyFigureCells(R),
      ...monthTableCells(book, R),
      ...yearCells(R),
      ...hotWaterCells(R),
      ...sensitivityCells(R),
      ...rangeCells(R),
      ...cautions(R),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
