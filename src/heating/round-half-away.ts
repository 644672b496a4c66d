/**
 * Rounds to a whole number as a spreadsheet's ROUND does: halves away from zero.
 *
 * @param value any number
 * @returns whole number
 * @example roundHalfAway(-2.5) // -3
 */
export function roundHalfAway(value: number): number {
  const rounded = Math.sign(value) * Math.round(Math.abs(value));
  return rounded === 0 ? 0 : rounded;
}
