import { formula, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { figureName } from './heating-figures-rows.js';
import { figureRow, shownFigure } from './heating-key-figures.js';
import { type HeatingRows, heatingMonthName as monthColumn } from './heating-rows.js';

const YEAR_BOTH: readonly [text: string, meter: string, heat: string][] = [
  ['Heat pump’s side, {major}/year', 'yearHeatPumpPounds', 'yearHeatPumpPounds'],
  ['Boiler’s side, {major}/year', 'yearFromMeterPounds', 'yearFromHeatPounds'],
  ['Heat pump less boiler, {major}/year', 'yearDifferenceFromMeterPounds', 'yearDifferenceFromHeatPounds'],
  ['Give or take of the fits, {major}', 'yearFromMeterRangePounds', 'yearFromHeatRangePounds'],
];
const YEAR_SINGLE: readonly string[] = [
  'yearElectricityKwh',
  'yearBoilerHeatKwh',
  'yearGasFromMeterKwh',
  'yearEnergyPencePerKwh',
  'yearSavingPounds',
  'paybackYears',
];

/** The year of usual weather, from what there is. */
export function yearCells({ year: first }: HeatingRows): Cell[] {
  return [
    label(`A${first}`, 'A year of usual weather, from these months', 'headerLeft'),
    label(`B${first}`, '(a) last year’s gas', 'header'),
    label(`C${first}`, '(b) heat ÷ efficiency', 'header'),
    ...YEAR_BOTH.flatMap(([text, meter, heat], i) => {
      const row = first + 1 + i;
      const style = i === 2 ? 'moneySigned' : 'money';
      return [
        label(`A${row}`, text, i === 2 ? 'labelStrong' : 'label'),
        shownFigure(`B${row}`, meter, style),
        shownFigure(`C${row}`, heat, style),
      ];
    }),
    formula(`A${first + 5}`, figureName('yearRefusal'), 'hint'),
    formula(`A${first + 13}`, figureName('yearGasRefusal'), 'hint'),
    label(`A${first + 6}`, 'Degree days of that year', 'label'),
    formula(`B${first + 6}`, figureName('yearDegreeDays'), 'kwh'),
    label(`C${first + 6}`, '°C·day', 'unitBeside'),
    ...YEAR_SINGLE.flatMap((key, i) => figureRow(first + 7 + i, key)),
  ];
}

/** Pence a kWh of hot water over the months that have a cost of it. */
function paidFormula(poundsKey: string): string {
  const heat = `SUMIF(${monthColumn(poundsKey)},">-1E+300",${monthColumn('hotWaterHeatKwh')})`;
  return `IF(${heat}>0,SUM(${monthColumn(poundsKey)})*100/${heat},"")`;
}

const HEAT_PUMP_RATE = 'average rate paid ÷ COP for hot water';
const BOILER_RATE = 'gas rate ÷ boiler efficiency';
const IMMERSION_NOW = 'the immersion heater’s rate now';
const IMMERSION_THEN = 'the immersion heater’s rate then';
const ON_NEITHER = 'hot water is on neither side';

function rateText(maker: string, plant: string, text: string, immersion: string): string {
  return `IF(${figureName('hotWaterSide')}="neither","${ON_NEITHER}",IF(${figureName(maker)}="${plant}","${text}","${immersion}"))`;
}

/** Hot water on both sides or neither, with the rate used; gas standing charge dropped or kept. */
export function hotWaterCells({ hotWater: first }: HeatingRows): Cell[] {
  const setting = (row: number, text: string, key: string, unit: string, style: 'text' | 'rate'): Cell[] => [
    label(`A${row}`, text, 'label'),
    formula(`B${row}`, figureName(key), style === 'text' ? 'textRight' : style),
    ...(unit === '' ? [] : [label(`C${row}`, unit, 'unitBeside')]),
  ];
  const rate = (
    row: number,
    text: string,
    poundsKey: string,
    words: [maker: string, plant: string, text: string, immersion: string],
  ): Cell[] => [
    label(`A${row}`, text, 'labelStrong'),
    formula(`B${row}`, paidFormula(poundsKey), 'rate'),
    label(`C${row}`, '{minor}/kWh', 'unitBeside'),
    formula(`D${row}`, rateText(...words), 'hint'),
  ];
  return [
    ...['A', 'B', 'C'].map((letters, i) =>
      label(`${letters}${first}`, i === 0 ? 'Hot water and gas standing charge' : '', 'headerLeft'),
    ),
    ...setting(first + 1, 'Hot water on', 'hotWaterSide', '', 'text'),
    ...setting(first + 2, 'Hot water heat', 'hotWaterKwhPerDay', 'kWh/day', 'rate'),
    ...setting(first + 3, 'Now by', 'heatPumpSideHotWater', '', 'text'),
    ...rate(first + 4, 'Rate used now, a kWh of heat', 'heatPumpSideHotWaterPounds', [
      'heatPumpSideHotWater',
      'heat pump',
      HEAT_PUMP_RATE,
      IMMERSION_NOW,
    ]),
    ...setting(first + 5, 'Then by', 'boilerSideHotWater', '', 'text'),
    ...rate(first + 6, 'Rate used then, a kWh of heat', 'boilerSideHotWaterPounds', [
      'boilerSideHotWater',
      'boiler',
      BOILER_RATE,
      IMMERSION_THEN,
    ]),
    ...setting(first + 7, 'Gas supply', 'gasSupply', '', 'text'),
    label(`A${first + 8}`, 'Gas standing charge of these months', 'label'),
    formula(
      `B${first + 8}`,
      `IF(COUNT(${monthColumn('gasStandingUsedPence')})=0,"",SUMPRODUCT(${monthColumn('days')},${monthColumn('gasStandingUsedPence')})/100)`,
      'money',
    ),
    label(`C${first + 8}`, '{major}', 'unitBeside'),
    formula(
      `D${first + 8}`,
      `IF(${figureName('gasSupply')}="kept","paid on both sides","on the boiler’s side only")`,
      'hint',
    ),
  ];
}
