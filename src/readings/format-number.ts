/** By decimal places: making one takes longer than using it a hundred times. */
const FORMATS = new Map<number, Intl.NumberFormat>();

/**
 * A number with commas between thousands, for reports.
 *
 * @param value the number
 * @param digits decimal places
 * @returns text
 * @example thousands(17520) // '17,520'
 */
export function thousands(value: number, digits = 0): string {
  let format = FORMATS.get(digits);
  if (format === undefined) {
    format = new Intl.NumberFormat('en-GB', { minimumFractionDigits: digits, maximumFractionDigits: digits });
    FORMATS.set(digits, format);
  }
  return format.format(value);
}
