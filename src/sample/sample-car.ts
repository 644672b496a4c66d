import { SAMPLE_HOME } from './home.js';
import { isWeekend, type SampleGrid, warmthOfSeason } from './sample-grid.js';
import { seededRandom } from './seeded-random.js';

const KWH_PER_HALF_HOUR = SAMPLE_HOME.carKw / 2;
const { fromMinute, untilMinute } = SAMPLE_HOME.nightWindow;
/** Share of the days on which it charges at tea-time, 17:30 to 19:00: what a timer could move. */
const TEA_TIME_SHARE = 0.12;
const TEA_TIME = { fromMinute: 1050, untilMinute: 1140 };

/**
 * The car on the charger: it is plugged in on the nights when it is low, and fills in the night window. On some
 * days somebody plugs it in at tea-time and lets it charge at once.
 *
 * @param grid the half-hours
 * @param isAway whether the family (and the car) is away on a local day, given its serial
 * @returns kWh into the car in each half-hour
 */
export function sampleCarKwh(grid: SampleGrid, isAway: (serial: number) => boolean): Float64Array {
  const random = seededRandom('car of the sample home');
  const kwh = new Float64Array(grid.startUtcMs.length);
  let missingKwh = 6;
  for (let day = 0; day < grid.daySerial.length; day++) {
    const serial = grid.daySerial[day]!;
    const [eagerness, journey, detour, topUp] = [
      random.uniform(),
      random.uniform(),
      random.uniform(),
      random.uniform(),
    ];
    const away = isAway(serial);
    const night = !away && (missingKwh > 17 || (missingKwh > 7 && eagerness < 0.4));
    const teaTime = !away && topUp < TEA_TIME_SHARE;
    for (let i = grid.dayFirst[day]!; i < grid.dayFirst[day + 1]!; i++) {
      const minute = grid.localMinute[i]!;
      const inNight = night && minute >= fromMinute && minute < untilMinute;
      const atTeaTime = teaTime && minute >= TEA_TIME.fromMinute && minute < TEA_TIME.untilMinute;
      if (!inNight && !atTeaTime) continue;
      // The charger draws its rated power but for the voltage of the hour.
      const drawn = Math.min(missingKwh, KWH_PER_HALF_HOUR * (0.985 + 0.02 * random.uniform()));
      kwh[i] = drawn;
      missingKwh -= drawn;
    }
    if (away) continue;
    // Colder days take more for the same road; some weekends go far.
    const perRoad = 1 - 0.14 * warmthOfSeason(serial);
    const road = isWeekend(serial) ? 3 + 8 * journey + (detour < 0.12 ? 22 : 0) : 4 + 6 * journey;
    missingKwh += road * perRoad;
  }
  return kwh;
}
