import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { CELL } from '../columns.js';
import type { Cell } from '../sheet-model.js';
import { figureName, TARIFF_PLACE } from './heating-figures-rows.js';
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
    `"The heat pump is priced "&heat_pump_is_priced&"; the boiler is "&ROUND(100*${figureName('boilerEfficiency')},1)&" % efficient; ` +
    `hot water is on "&${hotWater}&"; "&gas_supply_in_words`;
  return [
    formula(at, sentence, 'hint'),
    label(`${PARTS}4`, 'Parts of the sentences', 'hint'),
    formula(`${PARTS}5`, priced, 'hint', { name: 'heat_pump_is_priced' }),
    formula(`${PARTS}6`, supply, 'hint', { name: 'gas_supply_in_words' }),
  ];
}
