import { InputError } from '../errors.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { numberAt } from './cell-arguments.js';

/** Probability that |T| stays below `sqrt(degreesOfFreedom) * tan(angle)`: the finite sums 26.7.3 and 26.7.4. */
function probabilityWithin(angle: number, degreesOfFreedom: number): number {
  const sin = Math.sin(angle);
  const cos = Math.cos(angle);
  const odd = degreesOfFreedom % 2 === 1;
  let term = odd ? cos : 1;
  let sum = degreesOfFreedom === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k <= degreesOfFreedom - 2; k += 2) {
    term *= ((k - 1) / k) * cos * cos;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + sin * sum) : sin * sum;
}

/**
 * The t that a variable of Student's distribution stays within, either side, with a given confidence.
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (exact finite sums for a whole
 * number of degrees of freedom, from memory), inverted by bisection.
 *
 * @param confidence share 0–1, for example 0.95
 * @param degreesOfFreedom whole number, at least 1: observations less fitted parameters
 * @returns t, without unit
 * @throws InputError when the confidence is not between 0 and 1 or the degrees of freedom are no whole number from 1
 * @example twoSidedTQuantile(0.95, 10) // 2.2281…
 */
export function twoSidedTQuantile(confidence: number, degreesOfFreedom: number): number {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InputError(`the confidence is ${confidence}`, 'Give a share between 0 and 1, such as 0.95.');
  }
  if (!Number.isInteger(degreesOfFreedom) || degreesOfFreedom < 1) {
    throw new InputError(
      `there are ${degreesOfFreedom} degrees of freedom`,
      'A range needs at least three months.',
    );
  }
  let low = 0;
  let high = Math.PI / 2;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return Math.sqrt(degreesOfFreedom) * Math.tan(middle);
    if (probabilityWithin(middle, degreesOfFreedom) < confidence) low = middle;
    else high = middle;
  }
}

const args = [
  {
    name: 'confidence',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'How often the range should hold, for example 0.95.',
  },
  {
    name: 'degreesOfFreedom',
    unit: 'count',
    kind: 'number',
    shape: 'cell',
    description: 'Months less the two fitted figures.',
  },
] as const;

export const twoSidedTQuantileDescribed: DescribedFunction = {
  name: 'twoSidedTQuantile',
  cellName: 'TWO_SIDED_T_QUANTILE',
  category: 'heating',
  summary: "How many standard errors a range reaches either side, by Student's distribution.",
  arguments: args,
  result: { unit: 'standard errors', shape: 'cell', description: 'Two-sided t quantile.' },
  source: 'Abramowitz and Stegun 26.7.3 and 26.7.4, from memory',
  example: { arguments: [0.5, 1], result: 1 },
  compute: (a) => twoSidedTQuantile(numberAt(a, args, 0), numberAt(a, args, 1)),
  formula: ([confidence, freedom]) => `TINV(1-${confidence},${freedom})`,
};
