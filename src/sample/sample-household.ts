import { isWeekend, type SampleGrid, warmthOfSeason } from './sample-grid.js';
import { seededRandom } from './seeded-random.js';

/** Mean load at each local hour, relative to each other: out at work by day on weekdays, at home at weekends. */
const WEEKDAY = [
  3, 2.6, 2.5, 2.5, 2.5, 2.8, 4.5, 8, 7.5, 5, 4.2, 4, 4.4, 4.2, 4, 4.8, 7.2, 11, 12, 11, 9.5, 8.5, 7, 4.6,
];
const WEEKEND = [
  3.4, 2.7, 2.5, 2.5, 2.5, 2.6, 3.2, 5, 8, 9, 8, 7.5, 9, 8.2, 6.8, 6.5, 8, 10.5, 11.5, 10.5, 9, 8.5, 7.4, 5.2,
];
/** What goes on when nobody is in: fridge, freezer, router. */
const EMPTY_HOUSE = 2.3;

/**
 * Relative use of the household (all but heat pump, car and battery), before it is scaled to kWh.
 *
 * @param grid the half-hours
 * @param isAway whether the family is away on a local day, given its serial
 * @returns relative use in each half-hour, above 0
 */
export function sampleHouseholdShape(grid: SampleGrid, isAway: (serial: number) => boolean): Float64Array {
  const random = seededRandom('household of the sample home');
  // Cooking and washing spill from one half-hour into the next.
  let lively = 0;
  return grid.startUtcMs.map((_, i) => {
    const serial = grid.daySerial[grid.day[i]!]!;
    const hour = Math.floor(grid.localMinute[i]! / 60);
    lively = 0.5 * lively + 0.87 * random.normal();
    const burst = random.uniform();
    if (isAway(serial)) return EMPTY_HOUSE * (0.9 + 0.2 * burst);
    const mean = (isWeekend(serial) ? WEEKEND : WEEKDAY)[hour]!;
    const evening = hour >= 16 && hour < 23 ? 1 - 0.16 * warmthOfSeason(serial) : 1;
    const active = Math.max(0, mean * evening - EMPTY_HOUSE);
    const appliance = burst < 0.02 && active > 1 ? 12 : 0;
    return EMPTY_HOUSE * (0.92 + 0.16 * burst) + active * Math.exp(0.55 * lively - 0.15) + appliance;
  });
}
