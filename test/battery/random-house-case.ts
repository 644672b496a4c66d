import type { HouseUse } from '../../src/battery/stored-energy-cost.js';
import { seededRandom } from '../../src/sample/seeded-random.js';
import { type BatteryCase, randomBatteryCase } from './random-battery-case.js';

/**
 * A random home with its users; now and then the meters of heat pump and car show more than the house's.
 *
 * @param seed the same seed gives the same home
 * @param halfHours how long
 */
export function randomHouseCase(seed: number, halfHours: number): BatteryCase & { use: HouseUse } {
  const { input, battery } = randomBatteryCase(seed, halfHours);
  const random = seededRandom(`users ${seed}`).uniform;
  const demandKwh = input.importKwh.map((kwh) => kwh + (random() < 0.3 ? random() : 0));
  const carKwh = input.carKwh.map((kwh) => kwh * (random() < 0.1 ? 1.02 : 1));
  const heatPumpKwh = demandKwh.map((kwh, i) => Math.max(0, kwh - carKwh[i]!) * random() * 1.05);
  return { input, battery, use: { demandKwh, heatPumpKwh, carKwh } };
}
