import { spreadsheetRound } from '../../evaluate/spreadsheet-round.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import { CELL } from '../columns.js';
import { tariffRow } from '../sentences.js';
import { TARIFF_ROW } from '../tariff-rows.js';
import { figureValue } from './figure-values.js';
import { figureCell, TARIFF_PLACE } from './heating-figures-rows.js';

/** A sentence of the comparison with the home's currency in it. */
export function inCurrencyFormula(reference: string): string {
  return `SUBSTITUTE(${reference},"£",${CELL.currency})`;
}

/** What {@link inCurrencyFormula} gives. */
export function inCurrency(text: string, { inputs }: WorkbookResults): string {
  return text.replaceAll('£', String(inputs.home.currency ?? ''));
}

const SINGLE = 'at the single rate';
const HALF_HOURLY = 'half-hour by half-hour on ';
const BATTERY = 'through the battery on ';
const NO_TARIFF = 'no tariff';
const GIVEN_UP = 'gas is given up, so only the boiler’s side pays its standing charge.';
const KEPT = 'gas is kept, so both sides pay its standing charge.';

/** What the verdict rests on, in one sentence. */
export function basisFormula(): string {
  const [basis, place] = [figureCell('costBasis'), figureCell(TARIFF_PLACE)];
  const name = `IF(${place}=0,"${NO_TARIFF}",INDEX(${tariffRow(TARIFF_ROW.name)},1,${place}))`;
  return (
    `"The heat pump is priced "&IF(${basis}="single rate","${SINGLE}",IF(${basis}="half-hourly","${HALF_HOURLY}","${BATTERY}")&${name})` +
    `&"; the boiler is "&ROUND(100*${figureCell('boilerEfficiency')},1)&" % efficient; hot water is on "` +
    `&IF(${figureCell('hotWaterSide')}="both","both sides","neither side")&"; "` +
    `&IF(${figureCell('gasSupply')}="kept","${KEPT}","${GIVEN_UP}")`
  );
}

/** What {@link basisFormula} gives. */
export function basisText(results: WorkbookResults): string {
  const { settings, tariff } = results.heating;
  const name = tariff < 0 ? NO_TARIFF : String(results.inputs.tariffs[tariff]!.name);
  const basis =
    settings.costBasis === 'single rate'
      ? SINGLE
      : `${settings.costBasis === 'half-hourly' ? HALF_HOURLY : BATTERY}${name}`;
  const efficiency = spreadsheetRound(100 * (settings.boilerEfficiency as number), 1);
  const side = settings.hotWaterSide === 'both' ? 'both sides' : 'neither side';
  return (
    `The heat pump is priced ${basis}; the boiler is ${efficiency} % efficient; hot water is on ${side}; ` +
    (settings.gasSupply === 'kept' ? KEPT : GIVEN_UP)
  );
}

/** The verdict in words. */
export function heatingSentence(results: WorkbookResults): string {
  return inCurrency(String(figureValue(results, 'verdict')), results);
}
