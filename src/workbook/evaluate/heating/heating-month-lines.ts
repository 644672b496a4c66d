import type { HeatingCells } from '../../inputs/heating-cells.js';
import type { ReadingRows } from '../../inputs/workbook-inputs.js';
import { MONTH_ROWS } from '../../layout.js';
import type { CellValue } from '../../model/sheet-model.js';
import { firstOfMonth } from '../calendar-parts.js';
import type { DayLines } from '../day-lines.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import { type MonthLines, sumByMonth } from '../month-lines.js';
import type { HeatingDayLines } from './heating-day-lines.js';

type Figure = number | null;

/** What the comparison takes of a month, and what that rests on; null where it can't be said. */
export interface HeatingMonth {
  monthSerial: Figure;
  days: Figure;
  heatPumpHalfHours: number;
  heatPumpMeteredKwh: number;
  electricityKwh: Figure;
  heatHalfHours: number;
  heatMeteredKwh: number;
  heatKwh: Figure;
  metersNote: string;
  degreeDaysTyped: Figure;
  degreeDays: Figure;
  daysWithTemperature: Figure;
  costHalfHourlyPounds: Figure;
  costBatteryPounds: Figure;
  monthSingleRatePence: Figure;
  monthGasRatePence: Figure;
  monthGasStandingPencePerDay: Figure;
}

export const METERS_NOTE = {
  noReadings: 'No heat pump readings.',
  heatPumpGaps: 'Heat pump readings have gaps: the month is left out.',
  heatGaps: 'The heat meter has gaps: its heat is left out.',
  none: '',
} as const;

/** What the months are made from. */
export interface HeatingMonthParts {
  heating: HeatingCells;
  readings: ReadingRows;
  halfHours: HalfHourLines;
  days: DayLines;
  months: MonthLines;
  heatingDays: HeatingDayLines;
  leastCoverageShare: number;
  /** Pence by half-hour at the chosen tariff; undefined where no tariff is chosen. */
  halfHourCostPence: Float64Array | undefined;
  /** Pence by month through the battery; undefined without one. */
  batteryPence: ArrayLike<number> | undefined;
}

/** The heat pump's months: only those of the chosen period have figures. */
export function heatingMonthLines(parts: HeatingMonthParts): HeatingMonth[] {
  const { readings, halfHours, days, months, heatingDays } = parts;
  const heatPump = countAndSum(readings.values.heatPumpKwh, halfHours);
  const heat = countAndSum(readings.values.heatOutputKwh, halfHours);
  const degreeDaysSum = sumByMonth(
    days.monthNumber,
    heatingDays.degreeDays.map((value) => value || 0),
  );
  const degreeDaysCount = sumByMonth(
    days.monthNumber,
    heatingDays.degreeDays.map((value) => (value === '' ? 0 : 1)),
  );
  const cost =
    parts.halfHourCostPence === undefined
      ? undefined
      : sumByMonth(halfHours.monthNumber, parts.halfHourCostPence);
  return Array.from({ length: MONTH_ROWS }, (_, m): HeatingMonth => {
    const start = months.start[m]!;
    const chosen = months.selected[m] === 1;
    const next = start === 0 ? 0 : firstOfMonth(start, 1);
    const least = parts.leastCoverageShare * months.expected[m]!;
    const whole = (count: number, sum: number): boolean => chosen && count > 0 && count >= least && sum >= 0;
    const electricityKwh = whole(heatPump.count[m]!, heatPump.sum[m]!) ? heatPump.sum[m]! : null;
    const heatKwh = whole(heat.count[m]!, heat.sum[m]!) ? heat.sum[m]! : null;
    const typed = chosen ? typedDegreeDays(parts.heating, start, next) : null;
    const degreeDaysTyped = typed === null ? null : (typed * months.days[m]!) / (next - start);
    const known = degreeDaysCount[m]!;
    return {
      monthSerial: start === 0 ? null : start,
      days: chosen ? months.days[m]! : null,
      heatPumpHalfHours: heatPump.count[m]!,
      heatPumpMeteredKwh: heatPump.sum[m]!,
      electricityKwh,
      heatHalfHours: heat.count[m]!,
      heatMeteredKwh: heat.sum[m]!,
      heatKwh,
      metersNote: chosen ? metersNote(heatPump.count[m]!, electricityKwh, heat.count[m]!, heatKwh) : '',
      degreeDaysTyped,
      degreeDays: !chosen ? null : (degreeDaysTyped ?? (known === 0 ? null : degreeDaysSum[m]!)),
      daysWithTemperature: chosen && degreeDaysTyped === null ? known : null,
      costHalfHourlyPounds: electricityKwh === null || cost === undefined ? null : cost[m]! / 100,
      costBatteryPounds:
        electricityKwh === null || parts.batteryPence === undefined ? null : parts.batteryPence[m]! / 100,
      ...ratesOf(parts.heating, chosen ? next : null),
    };
  });
}

function metersNote(
  heatPumpCount: number,
  electricityKwh: Figure,
  heatCount: number,
  heatKwh: Figure,
): string {
  if (heatPumpCount === 0) return METERS_NOTE.noReadings;
  if (electricityKwh === null) return METERS_NOTE.heatPumpGaps;
  return heatCount > 0 && heatKwh === null ? METERS_NOTE.heatGaps : METERS_NOTE.none;
}

function countAndSum(
  values: Float64Array,
  { monthNumber }: HalfHourLines,
): { count: Float64Array; sum: Float64Array } {
  return {
    count: sumByMonth(
      monthNumber,
      values.map((value) => (Number.isNaN(value) ? 0 : 1)),
    ),
    sum: sumByMonth(
      monthNumber,
      values.map((value) => value || 0),
    ),
  };
}

function typedDegreeDays({ monthDegreeDays }: HeatingCells, start: number, next: number): Figure {
  const typed = monthDegreeDays.flatMap(({ month, degreeDays }) =>
    typeof month === 'number' && month >= start && month < next && isRate(degreeDays) ? [degreeDays] : [],
  );
  return typed.length === 0 ? null : typed.reduce((a, b) => a + b, 0) / typed.length;
}

function ratesOf(
  { rates }: HeatingCells,
  next: number | null,
): Pick<HeatingMonth, 'monthSingleRatePence' | 'monthGasRatePence' | 'monthGasStandingPencePerDay'> {
  const count = rates.filter(({ from }) => next !== null && typeof from === 'number' && from < next).length;
  const set = rates[count - 1];
  const rate = (cell: CellValue | undefined): Figure => (isRate(cell) ? cell : null);
  return {
    monthSingleRatePence: rate(set?.singleRate),
    monthGasRatePence: rate(set?.gasRate),
    monthGasStandingPencePerDay: rate(set?.gasStanding),
  };
}

function isRate(cell: CellValue | undefined): cell is number {
  return typeof cell === 'number' && cell >= 0;
}
