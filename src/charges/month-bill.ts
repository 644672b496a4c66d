import { Decimal } from 'decimal.js';
import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { validateVatShare } from '../tariffs/validate-tariff.js';
import { roundMoney, roundMoneyFormula } from './round-money.js';

/** Lines of a bill, £, each rounded to the penny once. */
export interface Bill {
  energyPounds: number;
  standingPounds: number;
  vatPounds: number;
  exportCreditPounds: number;
  /** Energy + standing + VAT − export credit. */
  totalPounds: number;
}

/**
 * A month's bill: each line is rounded half up to the penny once, VAT is taken of the rounded lines.
 * Source: common practice, no source.
 *
 * @param energyPounds £ without VAT, not rounded
 * @param standingPounds £ without VAT, not rounded
 * @param exportCreditPounds £ paid for export, not rounded; carries no VAT
 * @param vatShare share of the amount before VAT, 0.05 for 5 %
 * @returns the lines and their sum, £ in whole pence
 * @throws InputError when an amount is no number or the share is not from 0 to 1
 * @example monthBill(80.124, 15.5, 3.005, 0.05).totalPounds // 97.39
 */
export function monthBill(
  energyPounds: number,
  standingPounds: number,
  exportCreditPounds: number,
  vatShare: number,
): Bill {
  validateVatShare(vatShare, { line: 'vatShare' });
  const energy = roundMoney(requireNumber(energyPounds, 'energyPounds'));
  const standing = roundMoney(requireNumber(standingPounds, 'standingPounds'));
  const exportCredit = roundMoney(requireNumber(exportCreditPounds, 'exportCreditPounds'));
  const subtotal = new Decimal(energy).plus(standing);
  const vat = roundMoney(subtotal.times(vatShare).toNumber());
  return {
    energyPounds: energy,
    standingPounds: standing,
    vatPounds: vat,
    exportCreditPounds: exportCredit,
    totalPounds: subtotal.plus(vat).minus(exportCredit).toNumber(),
  };
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  { name: 'energyPounds', unit: '£', kind: 'number', shape: 'cell', description: 'Energy, without VAT.' },
  {
    name: 'standingPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Standing charge, without VAT.',
  },
  {
    name: 'exportCreditPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Paid for export; carries no VAT. 0 without export.',
  },
  {
    name: 'vatShare',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'VAT as a share of the amount before it, 0.05 (or 5%).',
  },
];

export const monthBillFunction: DescribedFunction = {
  name: 'monthBill',
  cellName: 'MONTH_BILL',
  category: 'charges',
  summary: "Adds up a month's bill, each line rounded to the penny once.",
  arguments: ARGUMENTS,
  result: { unit: '£', shape: 'cell', description: 'Total with VAT, less export credit.' },
  source: 'common practice, no source',
  example: { arguments: [80.124, 15.5, 3.005, 0.05], result: 97.39 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return monthBill(
      read.number('energyPounds'),
      read.number('standingPounds'),
      read.number('exportCreditPounds'),
      read.number('vatShare'),
    ).totalPounds;
  },
  formula: ([energy, standing, exportCredit, vatShare]: readonly [string, string, string, string]) => {
    const lines = `${roundMoneyFormula(energy)}+${roundMoneyFormula(standing)}`;
    const vat = roundMoneyFormula(`(${lines})*${vatShare}`);
    // The sum is rounded again only to shed the noise of adding pence in binary.
    return `ROUND(${lines}+${vat}-${roundMoneyFormula(exportCredit)},2)`;
  },
};
