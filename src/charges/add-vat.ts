import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { validateVatShare } from '../tariffs/validate-tariff.js';

/**
 * Adds VAT to an amount.
 * Source: HMRC VAT Notice 701/19 (domestic fuel and power 5 %, from memory).
 *
 * @param amount without VAT, any unit of money or rate
 * @param vatShare share of the amount before VAT, 0.05 for 5 %
 * @returns the amount with VAT, in the same unit, not rounded
 * @throws InputError when the share is not from 0 to 1
 * @example addVat(100, 0.05) // 105
 */
export function addVat(amount: number, vatShare: number): number {
  requireNumber(amount, 'amount');
  validateVatShare(vatShare, { line: 'vatShare' });
  return amount * (1 + vatShare);
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'amount',
    unit: '£, p or p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Amount without VAT.',
  },
  {
    name: 'vatShare',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'VAT as a share of the amount before it, 0.05 (or 5%).',
  },
];

export const addVatFunction: DescribedFunction = {
  name: 'addVat',
  cellName: 'ADD_VAT',
  category: 'charges',
  summary: 'Adds VAT to an amount.',
  arguments: ARGUMENTS,
  result: { unit: 'as the amount', shape: 'cell', description: 'Amount with VAT, not rounded.' },
  source: 'HMRC VAT Notice 701/19 (domestic fuel and power 5 %, from memory)',
  example: { arguments: [100, 0.05], result: 105 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return addVat(read.number('amount'), read.number('vatShare'));
  },
  formula: ([amount, vatShare]) => `${amount}*(1+${vatShare})`,
};
