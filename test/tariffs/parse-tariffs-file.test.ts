import { describe, expect, it } from 'vitest';
import { parseTariffsFile } from '../../src/tariffs/parse-tariffs-file.js';

const one = {
  name: 'Nights',
  windows: [{ from: '23:30', to: '05:30', days: 'Mon-Fri' }],
  ratePeriods: [
    { standingChargePencePerDay: 50, baseRatePence: 30, windowRatesPence: [9] },
    {
      validFrom: '2026-04-01',
      standingChargePencePerDay: 52,
      baseRatePence: 31,
      windowRatesPence: [10],
      exportRatePence: 15,
    },
  ],
};
const file = (...tariffs: unknown[]) => JSON.stringify({ tariffs });

describe('a file of tariffs', () => {
  it('is read, with local clock and VAT included unless it says otherwise', () => {
    const [tariff] = parseTariffsFile(file(one), 'tariffs.json');
    expect(tariff).toMatchObject({
      name: 'Nights',
      clock: 'local',
      includesVat: true,
      halfHourlyPriced: false,
      priceIncludesVat: true,
    });
    expect(tariff?.windows[0]).toMatchObject({ fromMinutes: 1410, toMinutes: 330 });
    expect(tariff?.ratePeriods.map((period) => [period.validFromSerial, period.exportRatePence])).toEqual([
      [0, 0],
      [46_113, 15],
    ]);
  });

  it.each<[string, string, RegExp]>([
    ['no JSON', '{"tariffs": [', /^tariffs\.json, line 1: this is not JSON/],
    ['another shape', '[]', /^tariffs\.json: .*and a group \{ … \} belongs here/],
    [
      'a rate that is text',
      file({ ...one, ratePeriods: [{ ...one.ratePeriods[0], baseRatePence: '30p' }] }),
      /^tariffs\.json, tariffs\[0\]\.ratePeriods\[0\]\.baseRatePence: /,
    ],
    ['a misspelt name', file({ ...one, exitFee: 50 }), /^tariffs\.json, tariffs\[0\]: .*exitFee/],
    [
      'a time of no day',
      file({ ...one, windows: [{ from: '25:00', to: '05:00' }] }),
      /tariffs\[0\]\.windows\[0\]\.from: "25:00" is not a time/,
    ],
    [
      'an impossible date',
      file({ ...one, ratePeriods: [{ ...one.ratePeriods[1], validFrom: '2026-02-30' }] }),
      /ratePeriods\[0\]\.validFrom: "2026-02-30" is not a date/,
    ],
    [
      'unknown days',
      file({ ...one, windows: [{ from: '01:00', to: '05:00', days: 'Mon-Thu, Sat' }] }),
      /windows\[0\]\.days: the days "Mon-Thu, Sat" are not understood/,
    ],
    [
      'a window off the half-hour',
      file(one, { ...one, name: 'B', windows: [{ from: '01:10', to: '05:00' }] }),
      /^tariffs\.json, tariffs\[1\]\.windows\[0\]\.from: .*01:10 is off the half-hour/,
    ],
    [
      'a missing rate',
      file({ ...one, ratePeriods: [{ ...one.ratePeriods[0], windowRatesPence: [] }] }),
      /ratePeriods\[0\]\.windowRatesPence\[0\]: the rate of the window 23:30–05:30 \(Mon-Fri\) is missing/,
    ],
    ['one name twice', file(one, one), /^tariffs\.json, tariffs\[1\]\.name: two tariffs are called "Nights"/],
  ])('is refused: %s', (_, json, message) => {
    expect(() => parseTariffsFile(json, 'tariffs.json')).toThrow(message);
  });
});
