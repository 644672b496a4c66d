import { f, Line } from '../book/terms.js';
import { SHEETS } from '../layout.js';
import { HOME_FIELDS } from './home-fields.js';

/**
 * Between these bounds lies what a home's figures mostly are: one beyond them is taken as typed, and asked about. They are no
 * limits. None has a published source: common practice, no source, save where something else is said.
 */
export const PLAUSIBLE = {
  /** Hundredths of the currency. Below it, but not 0, a rate or a charge is most likely typed in whole pounds. */
  leastPence: 1,
  /** A kWh of electricity. */
  mostUnitRatePence: 100,
  /** A kWh of gas. */
  mostGasRatePence: 50,
  /** A day; above it, a charge is most likely a month's. */
  mostStandingPence: 300,
  mostUsableKwh: 100,
  /** Power as a multiple of the capacity, in an hour. */
  mostPowerPerKwh: 3,
  leastOneWayEfficiency: 0.7,
  /** About the square of the one above. */
  leastRoundTripEfficiency: 0.5,
  leastBoilerEfficiency: 0.6,
  /** MJ/m³ of mains gas: about 37.5 to 43 in Great Britain, 35.2 in the Netherlands (from memory). */
  leastCalorificValue: 35,
  mostCalorificValue: 43,
  /** MJ/m³ from which on bottled gas may be meant: propane about 93 to 101, butane more (from memory). */
  leastBottledGas: 85,
  leastVolumeCorrection: 0.8,
  mostVolumeCorrection: 1.1,
  leastBaseC: 10,
  mostBaseC: 20,
  leastCop: 1,
  mostCop: 7,
  /** A coal-fired kWh is about 1 kg (from memory): above 2, grams are most likely meant. */
  mostCarbonKg: 2,
} as const;

/** Where the figures that are asked about are listed, on *Checks* right of all counts. */
export const ASKED_FIGURES_PLACE = { sheet: SHEETS.checks, row: 6, column: 23 } as const;

/** Whether rates have upper bounds: a kWh costs hundreds of öre, and tens of thousands of some other hundredths. */
export const CURRENCY_IS_KNOWN = new Line(
  { ...ASKED_FIGURES_PLACE, column: ASKED_FIGURES_PLACE.column + 1 },
  'integer',
  'currency_is_known',
);
const { cell: currency } = HOME_FIELDS.currency;
CURRENCY_IS_KNOWN.is = f`IF(OR(${currency}="£",${currency}="€",${currency}="$"),1,0)`;
