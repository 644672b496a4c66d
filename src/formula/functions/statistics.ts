import { Cells } from '../operands.js';
import { FormulaError, toNumber, type Value } from '../values.js';
import {
  type FormulaFunction,
  numbersIn,
  type Operand,
  ofAllNumbers,
  ofNumbers,
  single,
} from './describe.js';

interface Line {
  count: number;
  slope: number;
  intercept: number;
  /** Sum of squares of what the line leaves. */
  left: number;
  ofY: number;
}

/** The straight line through pairs of numbers; pairs with anything else are passed over. */
function fitted([ys, xs]: readonly Operand[]): Line | FormulaError {
  if (!(ys instanceof Cells) || !(xs instanceof Cells) || ys.size !== xs.size)
    return FormulaError.notAvailable;
  const pairs: [number, number][] = [];
  for (let i = 0; i < ys.size; i++) {
    const [y, x] = [ys.nth(i), xs.nth(i)];
    if (y instanceof FormulaError) return y;
    if (x instanceof FormulaError) return x;
    if (typeof y === 'number' && typeof x === 'number') pairs.push([x, y]);
  }
  const count = pairs.length;
  if (count === 0) return FormulaError.divisionByZero;
  const meanX = pairs.reduce((sum, [x]) => sum + x, 0) / count;
  const meanY = pairs.reduce((sum, [, y]) => sum + y, 0) / count;
  let [ofX, ofY, both] = [0, 0, 0];
  for (const [x, y] of pairs) {
    ofX += (x - meanX) ** 2;
    ofY += (y - meanY) ** 2;
    both += (x - meanX) * (y - meanY);
  }
  if (ofX === 0) return FormulaError.divisionByZero;
  const slope = both / ofX;
  return { count, slope, intercept: meanY - slope * meanX, left: Math.max(0, ofY - slope * both), ofY };
}

function ofLine(work: (line: Line) => Value): FormulaFunction {
  return {
    takes: ['cells'],
    work: (operands) => {
      const line = fitted(operands);
      return line instanceof FormulaError ? line : work(line);
    },
  };
}

/** The k-th of the sorted numbers; counted from the end where `fromEnd` says so. */
function ranked(fromEnd: boolean): FormulaFunction {
  return {
    takes: ['cells', 'value'],
    work: ([cells, rank]) => {
      const numbers = numbersIn([cells ?? null]);
      const place = toNumber(single(rank));
      if (numbers instanceof FormulaError) return numbers;
      if (place instanceof FormulaError) return place;
      const sorted = Float64Array.from(numbers).sort();
      const k = Math.trunc(place);
      return (k < 1 ? undefined : fromEnd ? sorted.at(-k) : sorted[k - 1]) ?? FormulaError.number;
    },
  };
}

/** Two-sided quantile of Student's distribution, by bisection on its probability. */
function studentQuantile(tail: number, freedom: number): Value {
  if (!(tail > 0 && tail <= 1) || freedom < 1) return FormulaError.number;
  let [low, high] = [0, 1];
  while (tailBeyond(high, freedom) > tail) high *= 2;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return middle;
    if (tailBeyond(middle, freedom) > tail) low = middle;
    else high = middle;
  }
}

/** Probability beyond ±t: the incomplete beta function as a continued fraction (DLMF 8.17.22, from memory). */
function tailBeyond(t: number, freedom: number): number {
  const x = freedom / (freedom + t * t);
  return regularisedBeta(x, freedom / 2, 0.5);
}

function regularisedBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction converges quickly on one side only; the other is its complement.
  if (x > (a + 1) / (a + b + 2)) return 1 - regularisedBeta(1 - x, b, a);
  const front =
    Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x)) / a;
  const TINY = 1e-300;
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || TINY);
  let fraction = d;
  for (let m = 1; m < 1000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d || TINY);
    c = 1 + even / c || TINY;
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d || TINY);
    c = 1 + odd / c || TINY;
    const step = d * c;
    fraction *= step;
    if (Math.abs(step - 1) < 1e-16) break;
  }
  return front * fraction;
}

/** Logarithm of the gamma function for arguments that are whole or half. */
function logGamma(x: number): number {
  let sum = 0;
  let rest = x;
  for (; rest > 1; rest--) sum += Math.log(rest - 1);
  return rest === 0.5 ? sum + Math.log(Math.PI) / 2 : sum;
}

export const STATISTICS: Record<string, FormulaFunction> = {
  SMALL: ranked(false),
  LARGE: ranked(true),
  SLOPE: ofLine(({ slope }) => slope),
  INTERCEPT: ofLine(({ intercept }) => intercept),
  STEYX: ofLine(({ count, left }) =>
    count < 3 ? FormulaError.divisionByZero : Math.sqrt(left / (count - 2)),
  ),
  RSQ: ofLine(({ left, ofY }) => (ofY === 0 ? FormulaError.divisionByZero : 1 - left / ofY)),
  DEVSQ: ofAllNumbers((numbers) => {
    if (numbers.length === 0) return FormulaError.number;
    const mean = numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
    return numbers.reduce((sum, number) => sum + (number - mean) ** 2, 0);
  }),
  TINV: ofNumbers((tail = 0, freedom = 0) => studentQuantile(tail, Math.trunc(freedom))),
};
