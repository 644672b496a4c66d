import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EVERY_DAY } from '../../src/tariffs/tariff.js';
import { formatDays, parseDays } from '../../src/tariffs/weekdays.js';
import { weekdaysArbitrary } from './arbitraries.js';

describe('days of a window', () => {
  it('reads blank and Every day as all seven', () => {
    expect(parseDays('')).toEqual(EVERY_DAY);
    expect(parseDays('every  DAY')).toEqual(EVERY_DAY);
  });

  it.each([
    ['Mon-Fri', [true, true, true, true, true, false, false]],
    ['sat-sun', [false, false, false, false, false, true, true]],
    ['Mon, Wed, Sat', [true, false, true, false, false, true, false]],
    ['Mon-Sat', [true, true, true, true, true, true, false]],
    ['Fri – Monday', [true, false, false, false, true, true, true]],
    ['Friday', [false, false, false, false, true, false, false]],
    ['Tuesday, Thursday', [false, true, false, true, false, false, false]],
    ['Wed-Wed', [false, false, true, false, false, false, false]],
    ['sun mon', [true, false, false, false, false, false, true]],
  ])('reads %s', (text, flags) => {
    expect(parseDays(text)).toEqual(flags);
  });

  it.each(['Mon-', 'Mon-Tue-Wed', 'Mon-Thu, Sat', 'workdays', ',', 'Mon,Xyz'])('refuses %s', (text) => {
    expect(() => parseDays(text)).toThrow(/the days ".*". *|name no day/);
    expect(() => parseDays(text)).toThrow(/[Ll]ist the days/);
  });

  it('reads back what it writes', () => {
    fc.assert(
      fc.property(weekdaysArbitrary, (days) => {
        expect(parseDays(formatDays(days))).toEqual(days);
      }),
      { seed: 1 },
    );
  });
});
