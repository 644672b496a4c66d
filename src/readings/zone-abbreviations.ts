import { ZoneClock } from '../time/zone-clock.js';

const HOUR = 60;

/**
 * Offsets that abbreviations of zones stand for, minutes from UTC, the commoner first (abbreviations of the IANA time zone database,
 * version 2024a; from memory).
 */
const OFFSETS: Readonly<Record<string, readonly number[]>> = {
  UTC: [0],
  GMT: [0],
  WET: [0],
  WEST: [HOUR],
  BST: [HOUR, 6 * HOUR],
  IST: [330, HOUR, 2 * HOUR],
  IDT: [3 * HOUR],
  CET: [HOUR],
  CEST: [2 * HOUR],
  MEZ: [HOUR],
  MESZ: [2 * HOUR],
  EET: [2 * HOUR],
  EEST: [3 * HOUR],
  MSK: [3 * HOUR],
  SAST: [2 * HOUR],
  NST: [-210],
  NDT: [-150],
  AST: [-4 * HOUR],
  ADT: [-3 * HOUR],
  EST: [-5 * HOUR, 10 * HOUR],
  EDT: [-4 * HOUR, 11 * HOUR],
  CST: [-6 * HOUR, 8 * HOUR, -5 * HOUR, 570],
  CDT: [-5 * HOUR, -4 * HOUR, 630],
  MST: [-7 * HOUR],
  MDT: [-6 * HOUR],
  PST: [-8 * HOUR, 8 * HOUR],
  PDT: [-7 * HOUR],
  AKST: [-9 * HOUR],
  AKDT: [-8 * HOUR],
  HST: [-10 * HOUR],
  AWST: [8 * HOUR],
  ACST: [570],
  ACDT: [630],
  AEST: [10 * HOUR],
  AEDT: [11 * HOUR],
  NZST: [12 * HOUR],
  NZDT: [13 * HOUR],
  JST: [9 * HOUR],
  KST: [9 * HOUR],
  HKT: [8 * HOUR],
  SGT: [8 * HOUR],
};

/** Every abbreviation with the commonest of its meanings: enough to tell a stamp from a word. */
export const ABBREVIATIONS: ReadonlyMap<string, number> = new Map(
  Object.entries(OFFSETS).map(([word, offsets]) => [word, offsets[0]!]),
);

/**
 * Abbreviations as stamps of a home mean them: one of several meanings is that of the home's own zone; where the home has none of them,
 * the word is left out, so that its stamps are refused and not guessed.
 *
 * @param timeZone IANA name of the home's zone
 * @param year year of the readings
 * @returns abbreviation to minutes from UTC
 * @example abbreviationsIn('Asia/Kolkata', 2026).get('IST') // 330
 */
export function abbreviationsIn(timeZone: string, year: number): ReadonlyMap<string, number> {
  const key = `${timeZone} ${year}`;
  const found = FOUND.get(key) ?? findAbbreviations(timeZone, year);
  FOUND.set(key, found);
  return found;
}

/** What was found before, by zone and year: each file asks again. */
const FOUND = new Map<string, ReadonlyMap<string, number>>();

function findAbbreviations(timeZone: string, year: number): ReadonlyMap<string, number> {
  const clock = new ZoneClock(timeZone, Date.UTC(year, 0, 1), Date.UTC(year + 1, 0, 1));
  const own = [0, 3, 6, 9].map((month) => clock.offsetMinutesAt(Date.UTC(year, month, 15)));
  const result = new Map<string, number>();
  for (const [word, offsets] of Object.entries(OFFSETS)) {
    const offset = offsets.length === 1 ? offsets[0] : offsets.find((one) => own.includes(one));
    if (offset !== undefined) result.set(word, offset);
  }
  return result;
}
