import { describe, expect, it } from 'vitest';
import { compareHeating } from '../../src/heating/compare-heating.js';
import { degreeDaysByMonth } from '../../src/heating/degree-days-by-month.js';
import { gasVolumeToEnergy } from '../../src/heating/gas-volume-to-energy.js';
import { SAMPLE_HOME } from '../../src/sample/home.js';
import { sampleGasYear } from '../../src/sample/sample-gas-year.js';
import { simulateHome } from '../../src/sample/simulate-home.js';
import { isoDateToSerial, serialToIsoDate } from '../../src/time/serial.js';
import { KNOWN_RATES } from './known-rates.js';

describe('the sample home: its meters against what is true of it', () => {
  const { grid, weather, readings, halfHoursInYear } = simulateHome();
  const { degreeDayBaseC, gas, boilerEfficiency, heatLossKwPerK, hotWaterKwhPerDay } = SAMPLE_HOME;
  const gasYear = sampleGasYear(weather);

  const gasWeather = degreeDaysByMonth(
    gasYear.days.map(({ isoDate, meanC }) => ({ serialDay: isoDateToSerial(isoDate), meanC })),
    degreeDayBaseC,
  );
  const gasMonths = gasWeather.map((month, i) => ({
    gasDays: month.daysWithTemperature,
    gasDegreeDays: month.degreeDays,
    gasKwh: gasVolumeToEnergy(
      gasYear.readings[i + 1]!.registerM3 - gasYear.readings[i]!.registerM3,
      'm3',
      gas.calorificValueMjPerM3,
      gas.volumeCorrection,
    ),
  }));

  const days = Array.from(grid.daySerial, (serial, day) => {
    const [from, until] = [grid.dayFirst[day]!, grid.dayFirst[day + 1]!];
    const sum = (series: Float64Array): number => series.subarray(from, until).reduce((a, b) => a + b, 0);
    return {
      serialDay: serial,
      month: serialToIsoDate(serial).slice(0, 7),
      meanC: sum(readings.outdoorC) / (until - from),
      electricityKwh: sum(readings.heatPumpKwh),
      heatKwh: sum(readings.heatOutputKwh),
    };
  }).filter((_, day) => grid.dayFirst[day]! < halfHoursInYear);
  const months = degreeDaysByMonth(days, degreeDayBaseC).map((weatherOfMonth) => {
    const own = days.filter(({ month }) => month === serialToIsoDate(weatherOfMonth.monthSerial).slice(0, 7));
    const sum = (key: 'electricityKwh' | 'heatKwh'): number => own.reduce((t, day) => t + day[key], 0);
    return {
      ...weatherOfMonth,
      days: own.length,
      electricityKwh: sum('electricityKwh'),
      heatKwh: sum('heatKwh'),
    };
  });
  const settings = { ...KNOWN_RATES, boilerEfficiency, hotWaterKwhPerDay, yearDegreeDays: 2000 };
  const { gasFit, totals, year } = compareHeating({ settings, gasMonths, months });

  it('last year’s gas tells its heat loss within three standard errors, and its hot water within a tenth', () => {
    const truth = (heatLossKwPerK * 24) / boilerEfficiency;
    const error = Math.abs((gasFit.gasKwhPerDegreeDay as number) - truth);
    expect(error).toBeLessThan(3 * (gasFit.gasSlopeStandardError as number));
    expect(error / truth).toBeLessThan(0.02);
    expect((gasFit.gasBaseKwhPerDay as number) * boilerEfficiency).toBeGreaterThan(0.9 * hotWaterKwhPerDay);
    expect((gasFit.gasBaseKwhPerDay as number) * boilerEfficiency).toBeLessThan(1.1 * hotWaterKwhPerDay);
  });

  it('both estimates of the boiler agree', () => {
    expect(totals.totalApartShare).toBeLessThan(0.03);
    expect(totals.estimatesVerdict).toMatch(/^The two boiler estimates agree/);
    expect(year.yearVerdict).toBe('A whole year was metered.');
  });

  it('the annual figure of a winter half holds the whole year’s within its range', () => {
    const yearDegreeDays = totals.totalDegreeDays!;
    const winter = compareHeating({
      settings: { ...settings, yearDegreeDays },
      gasMonths,
      months: months.slice(0, 6),
    }).year;
    const actual = totals.totalDifferenceFromHeatPounds as number;
    const estimated = winter.yearDifferenceFromHeatPounds as number;
    expect(Math.abs(estimated - actual)).toBeLessThan(winter.yearFromHeatRangePounds as number);
  });
});
