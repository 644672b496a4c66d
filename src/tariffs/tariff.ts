/** Most windows a tariff has beside its base rate. */
export const MAX_WINDOWS = 4;
/** Most sets of rates a tariff has, each valid from its own date. */
export const MAX_RATE_PERIODS = 5;

/** Monday 0 to Sunday 6. */
export type Weekday = 0 | 1 | 2 | 3 | 4 | 5 | 6;

/** Days of the week on which a window starts, Monday first. */
export type Weekdays = readonly [boolean, boolean, boolean, boolean, boolean, boolean, boolean];

/** A stretch of the day with a rate of its own; a window that crosses midnight belongs to the day on which it starts. */
export interface RateWindow {
  /** Start, minutes after midnight by the tariff's clock, 0 to 1410, on a half-hour. */
  fromMinutes: number;
  /** End, minutes after midnight, 30 to 1440 (1440 and 0 both mean midnight); before the start: crosses midnight. */
  toMinutes: number;
  days: Weekdays;
}

/** What is charged from a date on. */
export interface RatePeriod {
  /** Local date from which these rates hold, spreadsheet serial day; the first period's counts from the beginning. */
  validFromSerial: number;
  standingChargePencePerDay: number;
  /** p/kWh outside every window. */
  baseRatePence: number;
  /** p/kWh in each window, as many as the tariff has windows. */
  windowRatesPence: readonly number[];
  /** p/kWh paid for export; carries no VAT. */
  exportRatePence: number;
}

/** An electricity tariff. */
export interface Tariff {
  name: string;
  /** `local`: windows by the home's wall clock; `utc`: by a meter clock that does not move with summer time. */
  clock: 'local' | 'utc';
  /** Whether unit rates and standing charge are given with VAT. */
  includesVat: boolean;
  /** Whether the half-hourly price channel is the unit rate; the rates of the table are then added to it. */
  halfHourlyPriced: boolean;
  /** Whether the half-hourly price is given with VAT; of no effect where it is not followed. */
  priceIncludesVat: boolean;
  /** £ charged once for leaving today's tariff early or for this one's exit; shown beside the total, never in it. */
  exitFeePounds: number;
  windows: readonly RateWindow[];
  /** Ascending by date, one to {@link MAX_RATE_PERIODS}. */
  ratePeriods: readonly RatePeriod[];
}

export const EVERY_DAY: Weekdays = [true, true, true, true, true, true, true];
