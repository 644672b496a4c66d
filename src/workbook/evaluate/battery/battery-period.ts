import type { Battery } from '../../../battery/battery.js';
import { TARIFF_COUNT } from '../../layout.js';
import type { DayLines } from '../day-lines.js';
import type { MonthLines } from '../month-lines.js';
import { spreadsheetRound } from '../spreadsheet-round.js';
import { sumSelected } from '../tariff-totals.js';
import type { BatteryHomeLines } from './battery-home-lines.js';
import type { BatteryTariffLines } from './battery-tariff-lines.js';

/** The days of the chosen period. */
export interface BatteryPeriod {
  /** Rows (from 1) of the first and the last day; 0 where the period is empty. */
  firstDay: number;
  lastDay: number;
  /** Half-hours that the battery works with. */
  halfHours: number;
}

/** One tariff with the battery, over the chosen period. */
export interface BatteryTotals {
  energyPounds: number;
  exportCreditPounds: number;
  totalPounds: number;
  deliveredKwh: number;
  wearPence: number;
  levelBeforeKwh: number;
  levelAfterKwh: number;
  /** p per stored kWh: the lowest unit rate of the period ÷ charge efficiency. */
  storedValuePence: number;
  /** Energy − export credit + wear − value of the level gained, unrounded, p. */
  netCostPence: number;
}

export function batteryPeriod(days: DayLines, months: MonthLines, home: BatteryHomeLines): BatteryPeriod {
  const firstMonth = months.selected.indexOf(1) + 1;
  if (firstMonth === 0) return { firstDay: 0, lastDay: 0, halfHours: 0 };
  const firstDay = days.monthNumber.indexOf(firstMonth) + 1;
  let lastDay = firstDay - 1;
  days.monthNumber.forEach((month) => {
    if (month > 0 && months.selected[month - 1] === 1) lastDay++;
  });
  let halfHours = 0;
  for (let day = firstDay; day <= lastDay; day++) halfHours += home.halfHours[day - 1]!;
  return { firstDay, lastDay, halfHours };
}

export function batteryTotals(
  lines: BatteryTariffLines,
  months: MonthLines,
  period: BatteryPeriod,
  battery: Battery,
): BatteryTotals {
  const pounds = (values: Float64Array): number => spreadsheetRound(sumSelected(months, values), 2);
  const start = Math.min(battery.startKwh, battery.usableKwh);
  const levelAt = (day: number): number => (day === 0 ? start : lines.days.levelKwh[day - 1]!);
  const levelBeforeKwh = period.firstDay === 0 ? start : levelAt(period.firstDay - 1);
  const levelAfterKwh = period.firstDay === 0 ? start : levelAt(period.lastDay);
  const lowest = lines.days.lowest
    .slice(Math.max(0, period.firstDay - 1), period.lastDay)
    .filter((rate) => typeof rate === 'number');
  const storedValuePence = lowest.length === 0 ? 0 : Math.min(...lowest) / battery.chargeEfficiency;
  const deliveredKwh = sumSelected(months, lines.months.deliveredKwh);
  const wearPence = deliveredKwh * battery.wearPencePerKwh;
  return {
    energyPounds: pounds(lines.months.energyPounds),
    exportCreditPounds: pounds(lines.months.exportCreditPounds),
    totalPounds: pounds(lines.months.totalPounds),
    deliveredKwh,
    wearPence,
    levelBeforeKwh,
    levelAfterKwh,
    storedValuePence,
    netCostPence:
      sumSelected(months, lines.months.energyPence) -
      sumSelected(months, lines.months.exportCreditPence) +
      wearPence -
      storedValuePence * (levelAfterKwh - levelBeforeKwh),
  };
}

/** How much each of the battery's figures weighs in the fingerprint: no two changes cancel by chance. */
export const FIGURE_WEIGHTS: Readonly<Record<keyof Battery, number>> = {
  usableKwh: 1103,
  chargeKw: 1301,
  dischargeKw: 1709,
  chargeEfficiency: 19001,
  dischargeEfficiency: 23003,
  reserveKwh: 2903,
  startKwh: 3109,
  wearPencePerKwh: 3709,
  chargeFromGrid: 4111,
  mayFeedCar: 4307,
  mayExport: 4703,
};
/** The same for the days of the period. */
export const PERIOD_WEIGHTS = { firstDay: 5003, lastDay: 5303 } as const;
/** Added to a half-hour's place in the week, so that the first ones count too. */
export const SLOT_OFFSET = 100;
/** What the sizing table's fingerprint adds for each place of the tariff looked at. */
export const TARIFF_WEIGHT = 6007;

/**
 * A number that changes with anything the least cost depends on: readings, battery, period. Places in the week weigh
 * the half-hours, so that what moves in time counts as well as what grows.
 */
export function homeFingerprint(
  weekSlot: Int32Array,
  flows: {
    importKwh: Float64Array;
    exportKwh: Float64Array;
    servableKwh: Float64Array;
    carKwh: Float64Array;
  },
  battery: Battery,
  period: BatteryPeriod,
): number {
  const weighed = (values: Float64Array): number => {
    let sum = 0;
    for (let row = 0; row < values.length; row++) sum += values[row]! * (weekSlot[row]! + SLOT_OFFSET);
    return sum;
  };
  const figures = Object.entries(FIGURE_WEIGHTS).reduce(
    (sum, [key, weight]) => sum + weight * Number(battery[key as keyof Battery]),
    0,
  );
  return (
    weighed(flows.importKwh) +
    2 * weighed(flows.exportKwh) +
    3 * weighed(flows.servableKwh) +
    5 * weighed(flows.carKwh) +
    figures +
    PERIOD_WEIGHTS.firstDay * period.firstDay +
    PERIOD_WEIGHTS.lastDay * period.lastDay
  );
}

/** The same for the rates of one tariff, added to the home's. */
export function tariffFingerprint(
  home: number,
  weekSlot: Int32Array,
  days: DayLines,
  tariff: { energyCostPence: Float64Array; unitRatePence: Float64Array; exportRate: Float64Array },
): number {
  let cost = 0;
  let rates = 0;
  for (let row = 0; row < weekSlot.length; row++) {
    cost += tariff.energyCostPence[row]!;
    rates += tariff.unitRatePence[row]! * weekSlot[row]!;
  }
  let exportRates = 0;
  tariff.exportRate.forEach((rate, day) => {
    exportRates += rate * days.monthNumber[day]!;
  });
  return home + cost + rates / 100 + 10 * exportRates;
}

/** Relative difference up to which two fingerprints are the same: programs sum in orders of their own. */
export const FINGERPRINT_TOLERANCE = 1e-9;

/** Whether a stored fingerprint is that of the inputs as they are. */
export function isCurrent(stored: unknown, live: number): boolean {
  return (
    typeof stored === 'number' &&
    Math.abs(stored - live) <= FINGERPRINT_TOLERANCE * Math.max(1, Math.abs(live))
  );
}

/** Tariffs that the sheets have columns for. */
export const TARIFFS: readonly number[] = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
