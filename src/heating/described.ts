import type { DescribedFunction } from '../functions/described-function.js';
import { adjustUseToDegreeDaysDescribed } from './adjust-use-to-degree-days.js';
import { boilerEfficiencyAtEqualCostDescribed } from './boiler-efficiency-at-equal-cost.js';
import { breakEvenCopDescribed } from './break-even-cop.js';
import { breakEvenElectricityRateDescribed } from './break-even-electricity-rate.js';
import { carbonOfEnergyDescribed } from './carbon-of-energy.js';
import { coefficientOfPerformanceDescribed } from './coefficient-of-performance.js';
import { degreeDaysFromDailyMeanDescribed } from './degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMinDescribed } from './degree-days-from-max-min.js';
import { degreeDaysFromTemperaturesDescribed } from './degree-days-from-temperatures.js';
import { degreeDaysOverMaxMinDescribed } from './degree-days-over-max-min.js';
import { energyForMoneyDescribed } from './energy-for-money.js';
import { estimateBoilerFromHeatDescribed } from './estimate-boiler-from-heat.js';
import { estimateBoilerFromMeterDescribed } from './estimate-boiler-from-meter.js';
import { estimatesApartDescribed } from './estimates-apart.js';
import { estimatesVerdictDescribed } from './estimates-verdict.js';
import { gasCostOfHeatDescribed } from './gas-cost-of-heat.js';
import { gasVolumeToEnergyDescribed } from './gas-volume-to-energy.js';
import { heatForGasMoneyDescribed } from './heat-for-gas-money.js';
import { heatingCostDifferenceDescribed } from './heating-cost-difference.js';
import { heatingVerdictDescribed } from './heating-verdict.js';
import { hotWaterCostDescribed } from './hot-water-cost.js';
import { predictionStandardErrorDescribed, useAtWeatherDescribed } from './predict-use.js';
import { simplePaybackDescribed } from './simple-payback.js';
import { twoSidedTQuantileDescribed } from './two-sided-t-quantile.js';
import { weatherFitPartsDescribed } from './weather-fit-parts.js';
import { yearVerdictDescribed } from './year-verdict.js';

/** Every heating function in its two faces, in the order of the documentation. */
export const HEATING_FUNCTIONS: readonly DescribedFunction[] = [
  coefficientOfPerformanceDescribed,
  breakEvenCopDescribed,
  breakEvenElectricityRateDescribed,
  gasVolumeToEnergyDescribed,
  gasCostOfHeatDescribed,
  energyForMoneyDescribed,
  heatForGasMoneyDescribed,
  hotWaterCostDescribed,
  degreeDaysFromDailyMeanDescribed,
  degreeDaysFromMaxMinDescribed,
  degreeDaysFromTemperaturesDescribed,
  degreeDaysOverMaxMinDescribed,
  ...weatherFitPartsDescribed,
  twoSidedTQuantileDescribed,
  useAtWeatherDescribed,
  predictionStandardErrorDescribed,
  adjustUseToDegreeDaysDescribed,
  estimateBoilerFromMeterDescribed,
  estimateBoilerFromHeatDescribed,
  estimatesApartDescribed,
  estimatesVerdictDescribed,
  boilerEfficiencyAtEqualCostDescribed,
  heatingCostDifferenceDescribed,
  heatingVerdictDescribed,
  yearVerdictDescribed,
  carbonOfEnergyDescribed,
  simplePaybackDescribed,
];
