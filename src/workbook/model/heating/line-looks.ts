import type { LineFormat } from '../../../heating/comparison/heating-line.js';
import type { StyleName } from '../../look/styles.js';

const STYLES: Readonly<Record<LineFormat, StyleName>> = {
  number0: 'kwh',
  number1: 'oneDecimal',
  number2: 'rate',
  pounds: 'money',
  pence: 'rate',
  share: 'percent',
  date: 'month',
  text: 'text',
};

/** The look of a line of the comparison. */
export function styleOf(format: LineFormat): StyleName {
  return STYLES[format];
}

/** The unit of a line in the workbook's words: money in the home's currency, shares in percent. */
export function unitOf({ unit }: { unit: string }): string {
  if (unit === 'none' || unit === 'choice') return '';
  if (unit.startsWith('share')) return 'percent';
  if (unit === 'yes/no') return 'yes or no';
  return unit
    .replace(/^£/, '{major}')
    .replace(/^p\//, '{minor}/')
    .replace('kWh heat/kWh electricity', 'heat ÷ electricity');
}
