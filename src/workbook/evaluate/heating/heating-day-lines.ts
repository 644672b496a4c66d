import { dailyDegreeDays } from '../../../heating/daily-degree-days.js';
import { fitDailyUse, monthsToFit } from '../../../heating/fit-use-to-degree-days.js';
import type { ReadingRows } from '../../inputs/workbook-inputs.js';
import { DAY_ROWS, READING_ROWS } from '../../layout.js';
import type { DayLines } from '../day-lines.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import type { TemperatureLines } from './temperature-lines.js';

/** The lines of the heating days sheet; one entry a row, '' where a figure can't be said. */
export interface HeatingDayLines {
  heatPumpHalfHours: Int32Array;
  heatPumpKwh: (number | '')[];
  temperatureHalfHours: Int32Array;
  meanC: (number | '')[];
  degreeDays: (number | '')[];
  inFit: Uint8Array;
  fitDegreeDays: (number | '')[];
  fitKwh: (number | '')[];
  chartDegreeDays: Float64Array;
  chartKwh: Float64Array;
  /** Row, from 1, of the first day in the fit; 0 where there is none. */
  firstInFit: number;
  line: DailyFit;
}

/** The line of daily use on degree days; zeros where there is none. */
export interface DailyFit {
  days: number;
  baseKwhPerDay: number | '';
  kwhPerDegreeDay: number | '';
  rSquared: number | '';
  fromDegreeDays: number;
  fromKwh: number;
  toDegreeDays: number;
  toKwh: number;
}

/** What the heat pump used and how cold it was, day by day. */
export function heatingDayLines(
  readings: ReadingRows,
  halfHours: HalfHourLines,
  days: DayLines,
  temperatures: TemperatureLines,
  { baseC, byHalfHours }: { baseC: number; byHalfHours: boolean },
): HeatingDayLines {
  const blanks = (): (number | '')[] => new Array<number | ''>(DAY_ROWS).fill('');
  const lines: HeatingDayLines = {
    heatPumpHalfHours: new Int32Array(DAY_ROWS),
    heatPumpKwh: blanks(),
    temperatureHalfHours: new Int32Array(DAY_ROWS),
    meanC: blanks(),
    degreeDays: blanks(),
    inFit: new Uint8Array(DAY_ROWS),
    fitDegreeDays: blanks(),
    fitKwh: blanks(),
    chartDegreeDays: new Float64Array(DAY_ROWS),
    chartKwh: new Float64Array(DAY_ROWS),
    firstInFit: 0,
    line: NO_LINE,
  };
  const halfHoursC: number[][] = Array.from({ length: DAY_ROWS }, () => []);
  const kwh = new Float64Array(DAY_ROWS);
  for (let row = 0; row < READING_ROWS; row++) {
    const day = halfHours.dayNumber[row]! - 1;
    if (day < 0) continue;
    const heatPump = readings.values.heatPumpKwh[row]!;
    if (!Number.isNaN(heatPump)) {
      lines.heatPumpHalfHours[day]!++;
      kwh[day]! += heatPump;
    }
    const outdoorC = readings.values.outdoorC[row]!;
    if (!Number.isNaN(outdoorC)) halfHoursC[day]!.push(outdoorC);
  }
  for (let day = 0; day < DAY_ROWS; day++) {
    const date = days.date[day]!;
    if (date === 0) continue;
    const known = halfHoursC[day]!;
    const expected = days.expected[day]!;
    lines.temperatureHalfHours[day] = known.length;
    if (lines.heatPumpHalfHours[day]! > 0) lines.heatPumpKwh[day] = kwh[day]!;
    if (known.length > 0) lines.meanC[day] = known.reduce((a, b) => a + b, 0) / known.length;
    const meanC = lines.meanC[day] as number;
    const own = { serialDay: date, ...(byHalfHours ? { halfHoursC: known } : { meanC }) };
    lines.degreeDays[day] =
      known.length >= expected
        ? dailyDegreeDays(own, baseC)!.degreeDays
        : meanOf(temperatures.byDate.get(date));
    if (lines.heatPumpHalfHours[day]! < expected || lines.degreeDays[day] === '') continue;
    lines.inFit[day] = 1;
    lines.fitDegreeDays[day] = lines.degreeDays[day]!;
    lines.fitKwh[day] = lines.heatPumpKwh[day]!;
  }
  placeInChart(lines);
  lines.line = dailyFit(lines);
  return lines;
}

function meanOf(found: { sum: number; count: number } | undefined): number | '' {
  return found === undefined ? '' : found.sum / found.count;
}

/** A scatter chart wants numbers on every row: a day that is not known takes the place of the first that is. */
function placeInChart(lines: HeatingDayLines): void {
  const first = lines.inFit.indexOf(1);
  lines.firstInFit = first + 1;
  for (let day = 0; day < DAY_ROWS; day++) {
    const shown = lines.inFit[day] === 1 ? day : first;
    if (shown < 0) continue;
    lines.chartDegreeDays[day] = lines.degreeDays[shown] as number;
    lines.chartKwh[day] = lines.heatPumpKwh[shown] as number;
  }
}

const NO_LINE: DailyFit = {
  days: 0,
  baseKwhPerDay: '',
  kwhPerDegreeDay: '',
  rSquared: '',
  fromDegreeDays: 0,
  fromKwh: 0,
  toDegreeDays: 0,
  toKwh: 0,
};

function dailyFit(lines: HeatingDayLines): DailyFit {
  const known = (values: (number | '')[]): number[] => values.filter((value) => value !== '');
  const x = known(lines.fitDegreeDays);
  const days = x.length === 0 ? 0 : monthsToFit(x);
  if (days === 0) return NO_LINE;
  const { baseKwhPerDay, kwhPerDegreeDay, rSquared } = fitDailyUse(x, known(lines.fitKwh));
  const toDegreeDays = x.reduce((most, value) => Math.max(most, value), 0);
  return {
    days,
    baseKwhPerDay,
    kwhPerDegreeDay,
    rSquared,
    fromDegreeDays: 0,
    fromKwh: baseKwhPerDay,
    toDegreeDays,
    toKwh: baseKwhPerDay + kwhPerDegreeDay * toDegreeDays,
  };
}
