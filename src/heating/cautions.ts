/** Cautions that stand wherever heating figures are shown, a sentence or two a line. */
export const HEATING_CAUTIONS: readonly string[] = [
  'These figures are estimates from the readings and rates given, not a quotation and no promise of a bill.',
  'Work on gas appliances and pipes is for a registered gas engineer only. Have a gas supply capped or removed only by those licensed to do it; local codes decide.',
  'Installing or changing a heat pump, its wiring or its hot-water cylinder is for qualified installers under local codes. Keep hot water at the temperatures that your installer set against legionella.',
];
