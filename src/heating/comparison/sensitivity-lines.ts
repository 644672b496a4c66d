import { BLANK, type HeatingLine, lineOf, total } from './heating-line.js';
import { totalWhere, totalWhereFormula } from './total-lines.js';

/** What one row of the sensitivity table changes. */
export type SensitivityKind = 'boiler efficiency' | 'gas rate' | 'COP';

/** One row: everything as it is, but one thing changed. */
export interface SensitivityRow {
  sensitivityKind: SensitivityKind;
  /** The efficiency (share 0–1), the gas rate as a multiple of today's, or the COP. */
  sensitivityValue: number;
}

/** The rows of the table: boiler efficiency 75–95 %, gas rate ±30 %, COP 2.5–4.5. Inputs: the user may change them. */
export const SENSITIVITY_ROWS: readonly SensitivityRow[] = [
  ...[0.75, 0.8, 0.85, 0.9, 0.95].map((value) => row('boiler efficiency', value)),
  ...[0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3].map((value) => row('gas rate', value)),
  ...[2.5, 3, 3.5, 4, 4.5].map((value) => row('COP', value)),
];

function row(sensitivityKind: SensitivityKind, sensitivityValue: number): SensitivityRow {
  return { sensitivityKind, sensitivityValue };
}

function differenceWhereKnown(key: string, label: string, column: string, countKey: string): HeatingLine {
  return {
    key,
    label,
    unit: '£',
    format: 'pounds',
    description: 'Sum of the months that have this estimate: what the sensitivity table starts from.',
    value: (at) => (at.number(countKey)! > 0 ? total(at.column(column)) : BLANK),
    formula: (at) => `IF(${at.cell(countKey)}>0,SUM(${at.column(column)}),"")`,
  };
}

/** Single figures that the sensitivity table starts from: sums over the months with the estimate concerned. */
export const SENSITIVITY_BASE_LINES: readonly HeatingLine[] = [
  differenceWhereKnown(
    'sensitivityMeterDifferencePounds',
    'Heat pump less boiler (a), months with (a)',
    'differenceFromMeterPounds',
    'monthsFromMeter',
  ),
  differenceWhereKnown(
    'sensitivityHeatDifferencePounds',
    'Heat pump less boiler (b), months with (b)',
    'differenceFromHeatPounds',
    'monthsFromHeat',
  ),
  {
    key: 'sensitivityHeatPounds',
    label: 'Boiler’s heat at the gas rate',
    unit: '£',
    format: 'pounds',
    description: 'Heat from the boiler × gas rate, over the months with estimate (b).',
    value: (at) => total(at.column('boilerHeatAtGasRatePounds')),
    formula: (at) => `SUM(${at.column('boilerHeatAtGasRatePounds')})`,
  },
  {
    key: 'sensitivityHeatPumpPounds',
    label: 'Heat pump’s electricity compared',
    unit: '£',
    format: 'pounds',
    description: 'Over the same months; it moves with the COP.',
    value: (at) => totalWhere(at, 'heatPumpEnergyPounds', 'differenceFromHeatPounds'),
    formula: (at) => totalWhereFormula(at, 'heatPumpEnergyPounds', 'differenceFromHeatPounds'),
  },
  {
    key: 'sensitivityMeterGasPounds',
    label: 'Gas of estimate (a)',
    unit: '£',
    format: 'pounds',
    description: 'Boiler’s side (a) less what it pays beside gas burnt, over the months with estimate (a).',
    value: (at) =>
      totalWhere(at, 'boilerFromMeterPounds', 'differenceFromMeterPounds') -
      totalWhere(at, 'boilerFixedPounds', 'differenceFromMeterPounds'),
    formula: (at) =>
      `${totalWhereFormula(at, 'boilerFromMeterPounds', 'differenceFromMeterPounds')}-${totalWhereFormula(at, 'boilerFixedPounds', 'differenceFromMeterPounds')}`,
  },
  {
    key: 'sensitivityMeterHeatPumpPounds',
    label: 'Heat pump’s electricity beside estimate (a)',
    unit: '£',
    format: 'pounds',
    description: 'Over the months with estimate (a).',
    value: (at) => totalWhere(at, 'heatPumpEnergyPounds', 'differenceFromMeterPounds'),
    formula: (at) => totalWhereFormula(at, 'heatPumpEnergyPounds', 'differenceFromMeterPounds'),
  },
];

const FROM_METER = {
  key: 'sensitivityFromMeterPounds',
  label: 'Heat pump less boiler (a)',
  unit: '£',
  format: 'pounds',
  description:
    'With this one figure changed. Blank for boiler efficiency: last year’s meter already contains the real one.',
} as const;
const FROM_HEAT = {
  key: 'sensitivityFromHeatPounds',
  label: 'Heat pump less boiler (b)',
  unit: '£',
  format: 'pounds',
  description: 'With this one figure changed, and all else as it is.',
} as const;

const meterLine = (
  needs: readonly string[],
  value: (figures: number[]) => number,
  formula: (cells: string[]) => string,
): HeatingLine =>
  lineOf(FROM_METER, ['sensitivityValue', 'sensitivityMeterDifferencePounds', ...needs], value, formula);
const heatLine = (
  needs: readonly string[],
  value: (figures: number[]) => number,
  formula: (cells: string[]) => string,
): HeatingLine =>
  lineOf(FROM_HEAT, ['sensitivityValue', 'sensitivityHeatDifferencePounds', ...needs], value, formula);

/** Keys of the columns of the sensitivity table. */
export const SENSITIVITY_KEYS: readonly string[] = [FROM_METER.key, FROM_HEAT.key];

/** Lines of a row of the sensitivity table, by what the row changes; a line that is missing stays blank. */
export const SENSITIVITY_LINES: Readonly<Record<SensitivityKind, readonly HeatingLine[]>> = {
  'boiler efficiency': [
    heatLine(
      ['sensitivityHeatPounds', 'boilerEfficiency'],
      ([changed, difference, heat, efficiency]) => difference! + heat! / efficiency! - heat! / changed!,
      ([changed, difference, heat, efficiency]) => `${difference}+${heat}/${efficiency}-${heat}/${changed}`,
    ),
  ],
  'gas rate': [
    meterLine(
      ['sensitivityMeterGasPounds'],
      ([changed, difference, gas]) => difference! - (changed! - 1) * gas!,
      ([changed, difference, gas]) => `${difference}-(${changed}-1)*${gas}`,
    ),
    heatLine(
      ['sensitivityHeatPounds', 'boilerEfficiency'],
      ([changed, difference, heat, efficiency]) => difference! - ((changed! - 1) * heat!) / efficiency!,
      ([changed, difference, heat, efficiency]) => `${difference}-(${changed}-1)*${heat}/${efficiency}`,
    ),
  ],
  COP: [
    meterLine(
      ['sensitivityMeterHeatPumpPounds', 'totalCop'],
      ([changed, difference, heatPump, cop]) => difference! + heatPump! * (cop! / changed! - 1),
      ([changed, difference, heatPump, cop]) => `${difference}+${heatPump}*(${cop}/${changed}-1)`,
    ),
    heatLine(
      ['sensitivityHeatPumpPounds', 'totalCop'],
      ([changed, difference, heatPump, cop]) => difference! + heatPump! * (cop! / changed! - 1),
      ([changed, difference, heatPump, cop]) => `${difference}+${heatPump}*(${cop}/${changed}-1)`,
    ),
  ],
};
