/**
 * The function library: tariffs, readings, battery, heating, the year ahead, timers, and the workbook that is made from them.
 *
 * Data flows one way: readings → demand → rates → costs → workbook.
 */
export * from './battery/index.js';
export * from './bills/index.js';
export * from './break-even/index.js';
export * from './charges/index.js';
export { type Fault, InputError, InputErrors, type Place } from './errors.js';
export * from './functions/index.js';
export * from './heating/index.js';
export * from './outlook/index.js';
export * from './readings/index.js';
export * from './shares/index.js';
export * from './tariffs/index.js';
export * from './time/index.js';
export * from './timers/index.js';
export * from './workbook/index.js';
