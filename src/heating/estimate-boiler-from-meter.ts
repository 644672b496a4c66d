import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { useAtWeather } from './predict-use.js';

/** Last year's gas, taken apart, and the weather to carry it to. */
export interface MeterEstimate {
  /** Weather-independent part of last year's gas, kWh/day. */
  baseKwhPerDay: number;
  /** Weather-dependent part, kWh per degree day. */
  kwhPerDegreeDay: number;
  /** Calendar days of this period. */
  days: number;
  /** Heating degree days of this period. */
  degreeDays: number;
  /** Gas in that base which the comparison leaves out: a hob; hot water where it is on neither side; kWh/day. */
  leaveOutKwhPerDay: number;
}

/**
 * Gas that the old boiler would have burnt, estimate (a): last year's metered gas carried to this period's weather,
 * less what the comparison leaves out; never below 0.
 * Source: CIBSE TM41 (performance line), from memory.
 *
 * @param estimate see {@link MeterEstimate}
 * @returns gas, kWh
 * @throws InputError when days, degree days or the part left out are negative
 * @example estimateBoilerFromMeter({ baseKwhPerDay: 8, kwhPerDegreeDay: 5, days: 31, degreeDays: 300, leaveOutKwhPerDay: 1 }) // 1717
 */
export function estimateBoilerFromMeter(estimate: MeterEstimate): number {
  const { baseKwhPerDay, kwhPerDegreeDay, days, degreeDays, leaveOutKwhPerDay } = estimate;
  requireNumber(leaveOutKwhPerDay, 'leaveOutKwhPerDay', 0);
  return Math.max(
    0,
    useAtWeather(baseKwhPerDay, kwhPerDegreeDay, days, degreeDays) - leaveOutKwhPerDay * days,
  );
}

const args = [
  {
    name: 'baseKwhPerDay',
    unit: 'kWh/day',
    kind: 'number',
    shape: 'cell',
    description: "Weather-independent part of last year's gas.",
  },
  {
    name: 'kwhPerDegreeDay',
    unit: 'kWh/(°C·day)',
    kind: 'number',
    shape: 'cell',
    description: 'Weather-dependent part.',
  },
  { name: 'days', unit: 'days', kind: 'number', shape: 'cell', description: 'Days of this period.' },
  {
    name: 'degreeDays',
    unit: '°C·day',
    kind: 'number',
    shape: 'cell',
    description: 'Heating degree days of this period.',
  },
  {
    name: 'leaveOutKwhPerDay',
    unit: 'kWh/day',
    kind: 'number',
    shape: 'cell',
    description: 'Gas that the comparison leaves out: a hob; hot water where it is on neither side.',
  },
] as const;

export const estimateBoilerFromMeterDescribed: DescribedFunction = {
  name: 'estimateBoilerFromMeter',
  cellName: 'ESTIMATE_BOILER_FROM_METER',
  category: 'heating',
  summary: "Gas that the old boiler would have burnt, from last year's meter and this period's weather.",
  arguments: args,
  result: { unit: 'kWh', shape: 'cell', description: 'Gas, never below 0.' },
  source: 'CIBSE TM41 (performance line), from memory',
  example: { arguments: [8, 5, 31, 300, 1], result: 1717 },
  compute: (a) =>
    estimateBoilerFromMeter({
      baseKwhPerDay: numberAt(a, args, 0),
      kwhPerDegreeDay: numberAt(a, args, 1),
      days: numberAt(a, args, 2),
      degreeDays: numberAt(a, args, 3),
      leaveOutKwhPerDay: numberAt(a, args, 4),
    }),
  formula: ([base, slope, days, degreeDays, leaveOut]) =>
    `MAX(0,${base}*${days}+${slope}*${degreeDays}-${leaveOut}*${days})`,
};
