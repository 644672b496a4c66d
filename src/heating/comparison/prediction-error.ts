import { predictionStandardError } from '../predict-use.js';
import { type HeatingLine, type LineLabel, lineOf } from './heating-line.js';

/** What the doubt about last year's gas rests on; known only where it was fitted. */
export const GAS_SCATTER_KEYS = [
  'gasResidualKwhPerDay',
  'gasFitMonths',
  'gasMeanDegreeDaysPerDay',
  'gasDegreeDaysSpread',
] as const;

/**
 * Standard error of last year's gas carried to other weather, kWh.
 *
 * @param scatter the figures of `GAS_SCATTER_KEYS`, in order
 * @param days calendar days
 * @param degreeDays heating degree days
 * @param periods months that the days make up
 */
export function gasPredictionError(
  [residualStandardError, fitMonths, meanDegreeDaysPerDay, degreeDaysSpread]: readonly number[],
  days: number,
  degreeDays: number,
  periods: number,
): number {
  return predictionStandardError(
    {
      residualStandardError: residualStandardError!,
      periods: fitMonths!,
      meanDegreeDaysPerDay: meanDegreeDaysPerDay!,
      degreeDaysSpread: degreeDaysSpread!,
    },
    { days, degreeDays, periods },
  );
}

/** The formula of {@link gasPredictionError}, on references. */
export function gasPredictionErrorFormula(
  [scatter, fitMonths, mean, spread]: readonly string[],
  days: string,
  degreeDays: string,
  periods: string,
): string {
  return `${scatter}*SQRT(${days}^2/${fitMonths}+(${degreeDays}-${days}*${mean})^2/${spread}+${days}^2/${periods})`;
}

/** A line with that standard error, for given days and degree days. */
export function gasPredictionErrorLine(
  label: LineLabel,
  daysKey: string,
  degreeDaysKey: string,
  periods: number,
): HeatingLine {
  return lineOf(
    label,
    [...GAS_SCATTER_KEYS, daysKey, degreeDaysKey],
    (figures) => gasPredictionError(figures, figures[4]!, figures[5]!, periods),
    (cells) => gasPredictionErrorFormula(cells, cells[4]!, cells[5]!, String(periods)),
  );
}
