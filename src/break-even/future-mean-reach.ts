import { requireNumber, requirePositive } from '../functions/require-number.js';
import { twoSidedTQuantile } from '../heating/two-sided-t-quantile.js';

/** What {@link futureMeanReach} works from. */
export interface SeenAndAhead {
  /** Standard deviation of one observation, in any unit. */
  deviation: number;
  /** Degrees of freedom of that deviation, a whole number from 1. */
  degreesOfFreedom: number;
  /** Observations that there are. */
  observations: number;
  /** Observations to come whose mean is asked for; need not be whole. */
  ahead: number;
  /** How often the range is to hold, share 0–1. */
  confidence: number;
}

/**
 * How far the mean of observations to come may be from the mean of those that there are, either way.
 * Source: Hahn and Meeker, Statistical Intervals (1991), prediction interval to contain the mean of future observations
 * of a normal distribution; from memory.
 *
 * @param seen deviation, its degrees of freedom, how many observations there are and are to come, and the confidence
 * @returns half the width of the range, in the unit of the deviation
 * @throws InputError when a figure is no number or not above 0, the degrees of freedom are no whole number from 1, or
 *   the confidence is not between 0 and 1
 * @example futureMeanReach({ deviation: 1.31, degreesOfFreedom: 4, observations: 5, ahead: 10, confidence: 0.95 })
 *   // 1.99…
 */
export function futureMeanReach(seen: SeenAndAhead): number {
  const { degreesOfFreedom, confidence } = seen;
  const deviation = requireNumber(seen.deviation, 'deviation', 0);
  const observations = requirePositive(seen.observations, 'observations');
  const ahead = requirePositive(seen.ahead, 'ahead');
  return (
    twoSidedTQuantile(confidence, degreesOfFreedom) * deviation * Math.sqrt(1 / observations + 1 / ahead)
  );
}
