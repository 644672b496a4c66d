/** Names of the sheets of inputs and workings that the light workings are declared on. */
export const WORKING_SHEETS = {
  readings: 'Readings',
  clock: 'Clock',
  rates: 'Rates',
  rateGrid: 'Rate grid',
  batteryFigures: 'Battery figures',
  averageDays: 'Average days',
  batteryLevels: 'Battery levels',
  days: 'Days',
  halfHours: 'Grid',
  months: 'Months',
} as const;
