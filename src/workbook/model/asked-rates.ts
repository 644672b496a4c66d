import { columnLetters } from '../cell-address.js';
import {
  ASKED_RATES,
  ASKED_RATES_COLUMN,
  DEAREST_RATES,
  DEAREST_RATES_ROW,
} from '../fields/mistyped-rates.js';
import { formula, label } from './cells.js';
import type { Cell } from './sheet-model.js';
import { TARIFF_ROW as T } from './tariff-rows.js';

/** Column letters of a tariff's marks. */
export const askedLetters = (tariff: number): string => columnLetters(ASKED_RATES_COLUMN + tariff);

/** Beside the rates of each tariff: which of them look mistyped. */
export function askedRateCells(): Cell[] {
  return [
    label(
      `${askedLetters(0)}${T.todays}`,
      'Asked about on Checks, as likely slips: 1 a unit rate, 2 a standing charge, 3 an export rate; in row ' +
        `${DEAREST_RATES_ROW.row}, the dearest unit rate of tariffs that follow no price.`,
      'hint',
    ),
    ...ASKED_RATES.flatMap((rates, t) => [
      label(`${askedLetters(t)}${T.name - 1}`, t + 1, 'header'),
      ...rates.map(({ field, is }) => formula(`${askedLetters(t)}${field.cell.place.row}`, is, 'integer')),
    ]),
    ...DEAREST_RATES.map((is, t) => formula(`${askedLetters(t)}${DEAREST_RATES_ROW.row}`, is, 'rate')),
  ];
}
