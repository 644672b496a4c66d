/** Rates and a boiler of an invented home, for comparisons that are about something else; p/kWh, p/day, share. */
export const KNOWN_RATES = {
  singleRatePence: 28.71,
  gasRatePence: 7.57,
  gasStandingPencePerDay: 30,
  boilerEfficiency: 0.85,
  heatPumpSideHotWaterPence: 9,
  boilerSideHotWaterPence: 28.71,
} as const;
