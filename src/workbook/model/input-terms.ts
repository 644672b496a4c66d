import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { Line } from '../book/terms.js';
import { parseCell } from '../cell-address.js';
import { BATTERY_FIELDS, batteryFlags } from '../fields/battery-fields.js';
import { ofFields } from '../fields/field.js';
import { SHEETS } from '../layout.js';
import type { InputTerms, TariffTerms } from '../sheets/input-terms.js';
import { type Shape, tariffNumbers } from '../sheets/shape.js';
import { CELL } from './columns.js';
import {
  HELPER_ROW,
  pricedName,
  ratePeriodRows,
  TARIFF_ROW,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from './tariff-rows.js';

/** An input cell as a term. */
function inputAt(sheet: string, at: string, name?: string): Line {
  return new Line({ sheet, ...parseCell(at) }, 'inputText', name);
}

function tariffTerms(tariff: number): TariffTerms {
  const at = (row: number): Line => inputAt(SHEETS.tariffs, `${tariffLetters(tariff)}${row}`);
  return {
    name: at(TARIFF_ROW.name),
    clock: at(TARIFF_ROW.clock),
    includesVat: at(TARIFF_ROW.includesVat),
    halfHourlyPriced: at(TARIFF_ROW.halfHourlyPriced),
    priced: inputAt(SHEETS.tariffs, `${tariffLetters(tariff)}${HELPER_ROW.priced}`, pricedName(tariff)),
    windows: Array.from({ length: MAX_WINDOWS }, (_, k) => {
      const rows = windowRows(k);
      return { from: at(rows.from), to: at(rows.to), days: at(rows.days) };
    }),
    periods: Array.from({ length: MAX_RATE_PERIODS }, (_, p) => {
      const rows = ratePeriodRows(p);
      return {
        validFrom: p === 0 ? undefined : at(rows.validFrom),
        standing: at(rows.standing),
        base: at(rows.base),
        windowRates: rows.windowRates.map(at),
        exportRate: at(rows.exportRate),
      };
    }),
  };
}

/** The input cells that the workings look at. */
export function inputTerms(shape: Shape): InputTerms {
  const ofReference = (reference: string, name: string): Line => {
    const [sheet = '', at = ''] = reference.replaceAll('$', '').split('!');
    return inputAt(sheet, at, name);
  };
  return {
    vatShare: ofReference(CELL.vatShare, 'vat_share'),
    todaysTariff: inputAt(SHEETS.tariffs, TODAYS_TARIFF_CELL, 'todays_tariff'),
    fromMonth: ofReference(CELL.fromMonth, 'from_month'),
    toMonth: ofReference(CELL.toMonth, 'to_month'),
    tariffs: tariffNumbers(shape).map(tariffTerms),
    battery: ofFields(BATTERY_FIELDS, ({ cell }) => cell, undefined),
    batteryFlags: batteryFlags('usableKwh', 'wearPencePerKwh', 'battery_figure_flags'),
  };
}
