import type { Node, Reference } from '../../formula/nodes.js';
import { areaReference, f, Line } from '../book/terms.js';
import { cellAt, columnLetters } from '../cell-address.js';
import {
  ASKED_BATTERY,
  ASKED_HEATING,
  ASKED_HEATING_RATES,
  type AskedFigure,
} from '../fields/mistyped-figures.js';
import { ASKED_FIGURES_PLACE, CURRENCY_IS_KNOWN } from '../fields/plausible.js';
import { formula, label } from './cells.js';
import type { Cell } from './sheet-model.js';

/** A figure in its row: its name, how many of its cells ask, the first of them, and the question. */
interface PlacedFigure extends AskedFigure {
  readonly row: number;
  readonly counted: Line;
  readonly first: Line;
  readonly question: Line;
}

const { sheet, row: FIRST, column: COLUMN } = ASKED_FIGURES_PLACE;
/** The first row says whether rates have upper bounds. */
const FIRST_FIGURE = FIRST + 1;
const place = (row: number, column: number, style: 'count' | 'rateFine' | 'text'): Line =>
  new Line({ sheet, row, column: COLUMN + column }, style);

const GROUPS = { battery: ASKED_BATTERY, heatingRates: ASKED_HEATING_RATES, heating: ASKED_HEATING } as const;
/** Figures that one check asks about. */
export type FigureGroup = keyof typeof GROUPS;

const ALL = Object.values(GROUPS).flat();
const PLACED: ReadonlyMap<AskedFigure, PlacedFigure> = new Map(
  ALL.map((figure, i) => {
    const row = FIRST_FIGURE + i;
    const [counted, first, question] = [
      place(row, 1, 'count'),
      place(row, 2, 'rateFine'),
      place(row, 3, 'text'),
    ];
    return [figure, { ...figure, row, counted, first, question }];
  }),
);
const placedOf = (group: FigureGroup): PlacedFigure[] =>
  GROUPS[group].flatMap((figure) => PLACED.get(figure) ?? []);

/** The counts of a group, one below the other. */
export function countsOf(group: FigureGroup): Reference {
  const places = placedOf(group).map(({ counted }) => counted.place);
  const [first, last] = [places[0], places.at(-1)];
  if (first === undefined || last === undefined) throw new RangeError(`no figure of ${group} is asked about`);
  const { row, column } = first;
  return areaReference({ sheet, firstRow: row, lastRow: last.row, firstColumn: column, lastColumn: column });
}

/** What is asked of the first figure of a group that asks; empty where none does. */
export function firstQuestion(group: FigureGroup): Node {
  return placedOf(group).reduceRight<Node>(
    (others, { question }) => f`IF(${question}<>"",${question},${others})`,
    f`""`,
  );
}

/** Widths of their columns, in characters, by the columns' letters. */
export const ASKED_FIGURES_WIDTHS: Readonly<Record<string, number>> = Object.fromEntries(
  [48, 8, 12, 90].map((width, i) => [columnLetters(COLUMN + i), width]),
);

/** The figures that may be mistyped, with what is asked of each: right of the checks, where nothing is printed. */
export function askedFigureCells(): Cell[] {
  const at = (row: number, column: number): string => cellAt(COLUMN + column, row);
  const cell = ({ place: { row, column }, style, name }: Line, is: Node): Cell =>
    formula(cellAt(column, row), is, style, name === undefined ? {} : { name });
  return [
    ...['Figures that may be mistyped', 'Found', 'First', 'What is asked'].map((text, i) =>
      label(at(FIRST - 1, i), text, i === 0 || i === 3 ? 'headerLeft' : 'header'),
    ),
    label(at(FIRST, 0), 'The currency is £, € or $: upper bounds of rates count', 'label'),
    cell(CURRENCY_IS_KNOWN, CURRENCY_IS_KNOWN.is ?? f`0`),
    ...[...PLACED.values()].flatMap(({ row, label: text, count, found, asks, counted, first, question }) => [
      label(at(row, 0), text, 'label'),
      cell(counted, count),
      cell(first, f`IF(${counted}=0,"",${found})`),
      cell(question, f`IF(${counted}=0,"",${`${text}: `}&${asks(first)})`),
    ]),
  ];
}
