import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { breakEvenOffPeakShare } from '../../src/break-even/break-even-off-peak-share.js';
import { breakEvenRate } from '../../src/break-even/break-even-rate.js';

const amount = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('the off-peak share at which a two-rate tariff breaks even', () => {
  it('makes both tariffs cost the same', () => {
    fc.assert(
      fc.property(
        amount(1, 60),
        amount(1, 30),
        amount(1, 40),
        amount(-40, 40),
        amount(1, 50),
        (single, offPeak, spread, extra, perDay) => {
          const peak = offPeak + spread;
          const share = breakEvenOffPeakShare({
            singleRatePence: single,
            peakRatePence: peak,
            offPeakRatePence: offPeak,
            extraStandingPencePerDay: extra,
            kwhPerDay: perDay,
          });
          const twoRate = perDay * (share * offPeak + (1 - share) * peak) + extra;
          expect(twoRate / (perDay * single)).toBeCloseTo(1, 9);
        },
      ),
      { seed: 9 },
    );
  });

  it('needs an off-peak rate under the peak rate', () => {
    const rates = {
      singleRatePence: 27,
      peakRatePence: 9,
      offPeakRatePence: 30,
      extraStandingPencePerDay: 0,
      kwhPerDay: 8,
    };
    expect(() => breakEvenOffPeakShare(rates)).toThrow('offPeakRatePence is not under peakRatePence');
    expect(() => breakEvenOffPeakShare({ ...rates, peakRatePence: 31, kwhPerDay: 0 })).toThrow(
      'kwhPerDay is 0',
    );
  });
});

describe('the rate at which a total meets another', () => {
  it('makes the totals equal', () => {
    fc.assert(
      fc.property(
        amount(1, 60),
        amount(1, 5000),
        amount(0, 500),
        amount(0, 3000),
        (rate, kwh, rest, other) => {
          const total = (at: number) => rest + (kwh * at) / 100;
          expect(total(breakEvenRate(rate, kwh, total(rate), other))).toBeCloseTo(other, 8);
        },
      ),
      { seed: 10 },
    );
  });
});
