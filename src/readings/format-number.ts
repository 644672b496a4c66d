/**
 * A number with commas between thousands, for reports.
 *
 * @param value the number
 * @param digits decimal places
 * @returns text
 * @example thousands(17520) // '17,520'
 */
export function thousands(value: number, digits = 0): string {
  return value.toLocaleString('en-GB', { minimumFractionDigits: digits, maximumFractionDigits: digits });
}
