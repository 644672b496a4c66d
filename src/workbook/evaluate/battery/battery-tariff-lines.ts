import type { Battery, BatteryInput } from '../../../battery/battery.js';
import { NO_CHARGING_AHEAD, TOLERANCE } from '../../../battery/battery-constants.js';
import { type BatteryRun, runBatteryRule } from '../../../battery/battery-rule.js';
import type { ReadingRows } from '../../inputs/workbook-inputs.js';
import { DAY_ROWS, READING_ROWS } from '../../layout.js';
import { type DayLines, sumByDay, type TariffDayLines } from '../day-lines.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import { billPounds, sumByMonth, type TariffMonthLines } from '../month-lines.js';
import type { RateLines } from '../rate-lines.js';
import { spreadsheetRound } from '../spreadsheet-round.js';
import type { TariffHalfHours } from '../tariff-half-hours.js';
import { type BatteryHomeLines, positiveReading } from './battery-home-lines.js';

/** Decimals of a day's export with the battery, kWh. */
export const EXPORT_DECIMALS = 9;
/** Stands for a rate on days without half-hours. */
export const NO_RATE = 'none';

/** Lines of the battery sheets for one tariff. */
export interface BatteryTariffLines {
  /** One entry a day. */
  days: {
    chargeUpTo: (number | string)[];
    dear: Float64Array;
    chargeBelow: Float64Array;
    serveFrom: Float64Array;
    refill: Float64Array;
    lowest: (number | string)[];
    exportRate: Float64Array;
    exportCreditPence: Float64Array;
    levelKwh: Float64Array;
    sells: Uint8Array;
    /** Half-hours from the start of the day to the next one in which it charges. */
    toCharging: Float64Array;
  };
  /** One entry a half-hour. */
  halfHours: {
    steps: Int32Array;
    batteryKwh: Float64Array;
    levelKwh: Float64Array;
    /** Import and export with the battery, kWh. */
    importKwh: Float64Array;
    exportKwh: Float64Array;
  };
  /** One entry a month. */
  months: {
    energyPence: Float64Array;
    exportCreditPence: Float64Array;
    energyPounds: Float64Array;
    exportCreditPounds: Float64Array;
    totalPounds: Float64Array;
    deliveredKwh: Float64Array;
  };
}

/** Rows (from 0) of the half-hours that the battery works with, in order. */
export function workedRows(home: BatteryHomeLines): Int32Array {
  const rows = new Int32Array(home.halfHours.reduce((a, b) => a + b, 0));
  let count = 0;
  for (let row = 0; row < READING_ROWS; row++) if (home.day[row]! > 0) rows[count++] = row;
  return rows;
}

/** What the battery meets on a tariff, over some of the half-hours. */
export function batteryInput(
  rows: Int32Array,
  halfHours: HalfHourLines,
  readings: ReadingRows,
  unitRatePence: Float64Array,
  exportRate: Float64Array,
): BatteryInput {
  const pick = (valueAt: (row: number) => number): Float64Array =>
    Float64Array.from(rows, (row) => valueAt(row));
  const dayIndex = new Int32Array(rows.length);
  for (let i = 1; i < rows.length; i++) {
    const isNewDay = halfHours.dayNumber[rows[i]!] !== halfHours.dayNumber[rows[i - 1]!];
    dayIndex[i] = dayIndex[i - 1]! + (isNewDay ? 1 : 0);
  }
  return {
    importKwh: pick((row) => Math.max(0, halfHours.importKwh[row]!)),
    exportKwh: pick((row) => Math.max(0, halfHours.exportKwh[row]!)),
    carKwh: pick((row) => positiveReading(readings.values.carKwh, row)),
    unitRatePence: pick((row) => unitRatePence[row]!),
    exportRatePence: pick((row) => exportRate[halfHours.dayNumber[row]! - 1]!),
    dayIndex,
  };
}

/** Everything of a tariff that its battery lines come from. */
export interface PricedTariff {
  rates: RateLines;
  days: TariffDayLines;
  halfHours: TariffHalfHours;
  months: TariffMonthLines;
}

export function batteryTariffLines(
  tariff: PricedTariff,
  home: BatteryHomeLines,
  halfHours: HalfHourLines,
  days: DayLines,
  readings: ReadingRows,
  battery: Battery,
): BatteryTariffLines {
  const exportRate = Float64Array.from({ length: DAY_ROWS }, (_, day) =>
    days.date[day] === 0 ? 0 : tariff.rates.exportRate[tariff.days.ratePeriod[day]! - 1]!,
  );
  const rows = workedRows(home);
  const run = runBatteryRule(
    batteryInput(rows, halfHours, readings, tariff.halfHours.unitRatePence, exportRate),
    battery,
  );
  const lines = halfHourFlows(run, rows, home, halfHours, battery);
  const facts = dayFacts(run, home, tariff.halfHours.unitRatePence);
  const exportCreditPence = sumByDay(halfHours.dayNumber, lines.exportKwh).map(
    (kwh, day) => spreadsheetRound(kwh, EXPORT_DECIMALS) * exportRate[day]!,
  );
  const energyPence = sumByMonth(
    halfHours.monthNumber,
    lines.importKwh.map((kwh, row) => kwh * tariff.halfHours.unitRatePence[row]!),
  );
  const creditPence = sumByMonth(days.monthNumber, exportCreditPence);
  const energyPounds = energyPence.map(billPounds);
  const exportCreditPounds = creditPence.map(billPounds);
  const delivered = lines.batteryKwh.map((kwh) => Math.max(0, -kwh));
  return {
    days: {
      ...facts,
      exportRate,
      exportCreditPence,
      levelKwh: levelsByDay(home, lines.levelKwh, battery),
      sells: sellingDays(facts.refill, exportRate, home, battery),
      toCharging: stepsByDay(home, lines.steps, battery),
    },
    halfHours: lines,
    months: {
      energyPence,
      exportCreditPence: creditPence,
      energyPounds,
      exportCreditPounds,
      totalPounds: energyPounds.map((energy, m) =>
        spreadsheetRound(energy + tariff.months.standingPounds[m]! - exportCreditPounds[m]!, 2),
      ),
      deliveredKwh: sumByMonth(halfHours.monthNumber, delivered),
    },
  };
}

function halfHourFlows(
  run: BatteryRun,
  rows: Int32Array,
  home: BatteryHomeLines,
  halfHours: HalfHourLines,
  battery: Battery,
): BatteryTariffLines['halfHours'] {
  const steps = new Int32Array(READING_ROWS);
  const batteryKwh = new Float64Array(READING_ROWS);
  const levelKwh = new Float64Array(READING_ROWS);
  const importKwh = halfHours.importKwh.slice();
  const exportKwh = halfHours.exportKwh.slice();
  // A battery of 0 kWh has no level in the run.
  const isThere = battery.usableKwh > 0;
  let level = Math.min(battery.startKwh, battery.usableKwh);
  for (let row = 0, i = 0; row < READING_ROWS; row++) {
    if (rows[i] === row) {
      const flow = run.batteryKwh[i]!;
      if (isThere) level = run.levelKwh[i]!;
      batteryKwh[row] = flow;
      if (flow !== 0) {
        const exported = Math.max(0, halfHours.exportKwh[row]!);
        const demand = home.servableKwh[row]!;
        importKwh[row]! += Math.max(0, flow - exported) - Math.min(demand, Math.max(0, -flow));
        exportKwh[row]! += Math.max(0, -flow - demand) - Math.min(exported, Math.max(0, flow));
      }
      i++;
    }
    levelKwh[row] = level;
  }
  rows.forEach((row, i) => {
    // How far away charging is matters only to a battery that may sell.
    steps[row] = battery.mayExport ? run.stepsToCharging[i]! : Math.min(1, run.stepsToCharging[i]!);
  });
  return { steps, batteryKwh, levelKwh, importKwh, exportKwh };
}

/** The rule's facts by day of the sheet; a day without half-hours passes the next day's rate on. */
function dayFacts(
  run: BatteryRun,
  home: BatteryHomeLines,
  unitRatePence: Float64Array,
): Pick<
  BatteryTariffLines['days'],
  'chargeUpTo' | 'dear' | 'chargeBelow' | 'serveFrom' | 'refill' | 'lowest'
> {
  const zeros = (): Float64Array => new Float64Array(DAY_ROWS);
  const facts = {
    chargeUpTo: new Array<number | string>(DAY_ROWS).fill(NO_RATE),
    dear: zeros(),
    chargeBelow: zeros(),
    serveFrom: zeros(),
    refill: zeros(),
    lowest: new Array<number | string>(DAY_ROWS).fill(NO_RATE),
  };
  let next = run.days.length - 1;
  for (let day = DAY_ROWS - 1; day >= 0; day--) {
    const count = home.halfHours[day]!;
    if (count === 0) {
      if (day + 1 < DAY_ROWS) facts.chargeUpTo[day] = facts.chargeUpTo[day + 1]!;
      continue;
    }
    const known = run.days[next--]!;
    facts.chargeUpTo[day] = known.chargeUpToRatePence;
    facts.dear[day] = known.dearRatePence;
    facts.chargeBelow[day] = known.chargeBelowRatePence;
    facts.serveFrom[day] = known.serveFromRatePence;
    facts.refill[day] = known.refillRatePence;
    const first = home.firstRow[day]! - 1;
    facts.lowest[day] = Math.min(...unitRatePence.subarray(first, first + count));
  }
  return facts;
}

/** Level at the end of each day; a day without half-hours keeps the one before. */
function levelsByDay(home: BatteryHomeLines, levelKwh: Float64Array, battery: Battery): Float64Array {
  const levels = new Float64Array(DAY_ROWS);
  let level = Math.min(battery.startKwh, battery.usableKwh);
  for (let day = 0; day < DAY_ROWS; day++) {
    const count = home.halfHours[day]!;
    if (count > 0) level = levelKwh[home.firstRow[day]! + count - 2]!;
    levels[day] = level;
  }
  return levels;
}

/** Days on which exporting pays for the refill. */
function sellingDays(
  refill: Float64Array,
  exportRate: Float64Array,
  home: BatteryHomeLines,
  battery: Battery,
): Uint8Array {
  const roundTrip = battery.chargeEfficiency * battery.dischargeEfficiency;
  return Uint8Array.from(refill, (rate, day) =>
    battery.mayExport &&
    home.halfHours[day]! > 0 &&
    exportRate[day]! - battery.wearPencePerKwh > rate / roundTrip + TOLERANCE
      ? 1
      : 0,
  );
}

/** Half-hours to charging from the start of each day; a day without half-hours takes the next one's. */
function stepsByDay(home: BatteryHomeLines, steps: Int32Array, battery: Battery): Float64Array {
  const byDay = new Float64Array(DAY_ROWS);
  let next = NO_CHARGING_AHEAD;
  for (let day = DAY_ROWS - 1; day >= 0; day--) {
    if (home.halfHours[day]! > 0) next = battery.mayExport ? steps[home.firstRow[day]! - 1]! : 0;
    byDay[day] = next;
  }
  return byDay;
}
