import { Line } from '../book/terms.js';
import { BATTERY_FIELDS, batteryFlags } from '../fields/battery-fields.js';
import { BILL_FROM, BILL_TO } from '../fields/bill-fields.js';
import { ofFields } from '../fields/field.js';
import { HOME_FIELDS, PERIOD_FIELDS } from '../fields/home-fields.js';
import { TARIFF_FIELDS, TODAYS_TARIFF } from '../fields/tariff-fields.js';
import { FIRST_TARIFF_COLUMN } from '../fields/tariff-places.js';
import { TIMER_FIELDS, timerFlags } from '../fields/timer-fields.js';
import { SHEETS } from '../layout.js';
import type { InputTerms, TariffTerms } from '../sheets/input-terms.js';
import { type Shape, tariffNumbers } from '../sheets/shape.js';
import { BILL_NUMBER, BILL_PLACE } from './bills/bill-places.js';
import { HELPER_ROW, pricedName, TODAYS_IS_PRICED_NAME, TODAYS_PLACE_NAME } from './tariff-rows.js';

function tariffTerms(tariff: number): TariffTerms {
  const fields = TARIFF_FIELDS[tariff];
  if (fields === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  const priced = { sheet: SHEETS.tariffs, row: HELPER_ROW.priced, column: fields.name.cell.place.column };
  return {
    ...ofFields(fields, ({ cell }) => cell, undefined),
    priced: new Line(priced, 'integer', pricedName(tariff)),
  };
}

/** A line of today's tariff on the tariffs sheet. */
const ofToday = (row: number, name: string): Line =>
  new Line({ sheet: SHEETS.tariffs, row, column: FIRST_TARIFF_COLUMN }, 'integer', name);

/** The input cells that the workings look at. */
export function inputTerms(shape: Shape): InputTerms {
  return {
    vatShare: HOME_FIELDS.vatShare.cell,
    todaysTariff: TODAYS_TARIFF.cell,
    todaysPlace: ofToday(HELPER_ROW.todaysPlace, TODAYS_PLACE_NAME),
    todaysIsPriced: ofToday(HELPER_ROW.todaysIsPriced, TODAYS_IS_PRICED_NAME),
    fromMonth: PERIOD_FIELDS.fromMonth.cell,
    toMonth: PERIOD_FIELDS.toMonth.cell,
    ratesUsed: PERIOD_FIELDS.ratesUsed.cell,
    tariffs: tariffNumbers(shape).map(tariffTerms),
    battery: ofFields(BATTERY_FIELDS, ({ cell }) => cell, undefined),
    batteryFlags: batteryFlags('usableKwh', 'wearPencePerKwh', 'battery_figure_flags'),
    timers: {
      ...ofFields(TIMER_FIELDS, ({ cell }) => cell, undefined),
      carFlags: timerFlags('car'),
      hotWaterFlags: timerFlags('hotWater'),
      supplyFlags: timerFlags('supply'),
    },
    bills: { from: BILL_FROM, to: BILL_TO, number: BILL_NUMBER, place: BILL_PLACE },
  };
}
