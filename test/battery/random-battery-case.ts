import type { Battery, BatteryInput } from '../../src/battery/battery.js';
import { seededRandom } from '../../src/sample/seeded-random.js';

/** A battery and what it meets. */
export interface BatteryCase {
  input: BatteryInput;
  battery: Battery;
}

/**
 * An invented home of any kind: flat, windowed or half-hourly prices, now and then negative; export below or above the
 * unit rate; with and without sun and car; any permission; small and large powers.
 *
 * @param seed the same seed gives the same home
 * @param halfHours how long
 */
export function randomBatteryCase(seed: number, halfHours: number): BatteryCase {
  const random = seededRandom(`home ${seed}`).uniform;
  const chance = (share: number): boolean => random() < share;
  const between = (low: number, high: number): number => low + (high - low) * random();
  const pick = <T>(...choices: T[]): T => choices[Math.floor(random() * choices.length)]!;

  const usableKwh = pick(0.5, 2, 5, 9.5, 13.5, between(0, 20));
  const reserveKwh = chance(0.5) ? 0 : between(0, usableKwh * 0.5);
  const battery: Battery = {
    usableKwh,
    chargeKw: pick(0.8, 2.5, 5, between(0.3, 8)),
    dischargeKw: pick(0.8, 2.5, 5, between(0.3, 8)),
    chargeEfficiency: pick(1, 0.95, 0.9, between(0.6, 1)),
    dischargeEfficiency: pick(1, 0.95, 0.9, between(0.6, 1)),
    reserveKwh,
    startKwh: chance(0.4) ? reserveKwh : between(reserveKwh, usableKwh),
    wearPencePerKwh: pick(0, 0, 1.5, 5, between(0, 20)),
    chargeFromGrid: chance(0.8),
    mayFeedCar: chance(0.6),
    mayExport: chance(0.4),
  };

  const kind = pick('flat', 'windows', 'halfHourly', 'halfHourly') as string;
  const negative = chance(0.5);
  const night = between(5, 15);
  const day = between(20, 35);
  const peak = chance(0.5) ? day : between(35, 50);
  const exportRate = pick(0, 4, 15, between(0, 40));
  const exportFollows = chance(0.3);
  const sun = chance(0.5) ? between(0.2, 2.5) : 0;
  const hasCar = chance(0.5);
  // Meters that count both ways within a half-hour.
  const bothWays = chance(0.3);

  const zeros = (): Float64Array<ArrayBuffer> => new Float64Array(halfHours);
  const input = {
    importKwh: zeros(),
    exportKwh: zeros(),
    carKwh: zeros(),
    unitRatePence: zeros(),
    exportRatePence: zeros(),
    dayIndex: new Int32Array(halfHours),
  };
  const round = (value: number): number => Math.round(value * 1000) / 1000;
  for (let i = 0; i < halfHours; i++) {
    const slot = i % 48;
    input.dayIndex[i] = Math.floor(i / 48);
    const house = chance(0.05) ? 0 : between(0.05, 0.6) + (chance(0.1) ? between(0, 3) : 0);
    const car = hasCar && slot < 8 && Math.floor(i / 48) % 3 === 0 ? 3.5 : 0;
    const solar = Math.max(0, sun * Math.sin(((slot - 14) / 20) * Math.PI)) * between(0.2, 1);
    const gap = chance(0.01);
    input.carKwh[i] = gap ? 0 : car;
    input.importKwh[i] = gap ? 0 : round(Math.max(0, house - solar)) + car;
    input.exportKwh[i] = gap ? 0 : round(Math.max(0, solar - house));
    if (bothWays && !gap && chance(0.3)) {
      input.importKwh[i]! += 0.1;
      input.exportKwh[i]! += 0.08;
    }
    const windowed = slot < 10 ? night : slot >= 32 && slot < 38 ? peak : day;
    const priced = 20 + 10 * Math.sin(((slot - 20) / 24) * Math.PI) + between(-8, 8);
    input.unitRatePence[i] =
      kind === 'flat'
        ? day
        : kind === 'windows'
          ? windowed
          : round(negative && chance(0.1) ? -priced / 4 : priced);
    input.exportRatePence[i] = exportFollows ? round(input.unitRatePence[i]! * 0.9 - 1) : exportRate;
  }
  return { input, battery };
}
