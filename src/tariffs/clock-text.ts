/**
 * Minutes after midnight as a clock shows them.
 *
 * @param minutes 0 to 1440
 * @returns `HH:MM`, `24:00` for the end of the day
 * @example formatClock(1410) // '23:30'
 */
export function formatClock(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}

/**
 * Reads a clock time.
 *
 * @param text `HH:MM`, 00:00 to 24:00
 * @returns minutes after midnight, or undefined when the text is no such time
 * @example parseClock('23:30') // 1410
 */
export function parseClock(text: string): number | undefined {
  const match = /^(\d{1,2}):(\d{2})$/.exec(text.trim());
  if (match === null) return undefined;
  const minutes = Number(match[1]) * 60 + Number(match[2]);
  return Number(match[2]) < 60 && minutes <= 1440 ? minutes : undefined;
}
