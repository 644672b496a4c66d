import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/** Months from which metered figures speak for a year by themselves. */
const MONTHS_OF_A_YEAR = 12;
const MIN_MONTHS = 3;

/**
 * Says how far the months at hand speak for a year: one winter month alone does not.
 * Source: common practice, no source.
 *
 * @param months months compared, whole number, at least 0
 * @param fittedMonths months from which a year can be estimated; 0 where they are too few or alike, or the year's degree days are not known
 * @param winterShare degree days a day of these months ÷ those of the year; above 1: colder than the year; 0 where unknown
 * @returns one sentence
 * @throws InputError when a figure is negative
 * @example yearVerdict(1, 1, 1.9) // 'One winter month compared is not a year. …'
 */
export function yearVerdict(months: number, fittedMonths: number, winterShare: number): string {
  requireNumber(months, 'months', 0);
  requireNumber(fittedMonths, 'fittedMonths', 0);
  requireNumber(winterShare, 'winterShare', 0);
  if (months >= MONTHS_OF_A_YEAR) return WHOLE;
  if (months === 0) return NONE;
  return fittedMonths >= MIN_MONTHS ? `${months}${ESTIMATED}` : yearNeeds(months, winterShare);
}

/** What is said of months from which no year can be estimated. */
export function yearNeeds(months: number, winterShare: number): string {
  if (months > 1) return `${months}${MANY}${NEEDS}`;
  return (winterShare > 1 ? ONE_WINTER : ONE) + NEEDS;
}

/** The formula of {@link yearNeeds}. */
export function yearNeedsFormula(months: string, winterShare: string): string {
  return `IF(${months}>1,${months}&"${MANY}",IF(${winterShare}>1,"${ONE_WINTER}","${ONE}"))&"${NEEDS}"`;
}

/** The formula of {@link yearVerdict}, given that of {@link yearNeeds}. */
export function yearVerdictFormula(months: string, fittedMonths: string, needs: string): string {
  return `IF(${months}>=${MONTHS_OF_A_YEAR},"${WHOLE}",IF(${months}=0,"${NONE}",IF(${fittedMonths}>=${MIN_MONTHS},${months}&"${ESTIMATED}",${needs})))`;
}

const WHOLE = 'A whole year was metered.';
const NONE = 'No month to compare yet.';
const ESTIMATED = ' months compared are not a year: the annual figure is an estimate, with a range.';
const MANY = ' months compared are not a year. ';
const ONE_WINTER = 'One winter month compared is not a year. ';
const ONE = 'One month compared is not a year. ';
const NEEDS =
  'An annual figure needs at least three months, cold and mild ones, and the degree days of a year.';

const args = [
  { name: 'months', unit: 'count', kind: 'number', shape: 'cell', description: 'Months compared.' },
  {
    name: 'fittedMonths',
    unit: 'count',
    kind: 'number',
    shape: 'cell',
    description: 'Months from which a year can be estimated; 0 where it can not.',
  },
  {
    name: 'winterShare',
    unit: 'ratio',
    kind: 'number',
    shape: 'cell',
    description: "Degree days a day of these months ÷ the year's; above 1 is colder; 0 where unknown.",
  },
] as const;

export const yearVerdictDescribed: DescribedFunction = {
  name: 'yearVerdict',
  cellName: 'YEAR_VERDICT',
  category: 'heating',
  summary: 'Says how far the months at hand speak for a year.',
  arguments: args,
  result: { unit: 'none', shape: 'cell', description: 'One sentence.' },
  source: 'common practice, no source',
  example: { arguments: [12, 12, 1], result: WHOLE },
  compute: (a) => yearVerdict(numberAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  formula: ([months, fitted, winter]) =>
    yearVerdictFormula(months!, fitted!, yearNeedsFormula(months!, winter!)),
};
