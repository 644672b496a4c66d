import { type GasDialUnit, gasVolumeToEnergy } from '../../../heating/gas-volume-to-energy.js';
import type { GasCells } from '../../inputs/heating-cells.js';
import type { CellValue } from '../../model/sheet-model.js';
import type { DayLines } from '../day-lines.js';
import type { HeatingDayLines } from './heating-day-lines.js';
import { degreeDaysBetween, type TemperatureLines } from './temperature-lines.js';

/** Where a row's degree days come from, in the words of the sheet. */
export const DEGREE_DAY_SOURCE = {
  typed: 'typed',
  temperatures: 'temperatures',
  readings: 'readings',
  scaled: 'temperatures, scaled',
  none: '',
} as const;

/** What the comparison takes of a row of gas; null where it can't be said. */
export interface GasLines {
  gasDays: number | null;
  gasKwh: number | null;
  gasDegreeDays: number | null;
  source: string;
}

/** What the rows of gas need from elsewhere. */
export interface GasSettings {
  calorificValueMjPerM3: number;
  volumeCorrection: number;
  scaleDegreeDays: boolean;
}

const isNumber = (cell: CellValue): cell is number => typeof cell === 'number';
const UNITS: readonly string[] = ['m3', 'ft3', '100ft3'];

/** Unit of a row's volume; undefined where it is none that is known. */
export function gasUnit(cell: CellValue): GasDialUnit | undefined {
  const unit = cell === null ? 'm3' : typeof cell === 'string' ? cell.toLowerCase() : '';
  return UNITS.includes(unit) ? (unit as GasDialUnit) : undefined;
}

/** Days, energy and degree days of each row of gas. */
export function gasLines(
  rows: readonly GasCells[],
  temperatures: TemperatureLines,
  days: DayLines,
  heatingDays: HeatingDayLines,
  settings: GasSettings,
): GasLines[] {
  const fromReadings = new Map<number, { sum: number; count: number }>();
  heatingDays.degreeDays.forEach((degreeDays, day) => {
    if (degreeDays !== '') fromReadings.set(days.date[day]!, { sum: degreeDays, count: 1 });
  });
  return rows.map((row) => {
    const gasDays = daysOf(row);
    return {
      gasDays,
      gasKwh: energyOf(row, settings),
      ...degreeDaysOf(row, gasDays, temperatures.byDate, fromReadings, settings.scaleDegreeDays),
    };
  });
}

function daysOf({ firstDay, lastDay }: GasCells): number | null {
  if (!isNumber(firstDay) || !isNumber(lastDay)) return null;
  const days = Math.floor(lastDay) - Math.floor(firstDay) + 1;
  return days >= 1 ? days : null;
}

function energyOf(row: GasCells, settings: GasSettings): number | null {
  if (isNumber(row.kwh)) return row.kwh >= 0 ? row.kwh : null;
  const unit = gasUnit(row.volumeUnit);
  const calorific = isNumber(row.calorificValue) ? row.calorificValue : settings.calorificValueMjPerM3;
  if (!isNumber(row.volume) || row.volume < 0 || unit === undefined || calorific <= 0) return null;
  return gasVolumeToEnergy(row.volume, unit, calorific, settings.volumeCorrection);
}

function degreeDaysOf(
  row: GasCells,
  gasDays: number | null,
  byDate: TemperatureLines['byDate'],
  fromReadings: TemperatureLines['byDate'],
  scale: boolean,
): Pick<GasLines, 'gasDegreeDays' | 'source'> {
  const source = DEGREE_DAY_SOURCE;
  if (isNumber(row.degreeDays)) {
    return row.degreeDays >= 0
      ? { gasDegreeDays: row.degreeDays, source: source.typed }
      : { gasDegreeDays: null, source: source.none };
  }
  if (gasDays === null) return { gasDegreeDays: null, source: source.none };
  const first = Math.floor(row.firstDay as number);
  const last = Math.floor(row.lastDay as number);
  const found = degreeDaysBetween(byDate, first, last);
  if (found.count >= gasDays) return { gasDegreeDays: found.sum, source: source.temperatures };
  const read = degreeDaysBetween(fromReadings, first, last);
  if (read.count >= gasDays) return { gasDegreeDays: read.sum, source: source.readings };
  if (scale && found.count > 0) {
    return { gasDegreeDays: (found.sum * gasDays) / found.count, source: source.scaled };
  }
  return { gasDegreeDays: null, source: source.none };
}
