import { joinedNamesSplit } from './match-channels.js';

const UTC = /\b(?:utc|gmt|zulu)\b(\s*[+\-−–]\s*\d[\d:.,]*)?/g;
/** An offset alone, as in `Start (+01:00)`. */
const BARE_OFFSET = /(?:^|[\s([])([+\-−]\d{2}:\d{2})(?!\d)/g;
// A dash with a blank after it is no minus: `UTC - 5 minute values`.
const OFFSET = /^\s*(?:(\+)\s*|[-−])(\d{1,2})(?::?(\d{2}))?$/;
/** What stands beside UTC or GMT where the clock changes with the seasons, or where they only tell of another zone. */
const OTHER_ZONE = new RegExp(
  `\\b(${[
    'local|wall|dst|daylight|summer|winter|etc',
    'bst|ist|wet|west|cet|cest|eet|eest|mez|mesz|msk|sast',
    'est|edt|cst|cdt|mst|mdt|pst|pdt|akst|akdt|hst|ast|adt|nst|ndt',
    'aest|aedt|acst|acdt|awst|nzst|nzdt|jst|kst|hkt|sgt',
    'europe|africa|america|asia|atlantic|australia|indian|pacific|london|dublin',
  ].join('|')})\\b`,
);
/** What denies a change with the seasons: `UTC, no daylight saving`. */
const NO_CHANGE = /\b(?:no|without)[\s-]+(?:daylight|dst)\b/g;
const MAX_OFFSET_HOURS = 14;

/**
 * The zone that the header of a stamp states: UTC or GMT, with or without an offset, or an offset alone.
 *
 * @param header text of the header; those of date and time joined where they are apart
 * @returns `utc`, a fixed offset such as `+01:00`, `unclear` where it names several, undefined where it names none
 * @example zoneInHeader('Start (UTC+1)') // '+01:00'
 * @example zoneInHeader('Start (GMT/BST)') // 'unclear'
 */
export function zoneInHeader(header: string): string | undefined {
  const text = joinedNamesSplit(header).replaceAll('_', ' ').toLowerCase();
  let named = Array.from(text.matchAll(UTC), ([, offset]) => offset ?? '+0');
  if (named.length === 0) named = Array.from(text.matchAll(BARE_OFFSET), ([, offset]) => offset!);
  if (named.length === 0) return undefined;
  const [zone, ...others] = new Set(named.map(offsetOf));
  return others.length > 0 || OTHER_ZONE.test(text.replace(NO_CHANGE, '')) ? 'unclear' : zone;
}

function offsetOf(text: string): string {
  const match = OFFSET.exec(text.replace(/[:.,]+$/, ''));
  const [, plus, hours, minutes = '00'] = match ?? [];
  if (hours === undefined || Number(hours) > MAX_OFFSET_HOURS || Number(minutes) > 59) return 'unclear';
  if (Number(hours) === 0 && Number(minutes) === 0) return 'utc';
  return `${plus ?? '-'}${hours.padStart(2, '0')}:${minutes}`;
}
