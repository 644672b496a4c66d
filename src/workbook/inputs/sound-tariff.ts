import { z } from 'zod';
import { ratePeriodParts, tariffParts, windowSchema } from '../../tariffs/parse-tariffs-file.js';
import type { RateWindow, Tariff } from '../../tariffs/tariff.js';
import type { SoundParts } from './sound-parts.js';

/** Stands in for a window that could not be read: it has no times and holds on no day, so that it meets no other. */
const NO_WINDOW: RateWindow = {
  fromMinutes: 1440,
  toMinutes: 1440,
  days: [false, false, false, false, false, false, false],
};

/**
 * A tariff of the starting inputs, each part that does not follow its schema stood in for, so that the others can be looked at.
 *
 * @param parts notes what was stood in for
 * @param value what the file holds
 * @param path where it stands (`tariffs[1]`)
 * @returns the tariff, its windows and sets of rates in their places
 */
export function soundTariff(parts: SoundParts, value: unknown, path: string): Tariff {
  const given = parts.entriesOf(value, path);
  const { name, clock, includesVat, halfHourlyPriced, priceIncludesVat, exitFeePounds } = parts.takeGroup(
    tariffParts.omit({ windows: true, ratePeriods: true }),
    given,
    path,
    { name: path, clock: 'local', includesVat: true, halfHourlyPriced: false, exitFeePounds: 0 },
  );
  return {
    name,
    clock,
    includesVat,
    halfHourlyPriced,
    priceIncludesVat: priceIncludesVat ?? includesVat,
    exitFeePounds,
    windows: parts
      .listOf(given.windows === undefined ? [] : given.windows, `${path}.windows`)
      .map((window, k) => parts.take(windowSchema, window, `${path}.windows[${k}]`, NO_WINDOW)),
    ratePeriods: parts.listOf(given.ratePeriods, `${path}.ratePeriods`).map((period, p) => {
      const at = `${path}.ratePeriods[${p}]`;
      const numbers = ratePeriodParts.omit({ windowRatesPence: true });
      const { validFrom, ...sound } = parts.takeGroup(numbers, period, at, {
        validFrom: 0,
        standingChargePencePerDay: 0,
        baseRatePence: 0,
        exportRatePence: 0,
      });
      const { windowRatesPence: rates } = parts.entriesOf(period, at);
      return {
        ...sound,
        validFromSerial: validFrom,
        windowRatesPence: parts
          .listOf(rates === undefined ? [] : rates, `${at}.windowRatesPence`)
          .map((rate, k) => parts.take(z.number(), rate, `${at}.windowRatesPence[${k}]`, 0)),
      };
    }),
  };
}
