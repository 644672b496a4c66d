import { HEATING_BLOCKS } from '../../../heating/compare-heating.js';
import { GAS_MONTH_INPUTS } from '../../../heating/comparison/heating-inputs.js';
import { gasVolumeToEnergyDescribed } from '../../../heating/gas-volume-to-energy.js';
import { DEGREE_DAY_SOURCE } from '../../evaluate/heating/gas-lines.js';
import { GAS_ROWS } from '../../inputs/heating-cells.js';
import { FIRST_ROW } from '../../layout.js';
import { quoted } from '../cells.js';
import { DAY as D, dayColumn } from '../columns.js';
import type { FormulaColumn } from '../sheet-model.js';
import { figureCell } from './heating-figures-rows.js';
import {
  GAS as G,
  GAS_LINE_LETTERS,
  HEATING_DAY,
  heatingDayColumn,
  TEMPERATURE,
  temperatureColumn,
} from './heating-rows.js';
import { styleOf, unitOf } from './line-looks.js';
import { gasReferences } from './line-references.js';

const DAYS_LETTERS = GAS_LINE_LETTERS.gasDays!;
const NUMBER = '">-1E+300"';

function daysFormula(r: number): string {
  return `IF(COUNT($${G.firstDay}${r},$${G.lastDay}${r})<2,"",IF(INT($${G.lastDay}${r})<INT($${G.firstDay}${r}),"",INT($${G.lastDay}${r})-INT($${G.firstDay}${r})+1))`;
}

function kwhFormula(r: number): string {
  const [kwh, volume, unit] = [`$${G.kwh}${r}`, `$${G.volume}${r}`, `$${G.volumeUnit}${r}`];
  const own = `$${G.calorificValue}${r}`;
  const calorific = `IF(ISNUMBER(${own}),${own},${figureCell('calorificValueMjPerM3')})`;
  const unitUsed = `IF(${unit}="","m3",${unit})`;
  const energy = gasVolumeToEnergyDescribed.formula!([
    volume,
    unitUsed,
    calorific,
    figureCell('volumeCorrection'),
  ]);
  const known = `OR(${unit}="",${unit}="m3",${unit}="ft3",${unit}="100ft3")`;
  return (
    `IF(ISNUMBER(${kwh}),IF(${kwh}>=0,${kwh},""),IF(ISNUMBER(${volume}),` +
    `IF(AND(${volume}>=0,${known},${calorific}>0),${energy},""),""))`
  );
}

const span = (dates: string, r: number): string =>
  `${dates},">="&INT($${G.firstDay}${r}),${dates},"<="&INT($${G.lastDay}${r})`;

function fromDays(dates: string, degreeDays: string, r: number): { count: string; sum: string } {
  return {
    count: `COUNTIFS(${span(dates, r)},${degreeDays},${NUMBER})`,
    sum: `SUMIFS(${degreeDays},${span(dates, r)})`,
  };
}

/** By source: what the source gives, or a text of it. */
function bySource(r: number, pick: (source: keyof typeof DEGREE_DAY_SOURCE, sum: string) => string): string {
  const days = `$${DAYS_LETTERS}${r}`;
  const typed = `$${G.degreeDays}${r}`;
  const table = fromDays(temperatureColumn(TEMPERATURE.date), temperatureColumn(TEMPERATURE.degreeDays), r);
  const read = fromDays(dayColumn(D.date), heatingDayColumn(HEATING_DAY.degreeDays), r);
  return (
    `IF(ISNUMBER(${typed}),IF(${typed}>=0,${pick('typed', typed)},""),IF(NOT(ISNUMBER(${days})),"",` +
    `IF(${table.count}>=${days},${pick('temperatures', table.sum)},` +
    `IF(${read.count}>=${days},${pick('readings', read.sum)},` +
    `IF(AND(${figureCell('scaleDegreeDays')}="yes",${table.count}>0),${pick('scaled', `${table.sum}*${days}/${table.count}`)},"")))))`
  );
}

function inputColumn(key: string, formula: FormulaColumn['formula']): FormulaColumn {
  const line = GAS_MONTH_INPUTS.find((input) => input.key === key)!;
  return {
    letters: GAS_LINE_LETTERS[key]!,
    firstRow: FIRST_ROW,
    rows: GAS_ROWS,
    label: `${line.label} taken`,
    unit: unitOf(line),
    description: line.description,
    style: styleOf(line.format),
    formula,
    values: (r) => r.heating.comparison.gasMonths.map((row) => row[key] ?? ''),
  };
}

/** What the comparison takes of each row of gas. */
export function gasColumns(): FormulaColumn[] {
  return [
    inputColumn('gasDays', daysFormula),
    inputColumn('gasKwh', kwhFormula),
    inputColumn('gasDegreeDays', (r) => bySource(r, (_, sum) => sum)),
    {
      letters: G.source,
      firstRow: FIRST_ROW,
      rows: GAS_ROWS,
      label: 'Degree days from',
      unit: 'source',
      description:
        'Typed, else the sheet of temperatures where it has every day, else the readings, else scaled up where that was chosen',
      style: 'textCentre',
      formula: (r) => bySource(r, (source) => quoted(DEGREE_DAY_SOURCE[source])),
      values: (r) => r.heating.gas.map(({ source }) => source),
    },
    ...HEATING_BLOCKS.gasMonths.lines.map(
      (line): FormulaColumn => ({
        letters: GAS_LINE_LETTERS[line.key]!,
        firstRow: FIRST_ROW,
        rows: GAS_ROWS,
        label: line.label,
        unit: unitOf(line),
        description: line.description,
        style: styleOf(line.format),
        formula: (r) => line.formula(gasReferences(r)),
        values: (r) => r.heating.comparison.gasMonths.map((row) => row[line.key] ?? ''),
      }),
    ),
  ];
}
