export * from './battery.js';
export * from './battery-cost.js';
export * from './battery-rule.js';
export * from './break-even-spread.js';
export * from './cost-by-capacity.js';
export * from './delivered-unit-cost.js';
export * from './least-cost-schedule.js';
export * from './stored-energy-cost.js';
