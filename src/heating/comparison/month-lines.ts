import type { HeatingLine } from './heating-line.js';
import { BOILER_MONTH_LINES } from './month-boiler-lines.js';
import { CARBON_MONTH_LINES } from './month-carbon-lines.js';
import { DIFFERENCE_MONTH_LINES } from './month-difference-lines.js';
import { FIT_MONTH_LINES, HEAT_METER_MONTH_LINES } from './month-fit-lines.js';
import { HEAT_PUMP_MONTH_LINES } from './month-heat-pump-lines.js';

/** Columns of the months compared that the totals read. */
export const MONTH_LINES_BEFORE_TOTALS: readonly HeatingLine[] = [
  ...HEAT_PUMP_MONTH_LINES,
  ...BOILER_MONTH_LINES,
  ...DIFFERENCE_MONTH_LINES,
  ...CARBON_MONTH_LINES,
  ...HEAT_METER_MONTH_LINES,
];

/** Columns of the months compared, a row a month, in the order of the sheet. */
export const HEATING_MONTH_LINES: readonly HeatingLine[] = [...MONTH_LINES_BEFORE_TOTALS, ...FIT_MONTH_LINES];
