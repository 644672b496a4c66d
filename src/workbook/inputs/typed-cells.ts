import { BATTERY_FIELDS } from '../fields/battery-fields.js';
import { BILLS } from '../fields/bill-fields.js';
import { GAS_FIELDS } from '../fields/gas-fields.js';
import { HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTING_FIELDS } from '../fields/heating-settings.js';
import { HOME_FIELDS, PERIOD_FIELDS } from '../fields/home-fields.js';
import { TypedCells } from '../fields/rule.js';
import { TARIFF_FIELDS, TODAYS_TARIFF } from '../fields/tariff-fields.js';
import { TEMPERATURE_FIELDS } from '../fields/temperature-fields.js';
import { TIMER_FIELDS } from '../fields/timer-fields.js';
import type { WorkbookInputs } from './workbook-inputs.js';

/** Every input in its cell, for rules to look at. */
export function typedCells(inputs: Omit<WorkbookInputs, 'readings' | 'clock'>): TypedCells {
  return new TypedCells()
    .put(HOME_FIELDS, inputs.home)
    .put(PERIOD_FIELDS, inputs)
    .put(TODAYS_TARIFF, inputs.todaysTariff)
    .put(TARIFF_FIELDS, inputs.tariffs)
    .put(BATTERY_FIELDS, inputs.battery)
    .put(SETTING_FIELDS, inputs.heating.settings)
    .put(HEATING_TABLES, inputs.heating)
    .put(GAS_FIELDS, inputs.heating.gas)
    .put(TEMPERATURE_FIELDS, inputs.heating.temperatures)
    .put(BILLS, inputs.bills)
    .put(TIMER_FIELDS, inputs.timers);
}
