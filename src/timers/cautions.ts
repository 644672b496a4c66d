/** Cautions that stand wherever figures of timers are shown, a sentence or two a line. */
export const TIMER_CAUTIONS: readonly string[] = [
  'These figures are estimates from the readings and rates given, not a quotation and no promise of a bill.',
  'A hot-water tank must be heated hot enough, and for long enough, against legionella: 60 °C is common practice. Local codes and what your installer set stand above any timer.',
  'Immersion heaters, chargers, timers in their circuits and the supply itself are work for licensed people under local codes. Never set loads to run together beyond what the supply and its circuits may carry.',
  "The terms of the tariff and of the car's, charger's and tank's makers may say when a load may run; they stand above these hours.",
];
