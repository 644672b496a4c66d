import { describe, expect, it } from 'vitest';
import { EVERY_DAY, type Tariff } from '../../../src/tariffs/tariff.js';
import { type Case, randomRows, workingsCase } from './workings-case.js';

/** 20 October 2026, and a change of rates four days later. */
const FIRST_MS = Date.UTC(2026, 9, 19, 23);
const CHANGE_SERIAL = 46_319;
const DAYS = 8;

const set = (validFromSerial: number, [base, night, peak]: readonly [number, number, number]) => ({
  validFromSerial,
  standingChargePencePerDay: 50,
  baseRatePence: base,
  windowRatesPence: [night, peak],
  exportRatePence: 4,
});
type Three = readonly [base: number, night: number, peak: number];
const three = (...sets: readonly Three[]): Tariff => ({
  name: 'Three rates',
  clock: 'local',
  includesVat: true,
  halfHourlyPriced: false,
  priceIncludesVat: true,
  exitFeePounds: 0,
  windows: [
    { fromMinutes: 0, toMinutes: 300, days: EVERY_DAY },
    { fromMinutes: 960, toMinutes: 1140, days: EVERY_DAY },
  ],
  ratePeriods: sets.map((rates, p) => set(p === 0 ? 0 : CHANGE_SERIAL, rates)),
});

const rows = randomRows(7, 'Europe/London', FIRST_MS, DAYS);
const ofTariff = (found: Case) => {
  const tariff = found.workings.tariffs[0];
  if (tariff === undefined) throw new Error('no tariff');
  return tariff;
};
const isKnown = (found: Case): unknown => found.at(ofTariff(found).rates.latest.isKnownFrom, 0);
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe('what earlier rates say of the latest, with three rates', () => {
  const FIRST: Three = [26, 15, 38];

  it.each<[string, Three]>([
    ['all rise by the same', [28, 17, 40]],
    ['all rise by the same share', [28.6, 16.5, 41.8]],
    ['none changes', [26, 15, 38]],
  ])('is exact where %s', (_, latest) => {
    const changed = workingsCase(rows, [three(FIRST, latest)]);
    expect(isKnown(changed)).toBe(1);
    const { energy, latestPence } = ofTariff(changed);
    const allAlong = workingsCase(rows, [three(latest)]);
    expect(sum(changed.numbers(energy.energyPence)) + sum(changed.numbers(latestPence))).toBeCloseTo(
      sum(allAlong.numbers(ofTariff(allAlong).energy.energyPence)),
      6,
    );
  });

  it.each<[string, Three]>([
    ['the middle rate alone changes', [28, 15, 38]],
    ['two rates change places', [15, 26, 38]],
    ['lowest and highest change places', [26, 38, 15]],
    ['one rate alone stays off the others’ line', [26, 16, 39]],
  ])('is not told where %s', (_, latest) => {
    expect(isKnown(workingsCase(rows, [three(FIRST, latest)]))).toBe(0);
  });
});
