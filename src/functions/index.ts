import { BATTERY_FUNCTIONS } from '../battery/described.js';
import { HEATING_FUNCTIONS } from '../heating/described.js';
import { TIMER_FUNCTIONS } from '../timers/described.js';
import type { DescribedFunction } from './described-function.js';
import { ELECTRICITY_FUNCTIONS } from './electricity-functions.js';

export * from './described-function.js';

/** Every public function that makes sense in a cell, in the order in which people meet them. */
export const describedFunctions: readonly DescribedFunction[] = [
  ...ELECTRICITY_FUNCTIONS,
  ...HEATING_FUNCTIONS,
  ...BATTERY_FUNCTIONS,
  ...TIMER_FUNCTIONS,
];
