import type { WorkbookValues } from '../workbook/workbook-values.js';
import { wrapped } from './format-comparison.js';

/**
 * Heat pump against boiler in a few lines of at most 80 columns.
 *
 * @param values a workbook, worked out
 * @returns lines of text; empty where the heat pump was not metered; what to choose where it can't be priced
 */
export function formatHeating({ calculated }: WorkbookValues): string {
  const months = calculated.named('months_compared');
  const said = (name: string): string => String(calculated.named(name));
  if (typeof months !== 'number' || months === 0) {
    return wrapped(said('heating_looks_elsewhere_words')).join('\n');
  }
  return [
    ...wrapped(said('heating_verdict')),
    ...wrapped(`${said('heating_estimates_verdict')} ${said('heating_year_verdict')}`),
  ].join('\n');
}
