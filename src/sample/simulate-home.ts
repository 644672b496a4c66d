import type { Channel } from '../readings/channels.js';
import { isoDateToSerial } from '../time/serial.js';
import { SAMPLE_HOME } from './home.js';
import { sampleBatteryWh } from './sample-battery.js';
import { sampleCarKwh } from './sample-car.js';
import { type SampleGrid, sampleGrid } from './sample-grid.js';
import { sampleHeatPumpDay, sampleSpaceHeatKwh } from './sample-heating.js';
import { sampleHouseholdShape } from './sample-household.js';
import { samplePricePence } from './sample-prices.js';
import { sampleSolarKwh } from './sample-solar.js';
import { type SampleWeather, sampleWeather } from './sample-weather.js';
import { seededRandom } from './seeded-random.js';

/**
 * Readings of the sample home, one value a half-hour in each array. Energies in kWh to 0.001, `outdoorC` in °C to 0.1,
 * `pricePence` in p/kWh with VAT to 0.01.
 */
export interface SampleYear extends Record<Channel, Float64Array> {
  timeZone: string;
  /** Start of each half-hour, epoch ms. */
  startUtcMs: Float64Array;
  /** What the house used but for heat pump, car and battery. No meter reads it, so it is in no file. */
  householdKwh: Float64Array;
}

/** The sample home's readings over the year and the extra month, with the calendar and the weather behind them. */
export interface SimulatedHome {
  grid: SampleGrid;
  weather: SampleWeather;
  readings: SampleYear;
  /** Half-hours of the year; those of the extra month follow. */
  halfHoursInYear: number;
}

/**
 * Lets the sample home live through its year and the month after. The same numbers every time.
 *
 * @returns readings with the calendar and the weather behind them
 */
export function simulateHome(): SimulatedHome {
  const { timeZone, firstDay, dayAfterLast, dayAfterExtraMonth, firstDayOnGas } = SAMPLE_HOME;
  const grid = sampleGrid(firstDay, dayAfterExtraMonth);
  const count = grid.startUtcMs.length;
  const halfHoursInYear = grid.dayFirst[isoDateToSerial(dayAfterLast) - grid.daySerial[0]!]!;
  const weatherFromUtcMs = sampleGrid(firstDayOnGas, firstDay).startUtcMs[0]!;
  const weather = sampleWeather(weatherFromUtcMs, grid.startUtcMs[count - 1]! + 1_800_000);
  const atHour = (series: Float64Array): Float64Array =>
    grid.startUtcMs.map((utcMs) => series[Math.floor((utcMs - weather.firstUtcMs) / 3_600_000)]!);
  const outdoorC = atHour(weather.outdoorC);
  const clearness = atHour(weather.clearness);

  const isAway = within(SAMPLE_HOME.holiday);
  const shape = sampleHouseholdShape(grid, isAway);
  const shapeOfYear = shape.subarray(0, halfHoursInYear).reduce((sum, s) => sum + s, 0);
  const household = wattHours(shape.map((s) => (s * SAMPLE_HOME.householdKwhPerYear) / shapeOfYear));
  const car = wattHours(sampleCarKwh(grid, isAway));
  const passingClouds = seededRandom('passing clouds');
  const solar = wattHours(
    clearness.map((clear, i) => {
      const flicker = Math.max(0, Math.min(1, clear * (1 + 0.22 * passingClouds.normal())));
      return sampleSolarKwh(grid.startUtcMs[i]!, flicker);
    }),
  );
  const { heatPump, heatOutput } = heating(grid, outdoorC);
  const house = household.map((wh, i) => wh + heatPump[i]!);
  const battery = sampleBatteryWh(grid, house, car, solar, within(SAMPLE_HOME.batteryOutage));

  // The grid closes the balance in whole Wh. Within a half-hour near balance energy flows both ways, and a meter counts each.
  const bothWays = seededRandom('meter of the sample home');
  const imported = new Int32Array(count);
  const exported = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    const net = house[i]! + car[i]! + battery.inWh[i]! - battery.outWh[i]! - solar[i]!;
    const swing = bothWays.uniform();
    const both = solar[i]! > 0 && Math.abs(net) < 250 ? Math.floor(swing * Math.min(40, solar[i]! / 8)) : 0;
    imported[i] = Math.max(0, net) + both;
    exported[i] = Math.max(0, -net) + both;
  }

  const readings: SampleYear = {
    timeZone,
    startUtcMs: grid.startUtcMs,
    importKwh: kwh(imported),
    exportKwh: kwh(exported),
    solarKwh: kwh(solar),
    batteryInKwh: kwh(battery.inWh),
    batteryOutKwh: kwh(battery.outWh),
    heatPumpKwh: kwh(heatPump),
    heatOutputKwh: kwh(heatOutput),
    carKwh: kwh(car),
    outdoorC,
    pricePence: samplePricePence(grid, atHour(weather.wind), kwh(solar)),
    householdKwh: kwh(household),
  };
  return { grid, weather, readings, halfHoursInYear };
}

function heating(grid: SampleGrid, outdoorC: Float64Array): { heatPump: Int32Array; heatOutput: Int32Array } {
  const random = seededRandom('wind and sun on the walls');
  const electricityKwh = new Float64Array(outdoorC.length);
  const heatKwh = new Float64Array(outdoorC.length);
  for (let day = 0; day < grid.daySerial.length; day++) {
    const [from, until] = [grid.dayFirst[day]!, grid.dayFirst[day + 1]!];
    const ofDay = outdoorC.subarray(from, until);
    const mean = ofDay.reduce((sum, c) => sum + c, 0) / ofDay.length;
    const spaceHeatKwh = sampleSpaceHeatKwh(mean, random);
    const run = sampleHeatPumpDay(spaceHeatKwh, ofDay, grid.localMinute.subarray(from, until));
    electricityKwh.set(run.electricityKwh, from);
    heatKwh.set(run.heatKwh, from);
  }
  return { heatPump: wattHours(electricityKwh), heatOutput: wattHours(heatKwh) };
}

function within(span: { from: string; until: string }): (serial: number) => boolean {
  const from = isoDateToSerial(span.from);
  const until = isoDateToSerial(span.until);
  return (serial) => serial >= from && serial < until;
}

function wattHours(kwhValues: Float64Array): Int32Array {
  return Int32Array.from(kwhValues, (value) => Math.round(value * 1000));
}

function kwh(wh: Int32Array): Float64Array {
  return Float64Array.from(wh, (value) => value / 1000);
}
