import { isoDateToSerial, serialToIsoDate } from '../time/serial.js';
import { SAMPLE_HOME } from './home.js';
import { sampleGrid } from './sample-grid.js';
import { sampleSpaceHeatKwh } from './sample-heating.js';
import type { SampleWeather } from './sample-weather.js';
import { seededRandom } from './seeded-random.js';

/** The last year on gas, before the heat pump. */
interface SampleGasYear {
  /** Readings of the gas meter: on the first of each month, the last one on the day of the change. */
  readings: { isoDate: string; registerM3: number }[];
  /** Mean outdoor temperature of each local day, °C to 0.1. */
  days: { isoDate: string; meanC: number }[];
  /** Heat delivered to rooms and taps in the year, kWh. */
  heatKwh: number;
  /** Gas burnt in the year, kWh. */
  gasKwh: number;
}

/**
 * The same house and hot water in the year before, heated by the boiler.
 *
 * @param weather weather that covers the year on gas
 * @returns register readings, daily temperatures and the truth behind them
 */
export function sampleGasYear(weather: SampleWeather): SampleGasYear {
  const { firstDayOnGas, firstDay, hotWaterKwhPerDay, boilerEfficiency, gas } = SAMPLE_HOME;
  const kwhPerM3 = (gas.volumeCorrection * gas.calorificValueMjPerM3) / 3.6;
  const grid = sampleGrid(firstDayOnGas, firstDay);
  const random = seededRandom('wind and sun on the walls, the year before');
  const readings: SampleGasYear['readings'] = [];
  const days: SampleGasYear['days'] = [];
  let heatKwh = 0;
  const noteReading = (isoDate: string): void => {
    const burntM3 = heatKwh / boilerEfficiency / kwhPerM3;
    readings.push({ isoDate, registerM3: Math.round((gas.registerStartM3 + burntM3) * 10) / 10 });
  };
  for (let day = 0; day < grid.daySerial.length; day++) {
    const isoDate = serialToIsoDate(grid.daySerial[day]!);
    if (isoDate.endsWith('-01')) noteReading(isoDate);
    const hours = grid.startUtcMs
      .subarray(grid.dayFirst[day]!, grid.dayFirst[day + 1]!)
      .map((utcMs) => weather.outdoorC[Math.floor((utcMs - weather.firstUtcMs) / 3_600_000)]!);
    const mean = hours.reduce((sum, c) => sum + c, 0) / hours.length;
    days.push({ isoDate, meanC: Math.round(mean * 10) / 10 });
    heatKwh += sampleSpaceHeatKwh(mean, random) + hotWaterKwhPerDay;
  }
  noteReading(serialToIsoDate(isoDateToSerial(firstDay)));
  return { readings, days, heatKwh, gasKwh: heatKwh / boilerEfficiency };
}
