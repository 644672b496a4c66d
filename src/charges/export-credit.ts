import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requireNumbers } from '../functions/require-number.js';

/**
 * What is paid for exported energy; a household charges no VAT on it.
 * Source: common practice, no source.
 *
 * @param exportKwh energy sent to the grid in each interval, kWh
 * @param exportRatePence rate paid, p/kWh
 * @returns £, not rounded
 * @throws InputError when a value is missing
 * @example exportCredit([1.5, 0.5], 15) // 0.3
 */
export function exportCredit(exportKwh: ArrayLike<number>, exportRatePence: number): number {
  requireNumbers(exportKwh, 'exportKwh');
  requireNumber(exportRatePence, 'exportRatePence');
  let kwh = 0;
  for (let i = 0; i < exportKwh.length; i++) kwh += exportKwh[i]!;
  return (kwh * exportRatePence) / 100;
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'exportKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'column',
    description: 'Energy sent to the grid in each interval.',
  },
  {
    name: 'exportRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Rate paid for export.',
  },
];

export const exportCreditFunction: DescribedFunction = {
  name: 'exportCredit',
  cellName: 'EXPORT_CREDIT',
  category: 'charges',
  summary: 'Adds up what is paid for exported energy; no VAT is on it.',
  arguments: ARGUMENTS,
  result: { unit: '£', shape: 'cell', description: 'Not rounded.' },
  source: 'common practice, no source',
  example: { arguments: [[[1.5], [0.5]], 15], result: 0.3 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return exportCredit(read.numbers('exportKwh'), read.number('exportRatePence'));
  },
  formula: ([kwh, rate]) => `SUMPRODUCT(${kwh}*1)*${rate}/100`,
};
