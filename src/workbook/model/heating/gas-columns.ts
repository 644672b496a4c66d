import { HEATING_BLOCKS } from '../../../heating/compare-heating.js';
import { GAS_MONTH_INPUTS } from '../../../heating/comparison/heating-inputs.js';
import { gasVolumeToEnergyDescribed } from '../../../heating/gas-volume-to-energy.js';
import { GAS_ROWS, GAS_RULES } from '../../fields/gas-fields.js';
import { brokenIn } from '../../fields/rule.js';
import { FIRST_ROW } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, quoted } from '../cells.js';
import { ref } from '../references.js';
import type { Cell, FormulaColumn } from '../sheet-model.js';
import { heatingDays } from './heating-days.js';
import { figureName } from './heating-figures-rows.js';
import { GAS as G, GAS_LINE_LETTERS, gasName, GAS_HELP as H, temperatureName } from './heating-rows.js';
import { styleOf, unitOf } from './line-looks.js';
import { gasReferences } from './line-references.js';

/** Where a row's degree days come from, in the words of the sheet. */
export const DEGREE_DAYS_SOURCE = {
  typed: 'typed',
  temperatures: 'temperatures',
  readings: 'readings',
  scaled: 'temperatures, scaled',
} as const;

const NUMBER = '">-1E+300"';
const LOWER_BASE =
  'Each day’s less what the base is lower by, none below 0: exact for daily means, approximate for days by maximum and minimum or half-hours';
/** What the sheet says of it, above the columns. */
const LOWER_BASE_WORDS =
  'At the lower base: exact for days by their mean, approximate for days by maximum and minimum or by half-hours.';

/** Words as a formula, where some days go by another way than their mean. */
export function whereNotAllMeans(words: string): string {
  return `IF(AND(COUNT(${temperatureName('fromMaxMin')})=0,${figureName('degreeDayMethod')}<>"half-hours"),"",${quoted(words)})`;
}

/** What stands above the columns that help. */
export function gasHints(): Cell[] {
  return [
    formula(`${H.tableLower}${FIRST_ROW - 4}`, whereNotAllMeans(LOWER_BASE_WORDS), 'hint', {
      name: 'lower_base_is_approximate',
    }),
  ];
}
const own = (letters: string, r: number): string => `$${letters}${r}`;

function lettersOf(key: string): string {
  const letters = GAS_LINE_LETTERS[key];
  if (letters === undefined) throw new RangeError(`no line of gas is called ${key}`);
  return letters;
}
const taken = (key: string, r: number): string => own(lettersOf(key), r);

function daysFormula(r: number): string {
  const [first, last] = [own(G.firstDay, r), own(G.lastDay, r)];
  return `IF(COUNT(${first},${last})<2,"",IF(INT(${last})<INT(${first}),"",INT(${last})-INT(${first})+1))`;
}

function kwhFormula(r: number): string {
  const kwh = own(G.kwh, r);
  return `IF(ISNUMBER(${kwh}),IF(${kwh}>=0,${kwh},""),${own(H.volumeKwh, r)})`;
}

function volumeFormula(r: number): string {
  const { formula } = gasVolumeToEnergyDescribed;
  if (formula === undefined) throw new RangeError('gas volume to energy has no formula');
  const [volume, unit, calorific] = [own(G.volume, r), own(G.volumeUnit, r), own(H.calorificValue, r)];
  const unitUsed = `IF(${unit}="","m3",${unit})`;
  const energy = formula([volume, unitUsed, calorific, figureName('volumeCorrection')]);
  const known = `OR(${unit}="",${unit}="m3",${unit}="ft3",${unit}="100ft3")`;
  return `IF(ISNUMBER(${volume}),IF(AND(${volume}>=0,${known},${calorific}>0),${energy},""),"")`;
}

/** Days are whole numbers: this is so where a time was typed with a first or last day too. */
const span = (dates: string, r: number): string =>
  `${dates},">"&${own(G.firstDay, r)}-1,${dates},"<="&${own(G.lastDay, r)}`;
const whereDays = (r: number, then: string): string => `IF(ISNUMBER(${taken('gasDays', r)}),${then},"")`;
const countIn = (dates: string, degreeDays: string) => (r: number) =>
  whereDays(r, `COUNTIFS(${span(dates, r)},${degreeDays},${NUMBER})`);
/** Degree days at the lower base: each day’s less what the base is lower by, which is exact for daily means alone. */
const lowerIn = (dates: string, degreeDays: string) => (r: number) => {
  const lower = figureName('baseEitherWayC');
  const above = `${span(dates, r)},${degreeDays},">"&${lower}`;
  return whereDays(r, `SUMIFS(${degreeDays},${above})-${lower}*COUNTIFS(${above})`);
};
const sumIn = (dates: string, degreeDays: string) => (r: number) =>
  whereDays(r, `SUMIFS(${degreeDays},${span(dates, r)})`);

/** By source: what the source gives, or a text of it. */
function bySource(r: number, pick: (source: keyof typeof DEGREE_DAYS_SOURCE, sum: string) => string): string {
  const [days, typed] = [taken('gasDays', r), own(G.degreeDays, r)];
  const [tableDays, table] = [own(H.tableDays, r), own(H.tableDegreeDays, r)];
  const scaled = pick('scaled', `${table}*${days}/${tableDays}`);
  return (
    `IF(ISNUMBER(${typed}),IF(${typed}>=0,${pick('typed', typed)},""),IF(NOT(ISNUMBER(${days})),"",` +
    `IF(${tableDays}>=${days},${pick('temperatures', table)},` +
    `IF(${own(H.readDays, r)}>=${days},${pick('readings', own(H.readDegreeDays, r))},` +
    `IF(AND(${figureName('scaleDegreeDays')}="yes",${tableDays}>0),${scaled},"")))))`
  );
}

type Text = Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'> & { name?: string };

function column(letters: string, text: Text, formula: FormulaColumn['formula']): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows: GAS_ROWS, ...text, formula };
}

function inputColumn(key: string, formula: FormulaColumn['formula']): FormulaColumn {
  const line = GAS_MONTH_INPUTS.find((input) => input.key === key);
  if (line === undefined) throw new RangeError(`no input of gas is called ${key}`);
  const { label, description, format } = line;
  const text = { label: `${label} taken`, unit: unitOf(line), description, style: styleOf(format) };
  return column(lettersOf(key), { ...text, name: gasName(key) }, formula);
}

/** What the comparison takes of each row of gas, and the columns that help to find it. */
export function gasColumns(book: Book): FormulaColumn[] {
  const table = [temperatureName('date'), temperatureName('degreeDays')] as const;
  const read = [ref(book.workings.calendar.date), ref(heatingDays(book).degreeDays)] as const;
  return [
    inputColumn('gasDays', daysFormula),
    inputColumn('gasKwh', kwhFormula),
    inputColumn('gasDegreeDays', (r) => bySource(r, (_, sum) => sum)),
    column(
      G.source,
      {
        label: 'Degree days from',
        unit: 'source',
        description:
          'Typed, else the temperatures by day where they have every day, else the readings, else scaled up where that was chosen',
        style: 'textCentre',
      },
      (r) => bySource(r, (source) => quoted(DEGREE_DAYS_SOURCE[source])),
    ),
    ...HEATING_BLOCKS.gasMonths.lines.map((line) =>
      column(
        lettersOf(line.key),
        {
          label: line.label,
          unit: unitOf(line),
          description: line.description,
          style: styleOf(line.format),
          name: gasName(line.key),
        },
        (r) => line.formula(gasReferences(r)),
      ),
    ),
    ...helpColumns(table, read),
  ];
}

function helpColumns(table: readonly [string, string], read: readonly [string, string]): FormulaColumn[] {
  const days = { unit: 'days', style: 'integer' } as const;
  const degreeDays = { unit: '°C·day', style: 'oneDecimal' } as const;
  const flag = { unit: '1 or 0', style: 'integer' } as const;
  const count = { unit: 'count', style: 'integer' } as const;
  return [
    column(
      H.calorificValue,
      {
        label: 'Calorific value taken',
        unit: 'MJ/m³',
        description: 'Of the row, else of the inputs of Heating',
        style: 'rate',
      },
      (r) =>
        `IF(ISNUMBER(${own(G.calorificValue, r)}),${own(G.calorificValue, r)},${figureName('calorificValueMjPerM3')})`,
    ),
    column(
      H.volumeKwh,
      { label: 'Energy of the volume', unit: 'kWh', description: 'Where a volume is given', style: 'kwh' },
      volumeFormula,
    ),
    column(
      H.tableDays,
      { ...days, label: 'Days in Temperatures', description: 'Days of the row that have degree days there' },
      countIn(...table),
    ),
    column(
      H.tableDegreeDays,
      { ...degreeDays, label: 'Their degree days', description: 'Sum over these days' },
      sumIn(...table),
    ),
    column(
      H.readDays,
      { ...days, label: 'Days in Readings', description: 'Days of the row that have degree days there' },
      countIn(...read),
    ),
    column(
      H.readDegreeDays,
      { ...degreeDays, label: 'Their degree days', description: 'Sum over these days' },
      sumIn(...read),
    ),
    column(
      H.unusable,
      {
        ...flag,
        label: 'Flag: can’t be used',
        description: 'A cell of it can’t be used, or it lacks first day, last day or gas',
        name: 'gas_rows_unusable',
      },
      (r) => `IF(SUM(${own(H.wrongDates, r)}:${own(H.wrongOthers, r)})>0,1,0)`,
    ),
    column(
      H.overlaps,
      {
        ...flag,
        label: 'Flag: overlaps',
        description: 'Begins before the row above has ended',
        name: 'gas_rows_overlapping',
      },
      brokenIn(GAS_RULES.order),
    ),
    column(
      H.tableLower,
      { ...degreeDays, label: 'At the lower base, Temperatures', description: LOWER_BASE },
      lowerIn(...table),
    ),
    column(
      H.readLower,
      { ...degreeDays, label: 'At the lower base, Readings', description: LOWER_BASE },
      lowerIn(...read),
    ),
    column(
      H.lowerBaseDegreeDays,
      {
        ...degreeDays,
        label: 'Degree days at the lower base',
        description: 'Of the same source; blank where they were typed',
        name: gasName('lowerBaseDegreeDays'),
      },
      (r) => {
        const [source, lower] = [own(G.source, r), own(H.tableLower, r)];
        return (
          `IF(NOT(ISNUMBER(${taken('gasKwhPerDay', r)})),"",IF(${source}="${DEGREE_DAYS_SOURCE.temperatures}",${lower},IF(${source}="${DEGREE_DAYS_SOURCE.readings}",${own(H.readLower, r)},` +
          `IF(${source}="${DEGREE_DAYS_SOURCE.scaled}",${lower}*${taken('gasDays', r)}/${own(H.tableDays, r)},""))))`
        );
      },
    ),
    column(
      H.lowerBasePerDay,
      {
        label: 'The same a day',
        unit: '°C',
        style: 'rate',
        description: 'Degree days at the lower base ÷ days',
        name: gasName('lowerBasePerDay'),
      },
      (r) => {
        const lower = own(H.lowerBaseDegreeDays, r);
        return `IF(ISNUMBER(${lower}),${lower}/${taken('gasDays', r)},"")`;
      },
    ),
    column(
      H.wrongDates,
      { ...count, label: 'Wrong: dates', description: 'No dates, or the last before the first' },
      brokenIn(GAS_RULES.dates),
    ),
    column(
      H.missing,
      { ...count, label: 'Missing', description: 'First day, last day, or gas' },
      brokenIn(GAS_RULES.missing),
    ),
    column(
      H.wrongAmounts,
      { ...count, label: 'Wrong: gas', description: 'Not a number, or below 0' },
      brokenIn(GAS_RULES.amounts),
    ),
    column(
      H.wrongOthers,
      { ...count, label: 'Wrong: others', description: 'Unit, calorific value or degree days can’t be used' },
      brokenIn(GAS_RULES.others),
    ),
  ];
}
