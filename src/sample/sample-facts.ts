import { CHANNELS, type Channel } from '../readings/channels.js';
import { SAMPLE_HOME } from './home.js';
import { sampleGasYear } from './sample-gas-year.js';
import { simulateHome } from './simulate-home.js';

type EnergyChannel = Exclude<Channel, 'outdoorC' | 'pricePence'>;

/** What is true of the sample home: what a right method must find in its files. */
interface SampleFacts {
  heatLossKwPerK: number;
  degreeDayBaseC: number;
  hotWaterKwhPerDay: number;
  boilerEfficiency: number;
  calorificValueMjPerM3: number;
  volumeCorrection: number;
  /** kWh over the year of readings. */
  yearKwh: Record<EnergyChannel | 'householdKwh', number>;
  /** Heat out ÷ electricity in over the year. */
  cop: number;
  /** Share of import between 01:30 and 05:00 local. */
  nightShareOfImport: number;
  /** Mean of the half-hourly price over the year, p/kWh with VAT. */
  meanPricePence: number;
  /** Half-hours of the year with a price below zero. */
  negativePriceHalfHours: number;
  /** Degree days (K·day) at the base, from daily means, in the year of readings. */
  degreeDays: number;
  /** The same in the year before, on gas. */
  degreeDaysOnGas: number;
  /** Heat delivered in the year before, kWh. */
  heatOnGasKwh: number;
  /** Gas burnt in the year before, kWh. */
  gasKwh: number;
}

/**
 * The truth about the sample home.
 *
 * @returns its constants and its totals; the same every time
 * @example sampleFacts().heatLossKwPerK // 0.21
 */
export function sampleFacts(): SampleFacts {
  const { grid, weather, readings, halfHoursInYear } = simulateHome();
  const { degreeDayBaseC, nightWindow, gas } = SAMPLE_HOME;
  const gasYear = sampleGasYear(weather);
  const total = (series: Float64Array): number =>
    series.subarray(0, halfHoursInYear).reduce((sum, value) => sum + value, 0);
  const energyChannels = CHANNELS.filter(
    (name): name is EnergyChannel => name !== 'outdoorC' && name !== 'pricePence',
  );
  const yearKwh = Object.fromEntries(
    [...energyChannels, 'householdKwh' as const].map((name) => [name, total(readings[name])]),
  ) as SampleFacts['yearKwh'];
  const nightImportKwh = total(
    readings.importKwh.map((kwh, i) => {
      const minute = grid.localMinute[i]!;
      return minute >= nightWindow.fromMinute && minute < nightWindow.untilMinute ? kwh : 0;
    }),
  );
  const coldness = (meanC: number): number => Math.max(0, degreeDayBaseC - meanC);
  let degreeDays = 0;
  for (let day = 0; grid.dayFirst[day]! < halfHoursInYear; day++) {
    const ofDay = readings.outdoorC.subarray(grid.dayFirst[day]!, grid.dayFirst[day + 1]!);
    degreeDays += coldness(ofDay.reduce((sum, c) => sum + c, 0) / ofDay.length);
  }
  return {
    heatLossKwPerK: SAMPLE_HOME.heatLossKwPerK,
    degreeDayBaseC,
    hotWaterKwhPerDay: SAMPLE_HOME.hotWaterKwhPerDay,
    boilerEfficiency: SAMPLE_HOME.boilerEfficiency,
    calorificValueMjPerM3: gas.calorificValueMjPerM3,
    volumeCorrection: gas.volumeCorrection,
    yearKwh,
    cop: yearKwh.heatOutputKwh / yearKwh.heatPumpKwh,
    nightShareOfImport: nightImportKwh / yearKwh.importKwh,
    meanPricePence: total(readings.pricePence) / halfHoursInYear,
    negativePriceHalfHours: total(readings.pricePence.map((pence) => (pence < 0 ? 1 : 0))),
    degreeDays,
    degreeDaysOnGas: gasYear.days.reduce((sum, { meanC }) => sum + coldness(meanC), 0),
    heatOnGasKwh: gasYear.heatKwh,
    gasKwh: gasYear.gasKwh,
  };
}
