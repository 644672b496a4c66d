/** Says whether what a fill stored still holds. */
export const STATUS = {
  current: 'current',
  stale: 'out of date: run the fill',
  missing: 'not worked out: run the fill',
} as const;

/** Half-hours of a year of 365 days. */
export const HALF_HOURS_A_YEAR = 17_520;

/** Relative difference up to which two fingerprints are the same: programs sum in orders of their own. */
const FINGERPRINT_TOLERANCE = 1e-9;

/**
 * Says whether a stored fingerprint is that of the inputs as they are, as a formula.
 *
 * @param stored the stored fingerprint
 * @param live that of the inputs as they are
 * @param isMissing where nothing is stored; by default, where the fingerprint is none
 */
export function statusFormula(stored: string, live: string, isMissing = `NOT(ISNUMBER(${stored}))`): string {
  return `IF(${isMissing},"${STATUS.missing}",IF(ABS(${stored}-${live})<=${FINGERPRINT_TOLERANCE.toExponential().toUpperCase()}*MAX(1,ABS(${live})),"${STATUS.current}","${STATUS.stale}"))`;
}

/** Whether a stored fingerprint is that of the inputs as they are. */
export function isCurrent(stored: unknown, live: number): boolean {
  return (
    typeof stored === 'number' &&
    Math.abs(stored - live) <= FINGERPRINT_TOLERANCE * Math.max(1, Math.abs(live))
  );
}
