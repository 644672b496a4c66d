/** Two rates (p/kWh) or energies (kWh) closer than this are equal: spreadsheet programs round comparisons, each in its own way. */
export const TOLERANCE = 1e-9;
