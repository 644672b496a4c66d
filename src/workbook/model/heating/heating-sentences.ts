import { settingOf } from '../../fields/heating-settings.js';
import { SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { CELL } from '../columns.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { figureName, TARIFF_PLACE } from './heating-figures-rows.js';
import { RANGE_NAMES } from './heating-range.js';
import { heatingMonthName, settingCell } from './heating-rows.js';
import { tariffNames } from './used-setting-formula.js';

/** Defined name of the verdict's cell. */
export const VERDICT_NAME = 'heating_verdict';

/** A sentence of the comparison with the home's currency in it. */
export function inCurrencyFormula(reference: string): string {
  return `SUBSTITUTE(${reference},"£",${CELL.currency})`;
}

/** The verdict in words, as the workbook says it. */
export function heatingSentence({ calculated }: { calculated: { named(name: string): unknown } }): string {
  return String(calculated.named(VERDICT_NAME));
}

const SINGLE = 'at the single rate';
const HALF_HOURLY = 'half-hour by half-hour on ';
const BATTERY = 'through the battery on ';
const NO_TARIFF = 'no tariff';
const GIVEN_UP = 'gas is given up, so only the boiler’s side pays its standing charge.';
const KEPT = 'gas is kept, so both sides pay its standing charge.';

/** Defined name of what to do where the heat pump can't be priced through the battery. */
const LOOKS_ELSEWHERE_NAME = 'heating_looks_elsewhere_words';

/** What to do where the heat pump is priced through the battery, and the battery's sheets look at another tariff. */
function looksElsewhereFormula({ workings }: Book): string {
  const wanted = `${figureName('costBasis')}="battery",${figureName(TARIFF_PLACE)}>0,${ref(workings.battery.usableKwh)}>0`;
  return `IF(AND(${wanted},heating_through_battery=0),"The heat pump can’t be priced "&heat_pump_is_priced&": on ${SHEETS.battery}, choose that tariff to look at.","")`;
}

/** That all rates, gas too, are the latest, where they are. */
const nowFormula = ({ workings }: Book): string =>
  `&IF(${ref(workings.calendar.ratesAsOf)}>0,", all rates as they are now","")`;

/** Column of the parts of a sentence: right of everything that is printed. */
const PARTS = 'S';

/**
 * What the verdict rests on, in one sentence.
 *
 * @param at cell of the sentence; its parts stand in the same row and those below, right of the sheet
 */
export function basisCells(book: Book, at: string): Cell[] {
  const [basis, place] = [figureName('costBasis'), figureName(TARIFF_PLACE)];
  const tariff = `IF(${place}=0,"${NO_TARIFF}",INDEX(${tariffNames(book)},1,${place}))`;
  const priced = `IF(${basis}="single rate","${SINGLE}",IF(${basis}="half-hourly","${HALF_HOURLY}","${BATTERY}")&${tariff})`;
  const hotWater = `IF(${figureName('hotWaterSide')}="both","both sides","neither side")`;
  const supply = `IF(${figureName('gasSupply')}="kept","${KEPT}","${GIVEN_UP}")`;
  const sentence =
    `"The heat pump is priced "&heat_pump_is_priced&"; "&boiler_efficiency_in_words&"; ` +
    `hot water is on "&${hotWater}&"; "&gas_supply_in_words`;
  return [
    formula(at, sentence, 'hint'),
    label(`${PARTS}4`, 'Parts of the sentences', 'hint'),
    formula(`${PARTS}5`, priced + nowFormula(book), 'hint', { name: 'heat_pump_is_priced' }),
    formula(`${PARTS}6`, supply, 'hint', { name: 'gas_supply_in_words' }),
    formula(`${PARTS}7`, efficiencyFormula(), 'hint', { name: 'boiler_efficiency_in_words' }),
    ...toDoCells(),
    formula(`${PARTS}${NOT_COUNTED_ROW + NOT_COUNTED.length + 5}`, saidFormula(), 'hint', {
      name: SAID_NAME,
    }),
    formula(`${PARTS}${NOT_COUNTED_ROW + NOT_COUNTED.length + 4}`, looksElsewhereFormula(book), 'hint', {
      name: LOOKS_ELSEWHERE_NAME,
    }),
    ...notCountedCells(),
  ];
}

function efficiencyFormula(): string {
  const efficiency = figureName('boilerEfficiency');
  return `IF(COUNT(${efficiency})=0,"the boiler’s efficiency is not typed","the boiler is "&ROUND(100*${efficiency},1)&" % efficient")`;
}

/** Rates that a comparison can't do without: the setting's, or one for every month. */
const RATES: readonly [key: string, usedKey: string, when?: string][] = [
  ['gasRatePence', 'gasRateUsedPence'],
  ['gasStandingPencePerDay', 'gasStandingUsedPence'],
  ['singleRatePence', 'singleRateUsedPence', `${figureName('costBasis')}="single rate"`],
];
const IMMERSION_RATES = ['heatPumpSideHotWaterPence', 'boilerSideHotWaterPence'];

/** Says which inputs no workbook can start with, until they are typed; below the other parts of the sentences. */
function toDoCells(): Cell[] {
  const first = 8;
  const days = heatingMonthName('days');
  const missing = (key: string, condition: string): string =>
    `IF(${condition},"${settingOf(key).input.label.toLowerCase()},","")`;
  const isBlank = (key: string): string => `COUNT(${figureName(key)})=0`;
  const parts = [
    ...RATES.map(([key, usedKey, when]) => {
      const used = `COUNT(${heatingMonthName(usedKey)})`;
      const conditions = [
        isBlank(key),
        `OR(COUNT(${days})=0,COUNT(${days})>${used})`,
        ...(when ? [when] : []),
      ];
      return missing(key, `AND(${conditions.join(',')})`);
    }),
    ...['boilerEfficiency', ...IMMERSION_RATES].map((key) => missing(key, isBlank(key))),
  ];
  // Commas alone at their ends: programs that save drop spaces there.
  const words = parts.map((_, i) => `$${PARTS}$${first + i}`).join('&');
  const last = first + parts.length;
  const list = `$${PARTS}$${last}`;
  return [
    ...parts.map((text, i) => formula(`${PARTS}${first + i}`, text, 'hint')),
    formula(`${PARTS}${last}`, words, 'hint'),
    formula(
      `${PARTS}${last + 1}`,
      `IF(${list}="","","First type on ${SHEETS.heatingInputs}: "&SUBSTITUTE(LEFT(${list},LEN(${list})-1),",",", ")&".")`,
      'hint',
      { name: 'heating_to_do_words' },
    ),
  ];
}

/** Defined name of the estimate with its range, or of what is said where there is none. */
const SAID_NAME = 'heating_said_words';

function saidFormula(): string {
  const { estimate, words } = RANGE_NAMES;
  return `IF(${estimate}="",${inCurrencyFormula(figureName('verdict'))},${estimate}&${words}&${MONTHS_COVERED})`;
}

/** How many of the months the estimate covers. */
const MONTHS_COVERED = `". ("&${figureName('monthsCompared')}&" of "&${figureName('months')}&" month"&IF(${figureName('months')}=1,")","s)")`;

/** The verdict, or what there is to do before there is one. */
export function verdictFormula(): string {
  const verdict = SAID_NAME;
  const words = ['heating_to_do_words', LOOKS_ELSEWHERE_NAME].map((name) => `&IF(${name}="",""," ")&${name}`);
  return `${verdict}&IF(COUNT(${figureName('totalLowPounds')})=0,""${words.join('')},"")`;
}

/** What a comparison leaves out where it is not typed, and how it is named. */
const NOT_COUNTED: readonly [key: string, words: string][] = [
  ['boilerElectricityKwhPerDay', 'the boiler’s own electricity'],
  ['boilerServicingPoundsPerYear', 'servicing of the boiler'],
  ['heatPumpServicingPoundsPerYear', 'servicing of the heat pump'],
];
const NOT_COUNTED_ROW = 18;

/** Says what is not counted because it is not typed, what estimate (a) can't see, and what the roof gave. */
function notCountedCells(): Cell[] {
  const blank = (key: string): string => `COUNT(${figureName(key)})=0`;
  const list = NOT_COUNTED.map((_, i) => `$${PARTS}$${NOT_COUNTED_ROW + i}`).join('&');
  const row = NOT_COUNTED_ROW + NOT_COUNTED.length;
  const whole = `$${PARTS}$${row}`;
  const share = `SUM(${heatingMonthName('fromRoofKwh')})/MAX(1,SUMPRODUCT(${heatingMonthName('electricityKwh')},${heatingMonthName('heatPumpPricedShare')}))`;
  return [
    ...NOT_COUNTED.map(([key, words], i) =>
      formula(`${PARTS}${NOT_COUNTED_ROW + i}`, `IF(${blank(key)},"${words},","")`, 'hint'),
    ),
    formula(`${PARTS}${row}`, list, 'hint'),
    formula(
      `${PARTS}${row + 1}`,
      `IF(${whole}="","","Not counted, because blank at the right: "&SUBSTITUTE(LEFT(${whole},LEN(${whole})-1),",",", ")&".")`,
      'hint',
      { name: 'heating_not_counted' },
    ),
    formula(
      `${PARTS}${row + 2}`,
      `IF(${blank('roomsWarmerC')},"Estimate (a) takes rooms to be as warm as last year: it can’t see a thermostat that was changed.","")`,
      'hint',
      { name: 'thermostat_not_seen' },
    ),
    formula(`${PARTS}${row + 3}`, `ROUND(100*${share},0)`, 'hint', { name: 'percent_from_roof' }),
  ];
}

/** What is left out of the comparison, in one sentence or two. */
export function notCountedFormula(): string {
  const [counted, seen] = ['heating_not_counted', 'thermostat_not_seen'];
  return `${counted}&IF(OR(${counted}="",${seen}=""),""," ")&${seen}`;
}

/** How much of the heat pump's electricity the roof gave, where it gave some. */
export function fromRoofFormula(): string {
  return `IF(percent_from_roof=0,"","At least "&percent_from_roof&" % of the heat pump’s electricity came from the roof; single and half-hourly rates price it as if it were bought.")`;
}

/** That the weather of the year is that of one year, where it is. */
export function oneYearFormula(): string {
  return `IF(COUNTIFS(${settingCell('yearDegreeDays')},">=0")=1,"",IF(COUNT(${figureName('temperatureYearDegreeDays')})=1,"The usual weather is that of one year, the last on ${SHEETS.temperatures}: other years are colder or milder. Type degree days of many years’ mean where you know them.",""))`;
}

const figureText = (key: string, digits: number): string => `FIXED(${figureName(key)},${digits})`;

/** From which days the curve comes, and what was used on the days that it leaves out. */
export function dailyLineFormula(): string {
  return (
    `IF(${figureName('dailyFitDays')}=0,"","The curve is of the "&${figureText('dailyFitDays', 0)}&" days from 1 °C·day on"` +
    `&IF(${figureName('mildDays')}=0,"; no day was milder, so hot water is not told apart.","; the "&${figureText('mildDays', 0)}&" milder one"&IF(${figureName('mildDays')}=1,"","s")&" took "&${figureText('mildKwh', 2)}&" kWh on average: hot water and standby."))`
  );
}

/** How the curve meets the coldest days. */
export function coldestDaysFormula(): string {
  return (
    `IF(${figureName('dailyFitDays')}=0,"","On the "&${figureText('coldDays', 0)}&" coldest day"&IF(${figureName('coldDays')}=1,"","s")&", from "&${figureText('coldFromDegreeDays', 0)}&" °C·day on, ` +
    `it used "&${figureText('coldKwh', 1)}&" kWh a day; the curve says "&${figureText('coldCurveKwh', 1)}&".")`
  );
}
