import { Decimal } from 'decimal.js';

/** £; a figure this little under half a penny is half a penny that binary arithmetic could not hold. */
const BINARY_NOISE_POUNDS = 1e-9;

/**
 * Rounds a line of a bill to the penny, half up, in decimal.
 * Source: common practice, no source.
 *
 * @param pounds £, not rounded
 * @returns £ in whole pence; half a penny goes up, also below zero
 * @example roundMoney(1.005) // 1.01
 */
export function roundMoney(pounds: number): number {
  const rounded = new Decimal(pounds).plus(BINARY_NOISE_POUNDS).toDecimalPlaces(2, Decimal.ROUND_HALF_CEIL);
  // Minus zero is no amount of money.
  return rounded.toNumber() + 0;
}

/**
 * The same as a spreadsheet formula. Plain `ROUND` treats 1.005 differently from program to program.
 *
 * @param pounds reference or expression, £
 * @returns formula without `=`
 * @example roundMoneyFormula('B7') // 'ROUND(B7+0.000000001,2)'
 */
export function roundMoneyFormula(pounds: string): string {
  return `ROUND(${pounds}+0.000000001,2)`;
}
