import { rateGrid, windowWeekSlots } from '../../tariffs/rate-grid.js';
import type { RateWindow, Tariff, Weekdays } from '../../tariffs/tariff.js';
import { EVERY_DAY, MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { DAY_NAMES } from '../../tariffs/weekdays.js';
import { numberIn, saysYes, type TariffCells, type WindowCells } from '../inputs/workbook-inputs.js';
import { BANDS, RATE_ROWS, WEEK_SLOTS } from '../layout.js';
import type { CellValue } from '../model/sheet-model.js';
import { spreadsheetRound } from './spreadsheet-round.js';

/** The lines of the windows and rates sheets for one tariff. */
export interface RateLines {
  /** Start and end of each window in half-hours after midnight; -1 where the window has no start. */
  windowFromSlot: number[];
  windowToSlot: number[];
  /** Seven flags a window, Monday first: does it start on that day. */
  windowDays: number[][];
  /** For each window: 1 where it covers the slot of the week. */
  covers: Uint8Array[];
  /** How many windows cover the slot of the week. */
  coverCount: Uint8Array;
  /** Band of each slot of the week. */
  band: Uint8Array;
  /** p/kWh with VAT, rate period × band. */
  rateWithVat: Float64Array;
  validFrom: Float64Array;
  standingWithVat: Float64Array;
  exportRate: Float64Array;
  /** The lowest rate of each period where the tariff has more than one, else `none`. */
  offPeakRate: (number | 'none')[];
  isHalfHourly: boolean;
  vatFactor: number;
  clockIsUtc: boolean;
}

/**
 * Works out bands and rates of one tariff from its cells, right or wrong.
 *
 * @param tariff the column of the tariffs sheet
 * @param vatShare VAT as a share, 0.05 for 5 %
 * @returns the lines of the windows and rates sheets
 */
export function rateLines(tariff: TariffCells, vatShare: number): RateLines {
  const windows = tariff.windows.map(windowOf);
  const covers = windows.map((window) => {
    const slots = new Uint8Array(WEEK_SLOTS);
    if (window !== null) for (const slot of windowWeekSlots(window)) slots[slot] = 1;
    return slots;
  });
  const coverCount = new Uint8Array(WEEK_SLOTS);
  for (const slots of covers) for (let i = 0; i < WEEK_SLOTS; i++) coverCount[i]! += slots[i]!;
  const vatFactor = saysYes(tariff.includesVat) ? 1 : 1 + vatShare;
  const rateWithVat = new Float64Array(RATE_ROWS);
  tariff.periods.forEach((period, p) => {
    [period.base, ...period.windowRates].forEach((rate, band) => {
      rateWithVat[p * BANDS + band] = numberIn(rate) * vatFactor;
    });
  });
  const isHalfHourly = saysYes(tariff.halfHourlyPriced);
  return {
    windowFromSlot: tariff.windows.map((w) =>
      typeof w.from === 'number' ? spreadsheetRound(w.from * 48, 0) : -1,
    ),
    windowToSlot: tariff.windows.map((w) =>
      typeof w.from === 'number' ? spreadsheetRound(numberIn(w.to) * 48, 0) : -1,
    ),
    windowDays: tariff.windows.map((w) => daysOf(w).map((day) => (day ? 1 : 0))),
    covers,
    coverCount,
    band: bandsOf(windows),
    rateWithVat,
    validFrom: Float64Array.from(tariff.periods, (period, p) => (p === 0 ? 0 : numberIn(period.validFrom))),
    standingWithVat: Float64Array.from(tariff.periods, (period) => numberIn(period.standing) * vatFactor),
    exportRate: Float64Array.from(tariff.periods, (period) => numberIn(period.exportRate)),
    offPeakRate: tariff.periods.map((_, p) => {
      const rates = [rateWithVat[p * BANDS]!];
      windows.forEach((window, k) => {
        if (window !== null) rates.push(rateWithVat[p * BANDS + k + 1]!);
      });
      const lowest = Math.min(...rates);
      return isHalfHourly || lowest === Math.max(...rates) ? 'none' : lowest;
    }),
    isHalfHourly,
    vatFactor,
    clockIsUtc: typeof tariff.clock === 'string' && tariff.clock.toLowerCase() === 'utc',
  };
}

/** Which set of rates (from 0) holds on a day. */
export function ratePeriodOn(validFrom: Float64Array, daySerial: number): number {
  let index = 0;
  for (let p = 1; p < MAX_RATE_PERIODS; p++) if (validFrom[p]! > 0 && validFrom[p]! <= daySerial) index++;
  return index;
}

/**
 * The days on which a window starts, as the formulas read them: blanks and letter case do not matter; a text that is
 * no list of days gives none, and the checks count it.
 */
function daysOf(window: WindowCells): Weekdays {
  const text = normalDays(window.days);
  if (daysUnreadable(window.days)) return [false, false, false, false, false, false, false];
  if (text === '' || text === 'EVERYDAY') return EVERY_DAY;
  const flags = DAY_NAMES.map((name, day) =>
    text.includes('-') ? (text === 'MON-FRI') === day < 5 : text.includes(name.toUpperCase()),
  );
  return flags as unknown as Weekdays;
}

/** Whether a days cell says something that is neither a known range nor a list of day names. */
export function daysUnreadable(cell: CellValue): boolean {
  const text = normalDays(cell);
  if (['', 'EVERYDAY', 'MON-FRI', 'SAT-SUN'].includes(text)) return false;
  const rest = DAY_NAMES.reduce(
    (left, name) => left.replaceAll(name.toUpperCase(), ''),
    text.replaceAll(',', ''),
  );
  return rest !== '';
}

function normalDays(cell: CellValue): string {
  return String(cell ?? '')
    .toUpperCase()
    .replaceAll(' ', '');
}

function windowOf(cells: WindowCells): RateWindow | null {
  if (typeof cells.from !== 'number') return null;
  return {
    fromMinutes: spreadsheetRound(cells.from * 48, 0) * 30,
    toMinutes: spreadsheetRound(numberIn(cells.to) * 48, 0) * 30,
    days: daysOf(cells),
  };
}

/** Bands by the library's grid, keeping each window's place although some are blank. */
function bandsOf(windows: readonly (RateWindow | null)[]): Uint8Array {
  const never: Weekdays = [false, false, false, false, false, false, false];
  const placed: Pick<Tariff, 'windows'> = {
    windows: windows.map((window) => window ?? { fromMinutes: 0, toMinutes: 30, days: never }),
  };
  return rateGrid(placed);
}
