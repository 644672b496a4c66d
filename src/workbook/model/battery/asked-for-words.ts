import { absoluteRow } from '../../cell-address.js';
import { SHEETS } from '../../layout.js';
import type { WordLine } from '../sentences.js';
import { FIRST_TARIFF_LETTERS, HELPER_ROW, LAST_TARIFF_LETTERS, TARIFF_ROW } from '../tariff-rows.js';
import { whyNoTotalFormula } from '../why-no-total.js';

/** Defined name of the words. */
const ASKED_FOR_LACKS_NAME = 'asked_for_lacks_words';
const UNPRICED_NAME = 'asked_for_unpriced';

/**
 * What is said where no tariff is looked at: why the one that is asked for is not.
 *
 * @param none what is said where none is asked for
 */
export const noTariffFormula = (none: string): string =>
  `IF(${ASKED_FOR_LACKS_NAME}="","${none}",${ASKED_FOR_LACKS_NAME})`;

/** The tariff that is to be looked at has no total, and why; blank where it has one, or none is asked for. */
export function askedForLines(): WordLine[] {
  const asked = (row: number): string =>
    `INDEX(${absoluteRow(SHEETS.tariffs, FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, row)},1,MAX(1,asked_for_tariff))`;
  return [
    {
      name: UNPRICED_NAME,
      label: 'Half-hours without a price on the tariff to look at',
      unit: 'count',
      formula: `IF(asked_for_tariff=0,0,SUM(${asked(HELPER_ROW.unpriced)}))`,
      style: 'integer',
    },
    {
      name: ASKED_FOR_LACKS_NAME,
      label: 'That the tariff to look at has no total',
      unit: 'text',
      formula: `IF(OR(asked_for_tariff=0,looked_at>0),"",${asked(TARIFF_ROW.name)}&" has no total ("&${whyNoTotalFormula(UNPRICED_NAME, ` on ${SHEETS.tariffs}`, ').')})`,
      style: 'text',
    },
  ];
}
