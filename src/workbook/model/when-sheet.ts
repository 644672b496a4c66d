import { absolute, absoluteColumn, columnLetters, inRow } from '../cell-address.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import type { Book } from './book.js';
import { formula, label } from './cells.js';
import { sheetTop } from './column-headers.js';
import { ref } from './references.js';
import { monthTextFormula } from './sentences.js';
import type { Cell, SheetModel } from './sheet-model.js';
import { MAP_MONTHS, WHEN_LABELS, WHEN_LETTERS, WHEN_LINE_ROWS } from './when-workings.js';

const HOURS = 24;
/** Rows of the maps: what each shows, its months, then an hour a row. */
const HEADING_ROW = 5;
const HEADER_ROW = HEADING_ROW + 1;
const FIRST = HEADER_ROW + 1;
const LAST = FIRST + HOURS - 1;
const WORDS_ROW = 3;
/** Columns of a map from its first: the months, then the average over them. */
const MAPS = {
  import: { first: 2, title: 'Bought, kWh in the hour', letters: WHEN_LETTERS.import },
  export: { first: 2 + MAP_MONTHS + 2, title: 'Exported, kWh in the hour', letters: WHEN_LETTERS.export },
} as const;
type MapKind = keyof typeof MAPS;
const VERBS = { import: 'bought', export: 'exported' } as const;
const KINDS = Object.keys(MAPS) as MapKind[];
const averageLetters = (kind: MapKind): string => columnLetters(MAPS[kind].first + MAP_MONTHS);
/** Where the chart of the seasons stands, below both maps. */
export const WHEN_CHART = {
  from: `A${LAST + 2}`,
  to: `${averageLetters('export')}${LAST + 24}`,
} as const;
/** Letters of the maps and the rows of their hours. */
export const WHEN_MAPS = {
  first: FIRST,
  last: LAST,
  letters: (kind: MapKind, month: number): string => columnLetters(MAPS[kind].first + month),
  average: averageLetters,
} as const;

const months = Array.from({ length: MAP_MONTHS }, (_, month) => month);
const clock = (hour: number): string => `${String(hour).padStart(2, '0')}:00`;

function mapCells(book: Book, kind: MapKind): Cell[] {
  const { first, title, letters: lettersOf } = MAPS[kind];
  const own = (month: number): string => columnLetters(first + month);
  const average = averageLetters(kind);
  const ofLine = (row: number, month: number): string =>
    absolute(SHEETS.profile, WHEN_LETTERS.import(month), row);
  const weights = `${ofLine(WHEN_LINE_ROWS.weight, 0)}:${ofLine(WHEN_LINE_ROWS.weight, MAP_MONTHS - 1).replace(/^.*!/, '')}`;
  /** Over the months on which the hour was metered. */
  const averageOf = (hours: string): string => {
    const weight = `SUMPRODUCT(${weights},1*(${hours}<>""))`;
    return `IF(${weight}=0,"",SUMPRODUCT(${weights},${hours})/${weight})`;
  };
  return [
    label(`${own(0)}${HEADING_ROW}`, title, 'section', { mergeTo: `${average}${HEADING_ROW}` }),
    ...months.map((month) => {
      const number = ofLine(WHEN_LINE_ROWS.month, month);
      const start = `INDEX(${ref(book.workings.months.start)},${number})`;
      return formula(
        `${own(month)}${HEADER_ROW}`,
        `IF(${number}=0,"",${monthTextFormula(start)})`,
        'mapHeader',
      );
    }),
    label(`${average}${HEADER_ROW}`, 'All', 'mapHeader'),
    ...Array.from({ length: HOURS }, (_, hour) => hour).flatMap((hour) => {
      const row = FIRST + hour;
      return [
        ...months.map((month) => {
          const [letters, first] = [lettersOf(month), FIRST_ROW + 2 * hour];
          const both = `${inRow(SHEETS.profile, letters, first)}:$${letters}${first + 1}`;
          return formula(`${own(month)}${row}`, `IF(COUNT(${both})<2,"",SUM(${both}))`, 'mapKwh');
        }),
        formula(
          `${average}${row}`,
          averageOf(`$${own(0)}${row}:$${own(MAP_MONTHS - 1)}${row}`),
          'mapKwhStrong',
        ),
      ];
    }),
  ];
}

/** At which hour most flows on the average day, in words; nothing where nothing flows. */
function most(kind: MapKind): string {
  const verb = VERBS[kind];
  const column = (letters: string): string => absoluteColumn(SHEETS.when, letters, FIRST, LAST);
  const range = column(averageLetters(kind));
  return `IF(SUM(${range})=0,"","most is ${verb} "&INDEX(${column('A')},MATCH(MAX(${range}),${range},0))&" ("&FIXED(MAX(${range}),2)&" kWh)")`;
}

function wordCells(): Cell[] {
  const last = columnLetters(MAPS.export.first + MAP_MONTHS);
  return [
    formula(
      `A${WORDS_ROW}`,
      `IF(when_bought_words&when_exported_words="","No readings in the chosen period yet.","On the average day "&when_bought_words&IF(OR(when_bought_words="",when_exported_words=""),"",", ")&when_exported_words&".")`,
      'sentence',
      { name: 'when_words', mergeTo: `${last}${WORDS_ROW}` },
    ),
  ];
}

/** The parts of the sentence, each in a cell of its own among the workings. */
export function whenWordCells(): Cell[] {
  return KINDS.map((kind, i) =>
    formula(`${WHEN_LABELS}${FIRST_ROW + 1 + i}`, most(kind), 'text', { name: `when_${VERBS[kind]}_words` }),
  );
}

/** When the home buys and exports: the average day of each month as a map of hours, and by season as a chart. */
export function whenSheet(book: Book): SheetModel {
  const widths = Object.fromEntries(
    KINDS.flatMap((kind) =>
      [...months, MAP_MONTHS].map((month) => [columnLetters(MAPS[kind].first + month), 5.6]),
    ),
  );
  return {
    name: SHEETS.when,
    tab: 'answer',
    widths: { A: 11, ...widths, [columnLetters(MAPS.export.first - 1)]: 2 },
    heights: { [WORDS_ROW]: 24, [HEADER_ROW]: 28 },
    freeze: { columns: 1, rows: HEADER_ROW },
    protected: true,
    landscape: true,
    printArea: `A1:${averageLetters('export')}${LAST + 24}`,
    cells: [
      ...sheetTop(
        'When',
        `The average day of each month as metered, days with a clock change left out, whatever a battery did: the last ${MAP_MONTHS} months chosen on ${SHEETS.answer}. Deeper colours are more.`,
      ),
      ...wordCells(),
      label(`A${HEADER_ROW}`, 'Hour', 'headerLeft'),
      ...Array.from({ length: HOURS }, (_, hour) =>
        label(`A${FIRST + hour}`, `${clock(hour)}–${clock(hour + 1)}`, 'mapHour'),
      ),
      ...KINDS.flatMap((kind) => mapCells(book, kind)),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
    colourScales: KINDS.map((kind) => ({
      range: `${columnLetters(MAPS[kind].first)}${FIRST}:${columnLetters(MAPS[kind].first + MAP_MONTHS - 1)}${LAST}`,
      most: kind,
    })),
  };
}
