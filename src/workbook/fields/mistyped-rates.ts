import type { Node, Reference } from '../../formula/nodes.js';
import { areaReference, call, f } from '../book/terms.js';
import { TARIFF_COUNT } from '../layout.js';
import type { Field } from './field.js';
import { HOME_FIELDS } from './home-fields.js';
import { CURRENCY_IS_KNOWN, PLAUSIBLE } from './plausible.js';
import { TARIFF_FIELDS, type TariffFields } from './tariff-fields.js';
import { FIRST_TARIFF_COLUMN } from './tariff-places.js';

/** First column of the marks: right of the flags of all tariffs, one column of air between. */
export const ASKED_RATES_COLUMN = FIRST_TARIFF_COLUMN + 2 * (TARIFF_COUNT + 1);
/** What a rate that looks mistyped is, as its mark says. */
export const ASKED = { unitRate: 1, standing: 2, exportRate: 3 } as const;

/** A rate of a tariff, and whether it looks mistyped. */
export interface AskedRate {
  readonly field: Field;
  /** Its mark where it does, else 0. */
  readonly is: Node;
}

type Period = TariffFields['periods'][number];

const below = (rate: Field, most: number): Node => f`AND(${rate.cell}>0,${rate.cell}<${most})`;
const above = (rate: Field, most: number): Node => f`AND(${CURRENCY_IS_KNOWN}=1,${rate.cell}>${most})`;

/** Base rate and rates of windows of a set. */
function unitRatesOf({ base, windowRates }: Period): Reference {
  const { place } = base.cell;
  return areaReference({
    sheet: place.sheet,
    firstRow: place.row,
    lastRow: place.row + windowRates.length,
    firstColumn: place.column,
    lastColumn: place.column,
  });
}

/**
 * Of a price that is followed, a rate is what comes on top, which may be anything small. A rate of its own asks below 0, and
 * below 1 unless it is 0: hours for nothing are sold beside dearer ones, so that a 0 asks only as the base rate of a set
 * that has no rate above 0.
 */
function unitRate({ name, halfHourlyPriced }: TariffFields, period: Period, rate: Field): AskedRate {
  const { leastPence, mostUnitRatePence } = PLAUSIBLE;
  const { cell } = rate;
  const small =
    rate === period.base
      ? f`AND(${cell}<${leastPence},OR(${cell}<>0,MAX(${unitRatesOf(period)})<=0))`
      : f`AND(${cell}<${leastPence},${cell}<>0)`;
  const asks = f`OR(${above(rate, mostUnitRatePence)},AND(${halfHourlyPriced.cell}<>"yes",${small}))`;
  return {
    field: rate,
    is: f`IF(AND(${name.cell}<>"",ISNUMBER(${cell})),IF(${asks},${ASKED.unitRate},0),0)`,
  };
}

function standing({ name }: TariffFields, { standing: charge }: Period): AskedRate {
  const { leastPence, mostStandingPence } = PLAUSIBLE;
  const { cell } = charge;
  const asks = f`OR(${cell}<0,${below(charge, leastPence)},${above(charge, mostStandingPence)})`;
  return {
    field: charge,
    is: f`IF(AND(${name.cell}<>"",ISNUMBER(${cell})),IF(${asks},${ASKED.standing},0),0)`,
  };
}

/** What is paid for export is held against what import costs with VAT, where that is no slip itself. */
function exportRate({ name, includesVat, halfHourlyPriced }: TariffFields, period: Period): AskedRate {
  const { leastPence, mostUnitRatePence } = PLAUSIBLE;
  const rate = period.exportRate;
  const { cell } = rate;
  const dearest = f`MAX(${unitRatesOf(period)})`;
  const vat = f`IF(${includesVat.cell}="no",1+SUM(${HOME_FIELDS.vatShare.cell}),1)`;
  const dearer = f`AND(${halfHourlyPriced.cell}<>"yes",${dearest}>=${leastPence},${cell}>${dearest}*${vat})`;
  const asks = call('OR', [f`${cell}<0`, below(rate, leastPence), above(rate, mostUnitRatePence), dearer]);
  return {
    field: rate,
    is: f`IF(AND(${name.cell}<>"",ISNUMBER(${cell})),IF(${asks},${ASKED.exportRate},0),0)`,
  };
}

/** Every rate of each tariff, in the order of the rows. */
export const ASKED_RATES: readonly (readonly AskedRate[])[] = TARIFF_FIELDS.map((tariff) =>
  tariff.periods.flatMap((period) => [
    standing(tariff, period),
    ...[period.base, ...period.windowRates].map((rate) => unitRate(tariff, period, rate)),
    exportRate(tariff, period),
  ]),
);

/** Where they are said: beside the choice whether a price is followed. */
export const DEAREST_RATES_ROW = {
  row: TARIFF_FIELDS[0]?.halfHourlyPriced.cell.place.row ?? 0,
  column: ASKED_RATES_COLUMN,
} as const;
/** The dearest unit rate of each tariff that follows no price; blank where there is none. */
export const DEAREST_RATES: readonly Node[] = TARIFF_FIELDS.map(
  ({ name, halfHourlyPriced, periods }) =>
    f`IF(OR(${name.cell}="",${halfHourlyPriced.cell}="yes"),"",${call('MAX', periods.map(unitRatesOf))})`,
);
