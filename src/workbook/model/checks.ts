import { absolute, absoluteRow } from '../cell-address.js';
import { PROBLEM } from '../evaluate/half-hour-lines.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { numberIn } from '../inputs/workbook-inputs.js';
import { FIRST_ROW, LAST_READING_ROW, MONTH_ROWS, SHEETS, TARIFF_COUNT } from '../layout.js';
import { batteryChecks } from './battery/battery-checks.js';
import {
  CELL,
  DAY as D,
  dayColumn,
  HALF_HOUR as H,
  halfHourColumn,
  MONTH as M,
  monthColumn,
  PERIOD_ROW,
  READING as R,
  readingColumn,
} from './columns.js';
import { heatingChecks } from './heating/heating-checks.js';
import { RATES } from './rates-rows.js';
import { tariffRow } from './sentences.js';
import type { CellValue } from './sheet-model.js';
import { TARIFF_CHECKS, tariffCheckCount } from './tariff-checks.js';
import { TARIFF_ROW as T, TODAYS_TARIFF_CELL, tariffLetters } from './tariff-rows.js';

/** A self-test of the workbook: it counts what is wrong, 0 is well. */
export interface Check {
  name: string;
  /** Formula that counts, without `=`. */
  formula: string;
  /** The library's count. */
  count: (results: WorkbookResults) => number;
  /** What to do when it is not 0. */
  advice: string;
  /** `note`: told, but no fault. */
  kind: 'fault' | 'note';
}

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
const typed = (tariff: number, row: number): string => absolute(SHEETS.tariffs, tariffLetters(tariff), row);
const whole = (text: string): string => `IF(${text},1,0)`;

function problemCheck(code: number, name: string, advice: string): Check {
  return {
    name,
    formula: `COUNTIFS(${halfHourColumn(H.problem)},${code})`,
    count: (r) => r.halfHours.problem.reduce((sum, problem) => sum + (problem === code ? 1 : 0), 0),
    advice,
    kind: 'fault',
  };
}

const isBlank = (cell: CellValue): boolean => cell === null;
const isNumber = (cell: CellValue): cell is number => typeof cell === 'number';
const ENERGY_CHANNELS = [
  'importKwh',
  'exportKwh',
  'solarKwh',
  'batteryInKwh',
  'batteryOutKwh',
  'heatPumpKwh',
  'heatOutputKwh',
  'carKwh',
] as const;

function readingChecks(): Check[] {
  const energy = `${SHEETS.readings}!$${R.importKwh}$${FIRST_ROW}:$${R.carKwh}$${LAST_READING_ROW}`;
  const energyCount = (r: WorkbookResults, test: (kwh: number) => boolean): number =>
    ENERGY_CHANNELS.reduce((sum, channel) => {
      for (const kwh of r.inputs.readings.values[channel]) if (test(kwh)) sum++;
      return sum;
    }, 0);
  return [
    {
      name: 'No readings in the chosen period',
      formula: whole(`${SHEETS.months}!$${M.metered}$${PERIOD_ROW}=0`),
      count: (r) => (r.period.metered === 0 ? 1 : 0),
      advice: `Paste half-hours into ${SHEETS.readings}, run the fill, or widen the period on ${SHEETS.answer}.`,
      kind: 'fault',
    },
    problemCheck(
      PROBLEM.dateIsText,
      'Dates that arrived as text',
      `In ${SHEETS.readings}, turn them into real dates (text to columns, with the right order of day and month), or use the fill.`,
    ),
    problemCheck(
      PROBLEM.offHalfHour,
      'Times off the half-hour',
      'Each row is a half-hour that starts at :00 or :30.',
    ),
    problemCheck(
      PROBLEM.repeatedOrOutOfOrder,
      'Rows repeated or out of order',
      'Sort the readings by time and take out repeats; such rows are not counted in any total.',
    ),
    problemCheck(
      PROBLEM.valueNotANumber,
      'Rows with a value that is not a number',
      'Type a number or clear the cell; it counts as missing.',
    ),
    problemCheck(PROBLEM.outsideCenturies, 'Dates outside 1990 to 2099', 'Check the date.'),
    problemCheck(PROBLEM.valuesWithoutTime, 'Values without a time', 'Give the row its time, or clear it.'),
    {
      name: 'Half-hours beyond the days that the workbook holds',
      formula: `SUM(${halfHourColumn(H.used)})-COUNTIFS(${halfHourColumn(H.day)},">0")`,
      count: (r) =>
        r.halfHours.used.reduce((a, b) => a + b, 0) - r.halfHours.dayNumber.filter((day) => day > 0).length,
      advice: 'Start a new workbook for a new year; this one keeps the old one.',
      kind: 'fault',
    },
    {
      name: 'Half-hours missing in the chosen period',
      formula: `MAX(0,${SHEETS.months}!$${M.expected}$${PERIOD_ROW}-${SHEETS.months}!$${M.metered}$${PERIOD_ROW})`,
      count: (r) => Math.max(0, r.period.expected - r.period.metered),
      advice: `Totals leave them out. Days with less than they should have are marked on ${SHEETS.days}.`,
      kind: 'fault',
    },
    {
      name: 'Days with more half-hours than the clock has',
      formula: `SUMPRODUCT((${dayColumn(D.metered)}>${dayColumn(D.expected)})*1)`,
      count: (r) =>
        r.days.metered.reduce((sum, metered, day) => sum + (metered > r.days.expected[day]! ? 1 : 0), 0),
      advice: 'Readings overlap on that day; check the clock offsets.',
      kind: 'fault',
    },
    {
      name: 'Negative kWh',
      formula: `COUNTIFS(${energy},"<0")`,
      count: (r) => energyCount(r, (kwh) => kwh < 0),
      advice: 'A meter channel does not run backwards: check its sign and its unit.',
      kind: 'fault',
    },
    {
      name: 'Outliers: half-hours above the largest plausible',
      formula: `COUNTIFS(${energy},">"&SUM(${CELL.largestHalfHour}))`,
      count: (r) => energyCount(r, (kwh) => kwh > numberIn(r.inputs.home.largestHalfHourKwh)),
      advice: `Check for Wh read as kWh, or raise the limit on ${SHEETS.home}.`,
      kind: 'fault',
    },
    {
      name: 'Half-hours of demand below zero by more than noise (0.05 kWh)',
      formula: `COUNTIFS(${halfHourColumn(H.clampedKwh)},">0.05")`,
      count: (r) => r.halfHours.clampedKwh.filter((kwh) => kwh > 0.05).length,
      advice: 'More leaves than comes in: a solar or battery channel is missing or has the wrong sign.',
      kind: 'fault',
    },
    {
      name: 'Half-hours of demand set from just below zero to zero',
      formula: `COUNTIFS(${halfHourColumn(H.clampedKwh)},">0",${halfHourColumn(H.clampedKwh)},"<=0.05")`,
      count: (r) => r.halfHours.clampedKwh.filter((kwh) => kwh > 0 && kwh <= 0.05).length,
      advice: 'Meter noise; nothing to do.',
      kind: 'note',
    },
    {
      name: 'Rows marked as estimated',
      formula: `COUNTIFS(${readingColumn(R.mark)},"E*")`,
      count: (r) => r.inputs.readings.estimated.reduce((a, b) => a + b, 0),
      advice: 'They count; ask for the real readings where it matters.',
      kind: 'note',
    },
  ];
}

function tariffChecks(): Check[] {
  return TARIFF_CHECKS.map((check, index) => ({
    name: check.name,
    formula: `SUM(${absoluteRow(SHEETS.rates, tariffLetters(0), tariffLetters(TARIFF_COUNT - 1), RATES.firstCheck + index)})`,
    count: (r) => tariffs.reduce((sum, t) => sum + tariffCheckCount(check, r, t), 0),
    advice: check.advice,
    kind: 'fault',
  }));
}

function choiceChecks(): Check[] {
  return [
    {
      name: 'Today’s tariff not found',
      formula: whole(`ISERROR(MATCH(${SHEETS.tariffs}!${TODAYS_TARIFF_CELL},${tariffRow(T.name)},0))`),
      count: (r) => (r.todays < 0 ? 1 : 0),
      advice: `Choose one of the names on ${SHEETS.tariffs}.`,
      kind: 'fault',
    },
    {
      name: 'Tariffs that share a name',
      formula: tariffs
        .slice(1)
        .map((t) => {
          const before = `${SHEETS.tariffs}!$${tariffLetters(0)}$${T.name}:$${tariffLetters(t - 1)}$${T.name}`;
          return `IF(${typed(t, T.name)}="",0,IF(SUMPRODUCT((${before}=${typed(t, T.name)})*1)>0,1,0))`;
        })
        .join('+'),
      count: (r) => {
        const names = r.inputs.tariffs.map((tariff) => String(tariff.name ?? '').toLowerCase());
        return names.filter((name, t) => name !== '' && names.indexOf(name) < t).length;
      },
      advice: 'Give each a name of its own.',
      kind: 'fault',
    },
    {
      name: 'From-month after to-month, or not a date',
      formula: whole(
        `OR(${CELL.effectiveFrom}>${CELL.effectiveTo},AND(NOT(ISBLANK(${CELL.fromMonth})),NOT(ISNUMBER(${CELL.fromMonth}))),AND(NOT(ISBLANK(${CELL.toMonth})),NOT(ISNUMBER(${CELL.toMonth}))))`,
      ),
      count: (r) =>
        r.months.effectiveFrom > r.months.effectiveTo ||
        (!isBlank(r.inputs.fromMonth) && !isNumber(r.inputs.fromMonth)) ||
        (!isBlank(r.inputs.toMonth) && !isNumber(r.inputs.toMonth))
          ? 1
          : 0,
      advice: `Put the months right on ${SHEETS.answer}.`,
      kind: 'fault',
    },
    {
      name: 'Clock sheet made for another zone',
      formula: whole(`${SHEETS.clock}!$B$3<>${CELL.timeZone}`),
      count: (r) =>
        String(r.inputs.clockTimeZone ?? '').toLowerCase() ===
        String(r.inputs.home.timeZone ?? '').toLowerCase()
          ? 0
          : 1,
      advice: 'Run the fill with --time-zone, or put the zone on Home back.',
      kind: 'fault',
    },
  ];
}

function sumChecks(): Check[] {
  const gap = (left: string, right: string, tolerance: string): string =>
    whole(`ABS(${left}-(${right}))>${tolerance}`);
  return [
    {
      name: 'Import by month and by half-hour differ',
      formula: gap(`SUM(${monthColumn(M.importKwh)})`, `SUM(${halfHourColumn(H.importKwh)})`, '0.000001'),
      count: (r) => (Math.abs(sum(r.months.importKwh) - sum(r.halfHours.importKwh)) > 1e-6 ? 1 : 0),
      advice: 'The parts do not sum to the whole: a formula was changed.',
      kind: 'fault',
    },
    {
      name: 'Tariffs whose months differ from their half-hours by more than rounding',
      formula: tariffs
        .map((t) =>
          gap(
            `SUM(${monthColumn(M.energy(t))})`,
            `SUMPRODUCT(${halfHourColumn(H.importKwh)},${halfHourColumn(H.unitRate(t))})/100`,
            `${MONTH_ROWS}*0.006`,
          ),
        )
        .join('+'),
      count: (r) =>
        r.tariffs.filter(
          (t) =>
            Math.abs(sum(t.months.energyPounds) - sum(t.halfHours.energyCostPence) / 100) >
            MONTH_ROWS * 0.006,
        ).length,
      advice: 'The parts do not sum to the whole: a formula was changed.',
      kind: 'fault',
    },
  ];
}

function sum(values: Float64Array): number {
  return values.reduce((a, b) => a + b, 0);
}

/** Every check, in the order of the sheet. */
export function allChecks(): Check[] {
  return [
    ...readingChecks(),
    ...choiceChecks(),
    ...tariffChecks(),
    ...batteryChecks(),
    ...heatingChecks(),
    ...sumChecks(),
  ];
}
