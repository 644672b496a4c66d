import { LAST_TIMER_ROW } from '../../fields/timer-fields.js';
import { TARIFF_COUNT } from '../../layout.js';

/** Last column of the tables and of the sentence. */
export const TIMER_LAST_LETTERS = 'M';
/** Last column that is printed: the hints of the limits reach into it. */
export const TIMER_PRINT_LETTERS = 'N';

/** Rows of a table with a row a tariff; below it, rows for hints. */
const table = (heading: number, hints: number, lastLetters: string) => {
  const first = heading + 2;
  const last = first + TARIFF_COUNT - 1;
  return { heading, header: heading + 1, first, last, end: last + hints, lastLetters } as const;
};
/** What moving changes in the bills. */
export const TIMER_TABLE = table(LAST_TIMER_ROW + 3, 2, 'J');
/** What a kWh of car and hot water costs. */
export const KWH_TABLE = table(TIMER_TABLE.end + 2, 3, TIMER_LAST_LETTERS);

const TABLES = { bill: TIMER_TABLE, kwh: KWH_TABLE } as const;
/** Where each figure of a tariff stands: its table and its letters. */
const COLUMNS = {
  name: ['bill', 'B'],
  asMetered: ['bill', 'C'],
  withTimers: ['bill', 'D'],
  saved: ['bill', 'E'],
  savedYear: ['bill', 'F'],
  withBattery: ['bill', 'G'],
  batterySaved: ['bill', 'H'],
  batteryStatus: ['bill', 'I'],
  kwhName: ['kwh', 'B'],
  carPaid: ['kwh', 'C'],
  carPays: ['kwh', 'D'],
  carLeast: ['kwh', 'E'],
  carCould: ['kwh', 'F'],
  carHours: ['kwh', 'G'],
  carTooLong: ['kwh', 'H'],
  waterPaid: ['kwh', 'I'],
  waterPays: ['kwh', 'J'],
  waterLeast: ['kwh', 'K'],
  waterCould: ['kwh', 'L'],
  waterHours: ['kwh', 'M'],
  // Right of all that is printed.
  carTold: ['kwh', 'S'],
  waterTold: ['kwh', 'T'],
  carFrom: ['kwh', 'U'],
  carTo: ['kwh', 'V'],
  waterFrom: ['kwh', 'W'],
  waterTo: ['kwh', 'X'],
  offTotal: ['bill', 'Y'],
  onTotal: ['bill', 'Z'],
  offMark: ['bill', 'AA'],
  onMark: ['bill', 'AB'],
  computedAt: ['bill', 'AC'],
  mark: ['bill', 'AD'],
} as const satisfies Readonly<Record<string, readonly [keyof typeof TABLES, string]>>;
export type TimerColumn = keyof typeof COLUMNS;

/** Letters of a figure. */
export const timerLetters = (key: TimerColumn): string => COLUMNS[key][1];
/** Cell of a figure of a tariff (from 0). */
export const timerCell = (key: TimerColumn, tariff: number): string =>
  `${COLUMNS[key][1]}${TABLES[COLUMNS[key][0]].first + tariff}`;
/** Cell above a figure’s column. */
export const timerHeader = (key: TimerColumn): string =>
  `${COLUMNS[key][1]}${TABLES[COLUMNS[key][0]].header}`;
/** A figure of all tariffs. */
export const timerRange = (key: TimerColumn): string => {
  const [of, letters] = COLUMNS[key];
  return `$${letters}$${TABLES[of].first}:$${letters}$${TABLES[of].last}`;
};

/** Column of lines that sentences are made of, right of everything that is printed; the flags stand right of it. */
export const TIMER_WORDS_LETTERS = 'R';
/** Defined name of the place on Tariffs of the tariff that the sentence is about; 0: none. */
export const TIMER_PLACE_NAME = 'timer_tariff';
/** Defined name of the sentence. */
export const TIMER_WORDS_NAME = 'timer_sentence';
/** Defined name of what holds for the cheapest hours where windows run by UTC. */
export const UTC_HOURS_NAME = 'cheapest_by_utc_words';
/** Defined names: how many timers are on, and whether those of a load are the ones that are told of with the battery. */
export const TIMERS_ON_NAME = 'timers_on';
export const TOLD_NAMES = { car: 'car_timer_told', water: 'water_timer_told' } as const;
