export * from './calendar-year.js';
export * from './year-cost.js';
