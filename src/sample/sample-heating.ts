import { SAMPLE_HOME } from './home.js';
import type { RandomStream } from './seeded-random.js';

const HOURS_PER_DAY = 24;
/** Share of the ideal (Carnot) COP that the machine reaches. */
const SHARE_OF_IDEAL_COP = 0.44;
/** Controls and circulation pump, kWh a half-hour, while it stands by. */
const STANDBY_KWH = 0.004;
const HOT_WATER_FLOW_C = 52;
/** Hot water runs: local minute at which a half-hour starts → share of the day's hot water. */
const HOT_WATER_RUNS: ReadonlyMap<number, number> = new Map([
  [270, 0.3],
  [300, 0.25],
  [810, 0.25],
  [840, 0.2],
]);

/**
 * Heat that the house needs on a day for its rooms. The walls even out the hours, so the day's mean temperature
 * decides; wind, sun and open windows add a few per cent either way.
 *
 * @param meanOutdoorC the day's mean outdoor temperature, °C
 * @param random stream for the day's few per cent
 * @returns kWh of heat in the day
 */
export function sampleSpaceHeatKwh(meanOutdoorC: number, random: RandomStream): number {
  const degreeDays = Math.max(0, SAMPLE_HOME.degreeDayBaseC - meanOutdoorC);
  const luck = Math.max(-0.15, Math.min(0.15, 0.06 * random.normal()));
  return SAMPLE_HOME.heatLossKwPerK * HOURS_PER_DAY * degreeDays * (1 + luck);
}

/**
 * One day of the heat pump.
 *
 * @param spaceHeatKwh heat for the rooms in the day, kWh
 * @param outdoorC outdoor temperature in each half-hour of the day, °C
 * @param localMinute local minutes after midnight at the start of each half-hour
 * @returns electricity and heat in each half-hour, kWh
 */
export function sampleHeatPumpDay(
  spaceHeatKwh: number,
  outdoorC: Float64Array,
  localMinute: Int16Array,
): { electricityKwh: Float64Array; heatKwh: Float64Array } {
  const weight = outdoorC.map((c, i) => Math.max(1, 17 - c) * paceAt(localMinute[i]!));
  const weightOfDay = weight.reduce((sum, w) => sum + w, 0);
  const electricityKwh = new Float64Array(outdoorC.length);
  const heatKwh = new Float64Array(outdoorC.length);
  for (let i = 0; i < outdoorC.length; i++) {
    const space = (spaceHeatKwh * weight[i]!) / weightOfDay;
    const water = (HOT_WATER_RUNS.get(localMinute[i]!) ?? 0) * SAMPLE_HOME.hotWaterKwhPerDay;
    const c = outdoorC[i]!;
    heatKwh[i] = space + water;
    electricityKwh[i] = STANDBY_KWH + space / copAt(flowC(c), c) + water / copAt(HOT_WATER_FLOW_C, c);
  }
  return { electricityKwh, heatKwh };
}

/** Slower at night, brisker before breakfast. */
function paceAt(localMinute: number): number {
  if (localMinute >= 1380 || localMinute < 270) return 0.6;
  return localMinute < 540 ? 1.25 : 1;
}

/** Weather compensation: warmer water in the radiators the colder it is outside, °C. */
function flowC(outdoorC: number): number {
  return Math.max(30, Math.min(50, 32 + 0.75 * (15 - outdoorC)));
}

function copAt(flow: number, outdoorC: number): number {
  const ideal = (flow + 273.15) / Math.max(18, flow - outdoorC);
  // In damp cold the outdoor unit ices up and takes heat back to thaw.
  const icing = outdoorC > -3 && outdoorC < 4 ? 0.94 : 1;
  return SHARE_OF_IDEAL_COP * ideal * icing;
}
