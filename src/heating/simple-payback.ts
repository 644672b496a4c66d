import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/** What a cell says where nothing is saved. */
export const NEVER = 'never';

/**
 * Simple payback: cost ÷ saving a year; no interest, no price change, no wear.
 * Source: common practice, no source.
 *
 * @param costPounds extra cost of the choice, after grants, £, at least 0
 * @param savingPoundsPerYear running cost saved in a year, £/year; 0 or less: it never pays back
 * @returns years, `null` where it never pays back
 * @throws InputError when the cost is negative or a figure is no number
 * @example simplePayback(3000, 250) // 12
 */
export function simplePayback(costPounds: number, savingPoundsPerYear: number): number | null {
  requireNumber(costPounds, 'costPounds', 0);
  requireNumber(savingPoundsPerYear, 'savingPoundsPerYear');
  return savingPoundsPerYear > 0 ? costPounds / savingPoundsPerYear : null;
}

const args = [
  {
    name: 'costPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Extra cost of the choice, after grants.',
  },
  {
    name: 'savingPoundsPerYear',
    unit: '£/year',
    kind: 'number',
    shape: 'cell',
    description: 'Running cost saved in a year.',
  },
] as const;

export const simplePaybackDescribed: DescribedFunction = {
  name: 'simplePayback',
  cellName: 'SIMPLE_PAYBACK',
  category: 'heating',
  summary: 'Years until a saving has paid for its cost; no interest, no change of prices.',
  arguments: args,
  result: { unit: 'years', shape: 'cell', description: 'Years, or "never" where nothing is saved.' },
  source: 'common practice, no source',
  example: { arguments: [3000, 250], result: 12 },
  compute: (a) => simplePayback(numberAt(a, args, 0), numberAt(a, args, 1)) ?? NEVER,
  formula: ([cost, saving]) => `IF(${saving}>0,${cost}/${saving},"${NEVER}")`,
};
