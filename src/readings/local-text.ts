/**
 * Wall-clock text, to the minute.
 *
 * @param localMs wall-clock ms counted as if UTC
 * @returns `2026-01-31 00:30`
 * @example localText(0) // '1970-01-01 00:00'
 */
export function localText(localMs: number): string {
  return new Date(localMs).toISOString().slice(0, 16).replace('T', ' ');
}
