import { HEATING_MONTH_LINES } from '../../../heating/comparison/month-lines.js';
import { partLetters } from '../../layout.js';
import { figureName } from './heating-figures-rows.js';

/** Columns of the heating months sheet before the lines of the comparison, by key. */
const TAKEN = [
  'monthSerial',
  'days',
  'heatPumpHalfHours',
  'heatPumpMeteredKwh',
  'electricityKwh',
  'heatHalfHours',
  'heatMeteredKwh',
  'heatKwh',
  'metersNote',
  'degreeDaysTyped',
  'degreeDays',
  'daysWithTemperature',
  'costHalfHourlyPounds',
  'costBatteryPounds',
  'monthSingleRatePence',
  'monthGasRatePence',
  'monthGasStandingPencePerDay',
] as const;
export type TakenKey = (typeof TAKEN)[number];

/** What is missing of a month's meters. */
export const METERS_NOTE = {
  noReadings: 'No heat pump readings.',
  heatPumpGaps: 'Heat pump readings have gaps: the month is left out.',
  importGaps: 'Import has gaps.',
  heatGaps: 'The heat meter has gaps: its heat is left out.',
} as const;

/** Less than this is nothing to tell a price by, as a share. */
const LEAST_PRICED = 0.01;
/** What of the heat pump's kWh has to be priced for a month's cost, a share. */
export const leastPricedFormula = (): string => `MAX(${LEAST_PRICED},${figureName('leastCoverageShare')})`;

/** Columns right of the comparison's lines, which help the columns before them. */
const HELP = [
  'nextMonth',
  'ratesInForce',
  'typedMonths',
  'fromRoofKwh',
  'weightOfMeter',
  'weightOfHeat',
  'weighedGasOfMeter',
  'weighedGasOfHeat',
  'weighedHeat',
  'comparedDays',
  'comparedPaid',
  'lowerBaseDegreeDays',
  'lowerBaseGasKwh',
  'lowerBaseChange',
  'heatPumpPricedShare',
] as const;
export type HelpKey = (typeof HELP)[number];

const KEYS: readonly string[] = [...TAKEN, ...HEATING_MONTH_LINES.map(({ key }) => key), ...HELP];

/** Letters of a column of the heating months sheet; undefined where it has none of that key. */
export function findMonthLetters(key: string): string | undefined {
  const index = KEYS.indexOf(key);
  return index < 0 ? undefined : partLetters('heatingMonths', index + 1);
}

/** Letters of a column of the heating months sheet. */
export function monthLetters(key: string): string {
  const letters = findMonthLetters(key);
  if (letters === undefined) throw new RangeError(`no month line is called ${key}`);
  return letters;
}
