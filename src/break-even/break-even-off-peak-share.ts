import { InputError } from '../errors.js';
import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';

/** A two-rate tariff beside a single-rate one, all with VAT or all without. */
export interface TwoRatesAgainstOne {
  /** p/kWh of the single-rate tariff. */
  singleRatePence: number;
  /** p/kWh outside the off-peak window. */
  peakRatePence: number;
  /** p/kWh in the window. */
  offPeakRatePence: number;
  /** p/day by which the two-rate tariff's standing charge is the higher; below 0 where it is the lower. */
  extraStandingPencePerDay: number;
  /** Average use, kWh a day, over which that difference is spread. */
  kwhPerDay: number;
}

/**
 * Off-peak share from which a two-rate tariff costs less than a single-rate one.
 * Source: arithmetic.
 *
 * @param rates both tariffs' rates
 * @returns share of the energy used off-peak at which both cost the same; above 1 the two-rate tariff never pays, at or
 *   below 0 it always does
 * @throws InputError when the off-peak rate is not under the peak rate, or nothing is used
 * @example breakEvenOffPeakShare({ singleRatePence: 27, peakRatePence: 31, offPeakRatePence: 11,
 *   extraStandingPencePerDay: 0, kwhPerDay: 10 }) // 0.2
 */
export function breakEvenOffPeakShare(rates: TwoRatesAgainstOne): number {
  const { singleRatePence, peakRatePence, offPeakRatePence, extraStandingPencePerDay, kwhPerDay } = rates;
  requireNumber(singleRatePence, 'singleRatePence');
  requireNumber(extraStandingPencePerDay, 'extraStandingPencePerDay');
  if (
    !(requireNumber(offPeakRatePence, 'offPeakRatePence') < requireNumber(peakRatePence, 'peakRatePence'))
  ) {
    throw new InputError('offPeakRatePence is not under peakRatePence', 'Check which is which.');
  }
  const extraPence = extraStandingPencePerDay / requirePositive(kwhPerDay, 'kwhPerDay');
  return (peakRatePence - singleRatePence + extraPence) / (peakRatePence - offPeakRatePence);
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'singleRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Rate of the single-rate tariff.',
  },
  {
    name: 'peakRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Rate of the two-rate tariff outside its window.',
  },
  {
    name: 'offPeakRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Rate of the two-rate tariff in its window, the lower one.',
  },
  {
    name: 'extraStandingPencePerDay',
    unit: 'p/day',
    kind: 'number',
    shape: 'cell',
    description: "Two-rate tariff's standing charge less the single-rate one's.",
  },
  { name: 'kwhPerDay', unit: 'kWh/day', kind: 'number', shape: 'cell', description: 'Average use.' },
];

export const breakEvenOffPeakShareFunction: DescribedFunction = {
  name: 'breakEvenOffPeakShare',
  cellName: 'BREAK_EVEN_OFF_PEAK_SHARE',
  category: 'break-even',
  summary: 'Says from which off-peak share on a two-rate tariff costs less than a single-rate one.',
  arguments: ARGUMENTS,
  result: {
    unit: 'share 0–1',
    shape: 'cell',
    description: 'Above 1 the two-rate tariff never pays, at or below 0 it always does.',
  },
  source: 'arithmetic',
  example: { arguments: [27, 31, 11, 0, 10], result: 0.2 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return breakEvenOffPeakShare({
      singleRatePence: read.number('singleRatePence'),
      peakRatePence: read.number('peakRatePence'),
      offPeakRatePence: read.number('offPeakRatePence'),
      extraStandingPencePerDay: read.number('extraStandingPencePerDay'),
      kwhPerDay: read.number('kwhPerDay'),
    });
  },
  formula: ([single, peak, offPeak, extra, perDay]) =>
    `IF((${offPeak}<${peak})*(${perDay}>0),(${peak}-${single}+${extra}/${perDay})/(${peak}-${offPeak}),NA())`,
};
