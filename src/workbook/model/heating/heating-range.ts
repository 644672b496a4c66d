import type { StyleName } from '../../look/styles.js';
import { formula, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { whereNotAllMeans } from './gas-columns.js';
import { figureName } from './heating-figures-rows.js';
import { gasName, type HeatingRows, heatingMonthName } from './heating-rows.js';

/** Letters of the table: what is varied, from and to, the difference at either, how much less and more that is. */
const AT = { name: 'F', from: 'I', to: 'J', atFrom: 'K', atTo: 'L', less: 'M', more: 'N' } as const;
/** Column of what the table is made of, right of everything that is printed. */
const PARTS = 'S';

/** Defined names of the range and of what is said of it. */
export const RANGE_NAMES = {
  low: 'heating_range_low',
  high: 'heating_range_high',
  words: 'heating_range_words',
  estimate: 'heating_estimate_words',
} as const;

/** What nobody measured, in the order of the table, in the words of the sentence. */
const INPUTS: readonly { words: string; shown: (value: string) => string; unit: string }[] = [
  { words: 'the boiler’s efficiency', shown: (value) => `ROUND(100*${value},0)`, unit: '%' },
  { words: 'the hot water', shown: (value) => `FIXED(${value},1)`, unit: 'kWh a day' },
  { words: 'the base temperature', shown: (value) => `FIXED(${value},1)`, unit: '°C' },
];

const known = (key: string): string => `COUNT(${figureName(key)})=1`;
const is = (key: string, choice: string): string => `${figureName(key)}="${choice}"`;
const sum = (key: string): string => `SUM(${heatingMonthName(key)})`;

interface Rows {
  heading: number;
  first: number;
  last: number;
  parts: number;
}

function rowsOf({ sensitivity }: HeatingRows): Rows {
  const first = sensitivity + 1;
  return { heading: sensitivity, first, last: first + INPUTS.length - 1, parts: sensitivity + 1 };
}

/** Row of all that is varied together, below the last. */
const allRow = ({ last }: Rows): number => last + 1;

/** How many parts the table is made of; the words stand below them. */
const PART_COUNT = 9;

/** The parts that the table is made of: what the difference changes by for a unit of each. */
function parts({ parts: row }: Rows): Cell[] {
  const neither = is('hotWaterSide', 'neither');
  const both = is('hotWaterSide', 'both');
  const [gasOfMeter, gasOfHeat] = [sum('weighedGasOfMeter'), sum('weighedGasOfHeat')];
  const efficiency = figureName('boilerEfficiency');
  /** Money of a kWh of gas ÷ the efficiency: of a kWh of heat. */
  const ofHeat = (gas: string): string => `IF(${known('boilerEfficiency')},${gas}/${efficiency},0)`;
  const lines: readonly (readonly [name: string, text: string])[] = [
    // What (a) leaves out of last year's gas is the hot water's heat ÷ efficiency.
    [
      'hot_water_left_out_pounds',
      `IF(AND(${neither},${is('boilerSideHotWater', 'boiler')}),${figureName('hotWaterKwhPerDay')}*${gasOfMeter},0)`,
    ],
    ['by_efficiency_pounds', `hot_water_left_out_pounds-${sum('weighedHeat')}`],
    [
      'hot_water_now_pounds',
      `IF(AND(${both},${is('heatPumpSideHotWater', 'immersion heater')}),SUM(${figureName('heatPumpSideHotWaterPence')})*${sum('comparedDays')}/100,0)` +
        `-IF(AND(${neither},${is('heatPumpSideHotWater', 'heat pump')}),${sum('comparedPaid')}/${figureName('hotWaterCop')},0)`,
    ],
    [
      'hot_water_then_share',
      `IF(AND(${both},${is('boilerSideHotWater', 'boiler')}),1,0)-IF(${is('heatPumpSideHotWater', 'heat pump')},1,0)`,
    ],
    [
      'hot_water_then_pounds',
      `IF(AND(${both},${is('boilerSideHotWater', 'immersion heater')}),SUM(${figureName('boilerSideHotWaterPence')})*${sum('comparedDays')}/100,0)` +
        `+hot_water_then_share*${ofHeat(gasOfHeat)}`,
    ],
    [
      'by_hot_water_pounds',
      `hot_water_now_pounds-hot_water_then_pounds+IF(AND(${neither},${is('boilerSideHotWater', 'boiler')}),${ofHeat(gasOfMeter)},0)`,
    ],
    // A line through last year's gas at the lower base, as at the other.
    [
      'lower_base_gas_per_degree_day',
      `IF(COUNT(${gasName('lowerBasePerDay')})<COUNT(${gasName('gasKwhPerDay')}),"",IF(COUNT(${figureName('enteredBaseGasKwhPerDay')})=1,` +
        `IFERROR(${figureName('gasForWeatherKwh')}/SUM(${gasName('lowerBaseDegreeDays')}),""),IFERROR(SLOPE(${gasName('gasKwhPerDay')},${gasName('lowerBasePerDay')}),"")))`,
    ],
    [
      'lower_base_gas_per_day',
      `IF(COUNT(lower_base_gas_per_degree_day)=0,"",IF(COUNT(${figureName('enteredBaseGasKwhPerDay')})=1,${figureName('enteredBaseGasKwhPerDay')},` +
        `IFERROR(INTERCEPT(${gasName('gasKwhPerDay')},${gasName('lowerBasePerDay')}),"")))`,
    ],
    // Known where every month that counts has it.
    [
      'by_base_pounds',
      `IF(COUNT(${figureName('monthsFromMeter')})=0,"",IF(COUNT(${heatingMonthName('lowerBaseChange')})<${figureName('monthsFromMeter')},"",${sum('lowerBaseChange')}))`,
    ],
  ];
  if (lines.length !== PART_COUNT) throw new RangeError(`the range has ${lines.length} parts`);
  return lines.map(([name, text], i) => formula(`${PARTS}${row + i}`, text, 'hint', { name }));
}

const difference = figureName('totalDifferenceBestPounds');

/** One row: what is varied, how far, and the difference there; blank where it can't be told. */
function inputCells(
  row: number,
  text: string,
  [from, to]: readonly [string, string],
  style: StyleName,
  changeAt: (value: string) => string,
  condition: string,
): Cell[] {
  const at = (letters: string): string => `${letters}${row}`;
  const told = (then: string): string => `IF(AND(COUNT(${difference})=1,${condition}),${then},"")`;
  const [atFrom, atTo] = [at(AT.atFrom), at(AT.atTo)];
  const ends = `${atFrom}:${atTo}`;
  const beyond = (then: string): string => `IF(COUNT(${ends})<2,0,${then})`;
  return [
    label(at(AT.name), text, 'label', { mergeTo: `H${row}` }),
    formula(at(AT.from), from, style),
    formula(at(AT.to), to, style),
    formula(atFrom, told(`${difference}+${changeAt(at(AT.from))}`), 'moneySigned'),
    formula(atTo, told(`${difference}+${changeAt(at(AT.to))}`), 'moneySigned'),
    formula(at(AT.less), beyond(`MAX(0,${difference}-MIN(${ends}))`), 'money'),
    formula(at(AT.more), beyond(`MAX(0,MAX(${ends})-${difference})`), 'money'),
  ];
}

/**
 * How far the difference may be off for what nobody measured: each varied alone, all together by the root of the sum of
 * squares (JCGM 100:2008, 5.1.2, for inputs that do not depend on one another; from memory), and no narrower than the two estimates.
 */
export function rangeCells(R: HeatingRows): Cell[] {
  const rows = rowsOf(R);
  const { heading, first, last } = rows;
  const [efficiency, hotWater, base] = ['boilerEfficiency', 'hotWaterKwhPerDay', 'degreeDayBaseC'].map(
    figureName,
  );
  const eitherWay = figureName('baseEitherWayC');
  const headers: readonly [string, string][] = [
    [AT.from, 'from'],
    [AT.to, 'to'],
    [AT.atFrom, 'at the first, {major}'],
    [AT.atTo, 'at the second, {major}'],
    [AT.less, 'less by, {major}'],
    [AT.more, 'more by, {major}'],
  ];
  const squares = (letters: string): string => {
    const range = `$${letters}$${first}:$${letters}$${last}`;
    return `SQRT(SUMPRODUCT(${range},${range}))`;
  };
  const all = allRow(rows);
  return [
    label(`${AT.name}${heading}`, 'What nobody measured', 'headerLeft', {
      mergeTo: `H${heading}`,
    }),
    ...headers.map(([letters, text]) => label(`${letters}${heading}`, text, 'header')),
    label(
      `${AT.name}${all + 2}`,
      `One varied at a time, on the mean of (a) and (b), months with less heat than hot water like the rest. How far: at the right, under How sure.`,
      'hint',
    ),
    label(
      `${AT.name}${all + 3}`,
      'Base temperature: last year’s gas fitted anew at the lower one, the higher taken to change as much; blank where degree days were typed.',
      'hint',
    ),
    formula(
      `${AT.name}${all + 4}`,
      whereNotAllMeans(
        'Approximate for days by maximum and minimum or by half-hours: theirs are lowered as those of daily means are.',
      ),
      'hint',
      { name: 'base_range_is_approximate' },
    ),
    ...inputCells(
      first,
      'Boiler efficiency',
      [figureName('leastEfficiency'), figureName('mostEfficiency')],
      'percent',
      (value) => `by_efficiency_pounds*(1/${value}-1/${efficiency})`,
      known('boilerEfficiency'),
    ),
    ...inputCells(
      first + 1,
      'Hot water heat, kWh a day',
      [figureName('leastHotWaterKwhPerDay'), figureName('mostHotWaterKwhPerDay')],
      'rate',
      (value) => `by_hot_water_pounds*(${value}-${hotWater})`,
      known('boilerEfficiency'),
    ),
    ...inputCells(
      last,
      'Base temperature, °C',
      [`${base}-${eitherWay}`, `${base}+${eitherWay}`],
      'oneDecimal',
      (value) => `by_base_pounds*(${value}-${base})/${eitherWay}`,
      'COUNT(by_base_pounds)=1',
    ),
    label(`${AT.name}${all}`, 'All together', 'labelStrong', { mergeTo: `H${all}` }),
    formula(`${AT.less}${all}`, squares(AT.less), 'moneyStrong'),
    formula(`${AT.more}${all}`, squares(AT.more), 'moneyStrong'),
    label(`${AT.name}${all + 1}`, 'Heat pump less boiler, from and to', 'labelStrong', {
      mergeTo: `H${all + 1}`,
    }),
    formula(
      `${AT.atFrom}${all + 1}`,
      `IF(COUNT(${difference})=0,"",MIN(${figureName('totalLowPounds')},${difference}-${AT.less}${all}))`,
      'moneySigned',
      { name: RANGE_NAMES.low },
    ),
    formula(
      `${AT.atTo}${all + 1}`,
      `IF(COUNT(${difference})=0,"",MAX(${figureName('totalHighPounds')},${difference}+${AT.more}${all}))`,
      'moneySigned',
      { name: RANGE_NAMES.high },
    ),
    ...parts(rows),
    ...words(rows),
  ];
}

/** How wide each input makes it, and the sentence. */
function words(rows: Rows): Cell[] {
  const { first, last, parts: row } = rows;
  const at = row + PART_COUNT + 1;
  const widths = `$${PARTS}$${at}:$${PARTS}$${at + INPUTS.length - 1}`;
  const { low, high } = RANGE_NAMES;
  const pounds = (text: string): string => `currency_symbol&ROUND(${text},0)`;
  const nearest = `MIN(ABS(${low}),ABS(${high}))`;
  const farthest = `MAX(ABS(${low}),ABS(${high}))`;
  const texts = INPUTS.map(({ words, shown, unit }, i) => {
    const end = (letters: string): string => shown(`$${letters}$${first + i}`);
    return `"${words} ("&${end(AT.from)}&" to "&${end(AT.to)}&" ${unit})"`;
  });
  const all = allRow(rows);
  /** Least or most of the difference where what moves it most is varied, in whole {major}. */
  const atDecides = (which: 'MIN' | 'MAX'): string =>
    `IF(heating_decides_place=0,"",ROUND(${which}(INDEX($${AT.atFrom}$${first}:$${AT.atTo}$${last},MAX(1,heating_decides_place),1),INDEX($${AT.atFrom}$${first}:$${AT.atTo}$${last},MAX(1,heating_decides_place),2)),0))`;
  const [meanLow, meanHigh] = ['heating_mean_low', 'heating_mean_high'];
  const end = (ofLess: string, ofMore: string): string =>
    `currency_symbol&ABS(IF(${meanHigh}<=0,${ofLess},${ofMore}))`;
  const meanFromTo =
    `${end(meanHigh, meanLow)}&IF(${meanLow}*${meanHigh}<0," less","")&" to "` +
    `&${end(meanLow, meanHigh)}&IF(${meanHigh}<=0," less"," more")`;
  const line = (i: number, text: string, name: string): Cell =>
    formula(`${PARTS}${at + INPUTS.length + i}`, text, 'hint', { name });
  return [
    ...INPUTS.map((_, i) =>
      formula(`${PARTS}${at + i}`, `$${AT.less}$${first + i}+$${AT.more}$${first + i}`, 'hint'),
    ),
    line(0, `IF(MAX(${widths})<=0,0,MATCH(MAX(${widths}),${widths},0))`, 'heating_decides_place'),
    line(
      1,
      `IF(heating_decides_place=0,"",CHOOSE(MAX(1,heating_decides_place),${texts.join(',')}))`,
      'heating_decides_words',
    ),
    line(
      2,
      `IF(COUNT(${difference})=0,"",IF(ABS(${difference})<=${figureName('totalSameWithinPounds')},"about the same as",` +
        `"about "&${pounds(`ABS(${difference})`)}&IF(${difference}<0," less than"," more than")))`,
      'heating_estimate_amount',
    ),
    line(
      3,
      `IF(heating_estimate_amount="","","The heat pump cost "&heating_estimate_amount&" the boiler would have")`,
      RANGE_NAMES.estimate,
    ),
    line(
      4,
      `IF(COUNT(${low},${high})<2,"",${pounds(nearest)}&" to "&${pounds(farthest)}&IF(${high}<=0," less"," more"))`,
      'heating_one_sided_words',
    ),
    line(
      5,
      `IF(COUNT(${low},${high})<2,"",IF(OR(${high}<=0,${low}>=0),heating_one_sided_words,${pounds(`0-${low}`)}&" less to "&${pounds(high)}&" more, too close to call"))`,
      'heating_from_to_words',
    ),
    line(
      6,
      `IF(OR(heating_from_to_words="",heating_decides_place+heating_ends_of_estimates=0),"",CHOOSE(1+heating_ends_of_estimates,` +
        `"; over what nobody measured, ","; over two estimates that differ and what nobody measured, ","; as the two estimates differ, ")&"from "&heating_from_to_words&heating_moves_words)`,
      RANGE_NAMES.words,
    ),
    // How many of the range's two ends the estimates make, beyond half a {major}: these no input decides.
    line(
      7,
      `IF(COUNT(${low},${high})<2,0,IF(${low}<${difference}-$${AT.less}$${all}-0.5,1,0)+IF(${high}>${difference}+$${AT.more}$${all}+0.5,1,0))`,
      'heating_ends_of_estimates',
    ),
    line(8, atDecides('MIN'), 'heating_mean_low'),
    line(9, atDecides('MAX'), 'heating_mean_high'),
    line(10, `IF(heating_decides_place=0,"",${meanFromTo})`, 'heating_mean_from_to'),
    line(
      11,
      `IF(heating_decides_place=0,"",IF(heating_ends_of_estimates=0,": what decides is "&heating_decides_words,": of what nobody measured, "&heating_decides_words&" moves their mean most, from "&heating_mean_from_to))`,
      'heating_moves_words',
    ),
  ];
}
