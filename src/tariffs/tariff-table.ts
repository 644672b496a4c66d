import { InputError, type Place } from '../errors.js';
import type { CellScalar } from '../functions/described-function.js';
import { serialToIsoDate } from '../time/serial.js';
import { formatClock } from './clock-text.js';
import type { RatePeriod, RateWindow, Tariff } from './tariff.js';
import { validateTariff } from './validate-tariff.js';
import { formatDays, parseDays } from './weekdays.js';

/** Columns of a typed tariff table, in order. */
export const TARIFF_TABLE_COLUMNS = [
  { name: 'from', unit: 'time of day', kind: 'time', optional: true },
  { name: 'to', unit: 'time of day', kind: 'time', optional: true },
  { name: 'days', unit: 'none', kind: 'text', optional: true },
  { name: 'unitRatePence', unit: 'p/kWh', kind: 'number' },
  { name: 'validFrom', unit: 'date', kind: 'date', optional: true },
  { name: 'standingChargePencePerDay', unit: 'p/day', kind: 'number', optional: true },
] as const;

/** What a tariff has beside the table of its rates. */
export type TariffExtras = Pick<
  Tariff,
  'name' | 'clock' | 'includesVat' | 'halfHourlyPriced' | 'priceIncludesVat' | 'exitFeePounds'
> & { exportRatePence: number };

const PLAIN: TariffExtras = {
  name: 'Tariff',
  clock: 'local',
  includesVat: true,
  halfHourlyPriced: false,
  priceIncludesVat: true,
  exitFeePounds: 0,
  exportRatePence: 0,
};

interface Row {
  line: number;
  /** Undefined: the base rate. */
  window: RateWindow | undefined;
  ratePence: number;
  validFromSerial: number;
  standingChargePencePerDay: number | undefined;
}

/**
 * Reads a tariff from the small table that anyone can type.
 *
 * A row without times is the base rate. Rates that change: the base rate and every window once more, with the date
 * from which they hold. The standing charge stands beside any row of its date; none anywhere means none is charged.
 * Blank rows are skipped.
 *
 * @param rows [from, to, days, p/kWh, valid from, p/day (may be left out)]: times as fractions of a day (24:00 is 1),
 *   days as for {@link parseDays}, dates as spreadsheet serials, blank is null or ''
 * @param extras what the table doesn't say; by default local clock, rates and price with VAT, no exit fee, nothing paid for export
 * @param placeOf place of a row (from 1) and column (from 1), for messages; by default `row 2, column 4`
 * @returns a valid tariff, its windows in the order of the table
 * @throws InputError when a cell can't be understood, a rate is missing, or as {@link validateTariff}
 * @example parseTariffTable([[null, null, null, 27.5, null, 50], [0, 7 / 24, 'Every day', 13.5, null, null]])
 */
export function parseTariffTable(
  rows: readonly (readonly CellScalar[])[],
  extras: Partial<TariffExtras> = {},
  placeOf: (row: number, column: number) => Place = (row, column) => ({
    line: `row ${row}, column ${column}`,
  }),
): Tariff {
  const read = rows.flatMap((cells, index) => readRow(cells, index + 1, placeOf) ?? []);
  const [firstRow] = read;
  if (firstRow === undefined) {
    throw new InputError(
      'the tariff table is empty',
      'Type a unit rate in its fourth column.',
      placeOf(1, 4),
    );
  }
  const firstOfDate = new Map(read.toReversed().map((row) => [row.validFromSerial, row]));
  const datesAscending = [...firstOfDate.values()].sort((a, b) => a.validFromSerial - b.validFromSerial);
  const windows: RateWindow[] = [];
  const firstLineOf: number[] = [];
  for (const { window, line } of read) {
    if (window !== undefined && !windows.some((known) => isSameWindow(known, window))) {
      windows.push(window);
      firstLineOf.push(line);
    }
  }
  const { exportRatePence, ...rest } = { ...PLAIN, ...extras };
  const tariff: Tariff = {
    ...rest,
    windows,
    ratePeriods: datesAscending.map((first) => ratePeriodOf(first, read, windows, exportRatePence, placeOf)),
  };
  validateTariff(tariff, (path) => {
    const window = /^windows\[(\d+)\](?:\.(\w+))?/.exec(path);
    const column = { fromMinutes: 1, toMinutes: 2, days: 3 }[window?.[2] ?? ''] ?? 1;
    const line = window === null ? undefined : firstLineOf[Number(window[1])];
    return placeOf(line ?? firstRow.line, column);
  });
  return tariff;
}

/**
 * Writes a tariff as the table that {@link parseTariffTable} reads back.
 *
 * @param tariff a valid tariff
 * @returns rows of six cells: for each date the base rate with its standing charge, then the windows
 * @example tariffToTable(tariff)[0] // [null, null, null, 27.5, null, 50]
 */
export function tariffToTable(tariff: Tariff): CellScalar[][] {
  return tariff.ratePeriods.flatMap((period) => {
    const validFrom = period.validFromSerial === 0 ? null : period.validFromSerial;
    return [
      [null, null, null, period.baseRatePence, validFrom, period.standingChargePencePerDay],
      ...tariff.windows.map((window, band) => [
        window.fromMinutes / 1440,
        window.toMinutes / 1440,
        formatDays(window.days),
        period.windowRatesPence[band] ?? null,
        validFrom,
        null,
      ]),
    ];
  });
}

function readRow(
  cells: readonly CellScalar[],
  line: number,
  placeOf: (row: number, column: number) => Place,
): Row | undefined {
  const [from = null, to = null, days = null, rate = null, validFrom = null, standing = null] = cells.map(
    (cell) => (typeof cell === 'string' && cell.trim() === '' ? null : cell),
  );
  if ([from, to, days, rate, validFrom, standing].every((cell) => cell === null)) return undefined;
  if ((from === null) !== (to === null)) {
    throw new InputError(
      `a window has ${from === null ? 'an end but no start' : 'a start but no end'}`,
      'Type both times, or neither for the base rate.',
      placeOf(line, from === null ? 1 : 2),
    );
  }
  if (days !== null && typeof days !== 'string') {
    throw new InputError(
      `the days ${String(days)} are not text`,
      'Write Every day, Mon-Fri, Sat-Sun, or list the days: Mon, Wed, Sat.',
      placeOf(line, 3),
    );
  }
  const weekdays = parseDays(days ?? '', placeOf(line, 3));
  if (from === null && weekdays.includes(false)) {
    throw new InputError(
      `the base rate is given for "${days}" only`,
      'Leave its days blank, and give those days a window from 00:00 to 24:00.',
      placeOf(line, 3),
    );
  }
  return {
    line,
    window:
      from === null || to === null
        ? undefined
        : {
            fromMinutes: minutesOf(from, 'start', placeOf(line, 1)),
            toMinutes: minutesOf(to, 'end', placeOf(line, 2)),
            days: weekdays,
          },
    ratePence: numberOf(rate, 'unit rate', placeOf(line, 4)),
    validFromSerial: validFrom === null ? 0 : dateOf(validFrom, placeOf(line, 5)),
    standingChargePencePerDay:
      standing === null ? undefined : numberOf(standing, 'standing charge', placeOf(line, 6)),
  };
}

function ratePeriodOf(
  { validFromSerial, line }: Row,
  read: readonly Row[],
  windows: readonly RateWindow[],
  exportRatePence: number,
  placeOf: (row: number, column: number) => Place,
): RatePeriod {
  const rows = read.filter((row) => row.validFromSerial === validFromSerial);
  const since = validFromSerial === 0 ? '' : ` from ${serialToIsoDate(validFromSerial)}`;
  const rateOf = (window: RateWindow | undefined, what: string): number => {
    const [row, second] = rows.filter((candidate) => isSameWindow(candidate.window, window));
    if (second !== undefined) {
      throw new InputError(
        `the ${what}${since} is given twice`,
        'Keep one of the rows.',
        placeOf(second.line, 4),
      );
    }
    if (row === undefined) {
      throw new InputError(
        `the ${what} is missing${since}`,
        'Each date needs a row for the base rate (times blank) and one for every window.',
        placeOf(line, 4),
      );
    }
    return row.ratePence;
  };
  return {
    validFromSerial,
    standingChargePencePerDay: standingChargeOf(rows, read, since, placeOf(line, 6), placeOf),
    baseRatePence: rateOf(undefined, 'base rate'),
    windowRatesPence: windows.map((window) =>
      rateOf(
        window,
        `rate of the window ${formatClock(window.fromMinutes)}–${formatClock(window.toMinutes)}`,
      ),
    ),
    exportRatePence,
  };
}

function standingChargeOf(
  rows: readonly Row[],
  read: readonly Row[],
  since: string,
  place: Place,
  placeOf: (row: number, column: number) => Place,
): number {
  const [given, ...others] = rows.filter((row) => row.standingChargePencePerDay !== undefined);
  if (given?.standingChargePencePerDay === undefined) {
    if (read.every((row) => row.standingChargePencePerDay === undefined)) return 0;
    throw new InputError(
      `the standing charge is missing${since}`,
      'Type it beside a rate of each date, 0 if nothing is charged.',
      place,
    );
  }
  const other = others.find((row) => row.standingChargePencePerDay !== given.standingChargePencePerDay);
  if (other !== undefined) {
    throw new InputError(
      `there are two standing charges${since}`,
      'Keep one of them.',
      placeOf(other.line, 6),
    );
  }
  return given.standingChargePencePerDay;
}

function isSameWindow(a: RateWindow | undefined, b: RateWindow | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return (
    a.fromMinutes === b.fromMinutes &&
    a.toMinutes % 1440 === b.toMinutes % 1440 &&
    a.days.every((flag, day) => flag === b.days[day])
  );
}

function minutesOf(cell: CellScalar, which: string, place: Place): number {
  if (typeof cell === 'number' && cell >= 0 && cell <= 1) {
    // To the second: a typed 00:30 comes as 0.0208333.
    return Math.round(cell * 86_400) / 60;
  }
  throw new InputError(
    `the window's ${which} ${JSON.stringify(cell)} is not a time of day`,
    'Type a time from 00:00 to 24:00.',
    place,
  );
}

function dateOf(cell: CellScalar, place: Place): number {
  if (typeof cell === 'number' && cell >= 0 && Number.isInteger(cell)) return cell;
  throw new InputError(
    `${JSON.stringify(cell)} is not a date from which rates hold`,
    'Type a date without a time of day, or leave it blank for rates that hold from the beginning.',
    place,
  );
}

function numberOf(cell: CellScalar, what: string, place: Place): number {
  if (typeof cell === 'number' && Number.isFinite(cell)) return cell;
  throw new InputError(
    cell === null ? `the ${what} is missing` : `the ${what} ${JSON.stringify(cell)} is not a number`,
    'Type a number without a unit.',
    place,
  );
}
