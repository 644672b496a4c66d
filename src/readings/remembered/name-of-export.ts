/** Words of dates and of copies: another in each month's download. */
const CHANGING =
  /^(jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?|q[1-4]|copy)$/;
/** Days, months, years, counters and times; any other number, such as a meter's, is part of the name. */
const DATE_OR_COUNTER = /^(\d{1,2}|(19|20)\d\d(\d\d){0,5}|(19|20)\d{6}t\d{4,6}z?)$/;

/**
 * What the names of one export's files have in common from month to month: without folder, ending, dates and counters.
 *
 * @param file path of a file, or of one in a zip file
 * @returns words in small letters, '' where nothing is left
 * @example nameOfExport('downloads/Heat pump 2026-05 (2).csv') // 'heat pump'
 */
export function nameOfExport(file: string): string {
  return bareName(file)
    .replace(/\.[^.]*$/, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !CHANGING.test(word) && !DATE_OR_COUNTER.test(word))
    .join(' ');
}

/**
 * The name of a file without its folder.
 *
 * @param file path of a file, or of one in a zip file
 * @returns what stands behind the last stroke
 * @example bareName('downloads/may.csv') // 'may.csv'
 */
export function bareName(file: string): string {
  return file.split(/[\\/]/).at(-1)!;
}
