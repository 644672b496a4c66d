import { absolute } from '../../cell-address.js';
import { SHEETS } from '../../layout.js';
import { BATTERY_MONTH, fact } from '../battery/battery-columns.js';
import { figureCell, TARIFF_PLACE } from './heating-figures-rows.js';

/**
 * What the heat pump cost through the battery in a month, in the currency; blank without a battery, and where the
 * battery's sheets look at another tariff than the heating sheets.
 *
 * @param electricityKwh cell with the month's electricity, blank where the month does not count
 * @param row row of the month, the same on all sheets of months
 */
export function throughBattery(electricityKwh: string, row: number): string {
  const place = figureCell(TARIFF_PLACE);
  const pence = absolute(SHEETS.batteryMonths, BATTERY_MONTH.heatPumpPence, row).replace(/\$(\d+)$/, '$1');
  return `IF(AND(ISNUMBER(${electricityKwh}),${fact('usableKwh')}>0,${place}>0,${fact('chosen')}=${place}),${pence}/100,"")`;
}
