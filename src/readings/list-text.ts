/**
 * Some things in a sentence, the first few of many by name.
 *
 * @param items as they are to be shown
 * @param most how many are named
 * @returns the names with commas between them; where there are more, how many
 * @example listText(['1', '2', '3', '4'], 2) // '1, 2 and 2 more'
 */
export function listText(items: readonly (string | number)[], most: number): string {
  const more = items.length - most;
  return `${items.slice(0, most).join(', ')}${more > 0 ? ` and ${more.toLocaleString('en-GB')} more` : ''}`;
}
