/**
 * A count as people write it.
 *
 * @param value a whole number
 * @returns with a comma before each three digits
 * @example count(1488) // '1,488'
 */
export function count(value: number): string {
  return value.toLocaleString('en-GB');
}

/**
 * So many of something.
 *
 * @param value a whole number
 * @param one its word for one, which takes an s for more
 * @returns the count with the word
 * @example counted(1, 'half-hour') // '1 half-hour'
 */
export function counted(value: number, one: string): string {
  return `${count(value)} ${one}${value === 1 ? '' : 's'}`;
}

/**
 * So many half-hours with import, and that they lack something: the beginning of a sentence.
 *
 * @param halfHours how many
 * @returns words up to what they lack
 * @example importWithout(1) // '1 half-hour has import but lacks'
 */
export function importWithout(halfHours: number): string {
  return `${counted(halfHours, 'half-hour')} ${halfHours === 1 ? 'has import but lacks' : 'have import but lack'}`;
}
