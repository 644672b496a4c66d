/**
 * Rounds as a spreadsheet's ROUND does: half away from zero, on the shortest decimal text of the number.
 *
 * @param value any finite number
 * @param digits digits after the point, 0 or more
 * @returns the rounded number
 * @example spreadsheetRound(2.675, 2) // 2.68
 */
export function spreadsheetRound(value: number, digits: number): number {
  const size = Math.abs(value);
  const shifted = Number(`${size}e${digits}`);
  // A number too small or too large for the exponent trick has no digits to round.
  if (!Number.isFinite(shifted)) return value;
  const rounded = Number(`${Math.round(shifted)}e-${digits}`);
  return value < 0 ? -rounded : rounded;
}
