import { describe, expect, it } from 'vitest';
import { futureMeanReach } from '../../src/break-even/future-mean-reach.js';

/**
 * Five readings 50.3, 48.3, 49.6, 50.4, 51.9: mean 50.10, standard deviation 1.31. Hahn and Meeker, Statistical
 * Intervals (1991), give these 95 % prediction intervals; from memory.
 */
const SEEN = { deviation: 1.31, degreesOfFreedom: 4, observations: 5, confidence: 0.95 };
const INTERVALS = [
  { ahead: 1, low: 46.1, high: 54.1 },
  { ahead: 10, low: 48.1, high: 52.1 },
];

describe('the published prediction intervals of five readings', () => {
  it.each(INTERVALS)('for the mean of $ahead to come: $low to $high', ({ ahead, low, high }) => {
    const reach = futureMeanReach({ ...SEEN, ahead });
    expect(50.1 - reach).toBeCloseTo(low, 1);
    expect(50.1 + reach).toBeCloseTo(high, 1);
  });
});
