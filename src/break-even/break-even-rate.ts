import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';

/**
 * The value of any one rate at which a tariff's total meets another tariff's, everything else unchanged.
 * Source: arithmetic.
 *
 * @param ratePence the rate as it is: p/kWh of one window or the base, or p/day of the standing charge
 * @param quantityAtRate kWh that this rate is charged on (days for a standing charge), over the period of the totals
 * @param totalPounds £, total of the tariff that the rate belongs to
 * @param otherTotalPounds £, total to be met, over the same period and both with VAT if the rate is
 * @returns the rate at which the totals are equal, in the rate's unit; below 0 no rate is low enough
 * @throws InputError when nothing is charged at the rate or a value is no number
 * @example breakEvenRate(27.5, 2000, 700, 650) // 25
 */
export function breakEvenRate(
  ratePence: number,
  quantityAtRate: number,
  totalPounds: number,
  otherTotalPounds: number,
): number {
  const shortfall =
    requireNumber(otherTotalPounds, 'otherTotalPounds') - requireNumber(totalPounds, 'totalPounds');
  return (
    requireNumber(ratePence, 'ratePence') +
    (shortfall * 100) / requirePositive(quantityAtRate, 'quantityAtRate')
  );
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'ratePence',
    unit: 'p/kWh or p/day',
    kind: 'number',
    shape: 'cell',
    description: 'The rate as it is.',
  },
  {
    name: 'quantityAtRate',
    unit: 'kWh or days',
    kind: 'number',
    shape: 'cell',
    description: 'What is charged at this rate over the period.',
  },
  {
    name: 'totalPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Total of the tariff that the rate belongs to.',
  },
  {
    name: 'otherTotalPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Total to be met, over the same period; with VAT if the rate is.',
  },
];

export const breakEvenRateFunction: DescribedFunction = {
  name: 'breakEvenRate',
  cellName: 'BREAK_EVEN_RATE',
  category: 'break-even',
  summary: "Says at which value of one rate a tariff's total meets another tariff's.",
  arguments: ARGUMENTS,
  result: {
    unit: 'p/kWh or p/day',
    shape: 'cell',
    description: 'The rate at which both totals are equal; below 0 no rate is low enough.',
  },
  source: 'arithmetic',
  example: { arguments: [27.5, 2000, 700, 650], result: 25 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return breakEvenRate(
      read.number('ratePence'),
      read.number('quantityAtRate'),
      read.number('totalPounds'),
      read.number('otherTotalPounds'),
    );
  },
  formula: ([rate, quantity, total, other]) =>
    `IF(${quantity}>0,${rate}+(${other}-${total})*100/${quantity},NA())`,
};
