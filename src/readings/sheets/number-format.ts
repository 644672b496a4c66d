/** What a number format shows a number as. */
export interface ShownAs {
  date: boolean;
  time: boolean;
  /** Hours that go on beyond a day, `[h]:mm`. */
  elapsed: boolean;
}

/**
 * Built-in formats of dates and times (ECMA-376 part 1, 18.8.30; those of East Asian languages included; from memory).
 */
const DATES = [
  [14, 17],
  [27, 31],
  [34, 36],
  [50, 54],
  [57, 58],
] as const;
const BUILT_IN_TIMES: Readonly<Record<number, ShownAs>> = {
  18: { date: false, time: true, elapsed: false },
  19: { date: false, time: true, elapsed: false },
  20: { date: false, time: true, elapsed: false },
  21: { date: false, time: true, elapsed: false },
  22: { date: true, time: true, elapsed: false },
  32: { date: false, time: true, elapsed: false },
  33: { date: false, time: true, elapsed: false },
  45: { date: false, time: true, elapsed: false },
  46: { date: false, time: true, elapsed: true },
  47: { date: false, time: true, elapsed: false },
  55: { date: false, time: true, elapsed: false },
  56: { date: false, time: true, elapsed: false },
};

/**
 * Whether a number format shows numbers as dates or times of day.
 *
 * @param id number of the format
 * @param code code of a format that the workbook defines, undefined for a built-in one
 * @returns what it shows; undefined for plain numbers
 * @example shownAs(164, 'yyyy\\-mm\\-dd hh:mm') // { date: true, time: true, elapsed: false }
 */
export function shownAs(id: number, code: string | undefined): ShownAs | undefined {
  if (code === undefined) {
    if (DATES.some(([from, to]) => id >= from && id <= to))
      return { date: true, time: false, elapsed: false };
    return BUILT_IN_TIMES[id];
  }
  const [first = ''] = code.split(';');
  const elapsed = /\[(h+|m+|s+)\]/i.test(first);
  const letters = first
    .replace(/"[^"]*"/g, '')
    .replace(/\\./g, ' ')
    .replace(/[_*]./g, '')
    .replace(/\[(h+|m+|s+)\]/gi, '$1')
    .replace(/\[[^\]]*\]/g, '')
    .replace(/am\/pm|a\/p/gi, 'h')
    .toLowerCase();
  if (/general|[0#?]/.test(letters.replace(/s[.,]0+/g, 's'))) return undefined;
  const time = /[hs]/.test(letters);
  // A month, unless it stands beside hours or seconds: then it is minutes.
  const date = /[yd]/.test(letters) || (/m/.test(letters) && !time);
  return date || time ? { date, time, elapsed } : undefined;
}
