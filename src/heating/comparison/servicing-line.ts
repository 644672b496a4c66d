import { type HeatingLine, lineOf } from './heating-line.js';

const DAYS_OF_A_YEAR = 365;

/** A month's part of what servicing costs a year; 0 where none is typed, which the heating sheet says. */
export function servicingLine(key: string, label: string, poundsPerYearKey: string): HeatingLine {
  return lineOf(
    {
      key,
      label,
      unit: '£',
      format: 'pounds',
      description: `A year’s × days ÷ ${DAYS_OF_A_YEAR}; 0 where none is typed.`,
    },
    ['days'],
    ([days], at) => ((at.number(poundsPerYearKey) ?? 0) * days!) / DAYS_OF_A_YEAR,
    ([days], at) => `SUM(${at.cell(poundsPerYearKey)})*${days}/${DAYS_OF_A_YEAR}`,
  );
}
