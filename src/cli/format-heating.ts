import type { WorkbookResults } from '../workbook/evaluate/workbook-results.js';
import { heatingSentence } from '../workbook/model/heating/heating-sentences.js';
import { wrapped } from './format-comparison.js';

/**
 * Heat pump against boiler in a few lines of at most 80 columns.
 *
 * @param results what the library worked out
 * @returns lines of text; empty where the heat pump was not metered
 */
export function formatHeating(results: WorkbookResults): string {
  const { totals, year } = results.heating.comparison;
  if (totals.months === 0) return '';
  return [
    ...wrapped(heatingSentence(results)),
    ...wrapped(`${String(totals.estimatesVerdict)} ${String(year.yearVerdict)}`),
  ].join('\n');
}
