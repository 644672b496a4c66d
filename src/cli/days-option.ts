import { InvalidArgumentError, Option } from 'commander';
import { FEWEST_DAYS, MOST_DAYS } from '../workbook/layout.js';

/**
 * The option that says how many days a workbook is to hold.
 *
 * @param otherwise what holds where it is not given, for the help; nothing where the option has a default
 */
export function daysOption(otherwise = ''): Option {
  return new Option(
    '--days <count>',
    `days that the workbook holds, ${FEWEST_DAYS} to ${MOST_DAYS}${otherwise}`,
  ).argParser(daysOf);
}

function daysOf(text: string): number {
  const days = Number(text);
  if (Number.isInteger(days) && days >= FEWEST_DAYS && days <= MOST_DAYS) return days;
  throw new InvalidArgumentError(`Give a whole number from ${FEWEST_DAYS} to ${MOST_DAYS}.`);
}
