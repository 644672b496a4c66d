import { isWeekend, type SampleGrid, warmthOfSeason } from './sample-grid.js';
import { seededRandom } from './seeded-random.js';

const VAT_FACTOR = 1.05;
/** Networks, policy and supply in every unit, p/kWh without VAT. */
const FIXED_PENCE = 8;
/** Networks in the busy hours 16:30 to 19:30, p/kWh without VAT. */
const BUSY_HOURS_PENCE = 11;
/** Wholesale price at each local hour against the day's mean, p/kWh. */
const HOUR_PENCE = [
  -2, -2.4, -2.7, -2.8, -2.5, -1.6, 0, 1.6, 1.9, 1, 0.2, -0.4, -0.8, -1, -0.8, 0.1, 1.8, 3.6, 4, 3, 1.9, 0.9,
  -0.2, -1.2,
];

/**
 * An invented unit rate that follows an invented wholesale market: dear in the evening, cheap at night and in wind,
 * now and then below zero when wind and sun meet little demand.
 *
 * @param grid the half-hours
 * @param wind wind over the country in each half-hour, standard deviations from the mean
 * @param sunKwh solar yield of this home in each half-hour, kWh, as a measure of the country's
 * @returns p/kWh with VAT, to 0.01 p
 */
export function samplePricePence(grid: SampleGrid, wind: Float64Array, sunKwh: Float64Array): Float64Array {
  const random = seededRandom('prices of the sample home');
  let market = 0;
  return grid.startUtcMs.map((_, i) => {
    const serial = grid.daySerial[grid.day[i]!]!;
    const minute = grid.localMinute[i]!;
    market = 0.97 * market + 0.25 * random.normal();
    const glut = 1.4 * wind[i]! + 2.2 * sunKwh[i]! + (isWeekend(serial) ? 0.5 : 0);
    // The last plant to be paid sets the price: in a glut plants pay to stay on, in a lull the dearest run.
    const collapse = -7 * Math.max(0, glut - 3.2);
    const scarcity = 2.2 * Math.max(0, -1.6 - glut);
    const wholesale =
      9.6 -
      1.4 * warmthOfSeason(serial) +
      HOUR_PENCE[Math.floor(minute / 60)]! -
      1.9 * glut +
      collapse +
      scarcity +
      market;
    const busy = minute >= 990 && minute < 1170 ? BUSY_HOURS_PENCE : 0;
    return Math.round((wholesale + FIXED_PENCE + busy) * VAT_FACTOR * 100) / 100;
  });
}
