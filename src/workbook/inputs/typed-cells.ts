import { BATTERY_FIELDS } from '../fields/battery-fields.js';
import { TypedCells } from '../fields/rule.js';
import { TARIFF_FIELDS } from '../fields/tariff-fields.js';
import type { WorkbookInputs } from './workbook-inputs.js';

/** Every input in its cell, for rules to look at. */
export function typedCells(inputs: Pick<WorkbookInputs, 'battery' | 'tariffs'>): TypedCells {
  return new TypedCells().put(TARIFF_FIELDS, inputs.tariffs).put(BATTERY_FIELDS, inputs.battery);
}
