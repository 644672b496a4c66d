export * from './clock-change-table.js';
export * from './half-hour-calendar.js';
export * from './half-hours-in-day.js';
export * from './half-hours-in-local-day.js';
export * from './serial.js';
export * from './start-of-local-day.js';
export * from './zone-clock.js';
