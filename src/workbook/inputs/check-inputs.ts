import { InputError, type Place } from '../../errors.js';
import type { RatePeriod, Tariff } from '../../tariffs/tariff.js';
import { validateTariff, validateVatShare } from '../../tariffs/validate-tariff.js';
import { parseDays } from '../../tariffs/weekdays.js';
import { assertTimeZone } from '../../time/zone-clock.js';
import { BATTERY_RULES } from '../fields/battery-fields.js';
import { SHEETS } from '../layout.js';
import { CELL } from '../model/columns.js';
import type { CellValue } from '../model/sheet-model.js';
import {
  ratePeriodRows,
  TARIFF_ROW,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from '../model/tariff-rows.js';
import { checkHeatingCells } from './check-heating.js';
import { checkTariffNames } from './check-tariff-names.js';
import { typedCells } from './typed-cells.js';
import { hasName, saysYes, type TariffCells, type WorkbookInputs } from './workbook-inputs.js';

/**
 * Makes sure that the inputs can be worked with.
 *
 * @param inputs as the cells hold them
 * @param file name of the workbook, for messages
 * @returns the named tariffs, in the order of their columns; undefined where a column has no name
 * @throws InputError naming the first cell that is wrong
 */
export function checkInputs(inputs: WorkbookInputs, file: string): (Tariff | undefined)[] {
  const placeAt = (reference: string): Place => ({ file, line: reference.replaceAll('$', '') });
  const { home } = inputs;
  checkTimeZone(home.timeZone, file);
  requireNumber(home.vatShare, 'VAT', placeAt(CELL.vatShare));
  validateVatShare(home.vatShare as number, placeAt(CELL.vatShare));
  requireNumber(home.largestHalfHourKwh, 'largest plausible half-hour', placeAt(CELL.largestHalfHour));
  for (const [month, cell] of [
    [inputs.fromMonth, CELL.fromMonth],
    [inputs.toMonth, CELL.toMonth],
  ] as const) {
    if (month !== null) requireNumber(month, 'month', placeAt(cell));
  }
  const tariffs = inputs.tariffs.map((cells, t) => {
    if (hasName(cells.name)) return tariffOf(cells, t, file);
    refuseFiguresOfNone(cells, placeAt(`${SHEETS.tariffs}!${tariffLetters(t)}${TARIFF_ROW.name}`));
    return undefined;
  });
  checkNames(inputs, file);
  typedCells(inputs).assertKept(Object.values(BATTERY_RULES).flat(), file);
  checkHeatingCells(inputs, file);
  return tariffs;
}

/**
 * Makes sure that the home's time zone is one.
 *
 * @param zone as the cell holds it
 * @param file name of the workbook, for messages
 * @throws InputError when it is missing or unknown
 */
export function checkTimeZone(zone: CellValue, file: string): asserts zone is string {
  const place = { file, line: CELL.timeZone.replaceAll('$', '') };
  if (typeof zone !== 'string') {
    throw new InputError('the time zone is missing', 'Give an IANA name such as Europe/London.', place);
  }
  assertTimeZone(zone, place);
}

function checkNames(inputs: WorkbookInputs, file: string): void {
  checkTariffNames(
    inputs.tariffs.map(({ name }) => (hasName(name) ? String(name) : null)),
    (t) => ({ file, line: `${SHEETS.tariffs}!${tariffLetters(t)}${TARIFF_ROW.name}` }),
  );
  // Before the first tariff is typed, readings may go in: Answer says what to type.
  const named = inputs.tariffs.map(({ name }) => name).filter(hasName);
  if (inputs.todaysTariff === null && named.length === 0) return;
  const names = inputs.tariffs.map(({ name }) => String(name ?? '').toLowerCase());
  if (!names.includes(String(inputs.todaysTariff ?? '').toLowerCase()) || inputs.todaysTariff === null) {
    throw new InputError(
      inputs.todaysTariff === null
        ? "today's tariff is not chosen"
        : `today's tariff "${String(inputs.todaysTariff)}" is none of the tariffs`,
      named.length === 0
        ? 'Type it into a column, or clear the cell.'
        : `Choose one of: ${named.join(', ')}.`,
      { file, line: `${SHEETS.tariffs}!${TODAYS_TARIFF_CELL}` },
    );
  }
}

/** What is typed in a column without a name would go unnoticed. */
function refuseFiguresOfNone({ exitFee, windows, periods }: TariffCells, name: Place): void {
  const typed = [
    exitFee,
    ...windows.flatMap(({ from, to, days }) => [from, to, days]),
    ...periods.flatMap((period) => [
      period.validFrom,
      period.standing,
      period.base,
      ...period.windowRates,
      period.exportRate,
    ]),
  ];
  if (typed.every((cell) => cell === null)) return;
  throw new InputError('the column has rates or windows but no name', 'Type a name, or clear them.', name);
}

function tariffOf(cells: TariffCells, t: number, file: string): Tariff {
  const letters = tariffLetters(t);
  const placeAt = (row: number): Place => ({ file, line: `${SHEETS.tariffs}!${letters}${row}` });
  const number = (cell: CellValue, what: string, row: number): number => {
    requireNumber(cell, what, placeAt(row));
    return cell as number;
  };
  const optional = (cell: CellValue, what: string, row: number): number =>
    cell === null ? 0 : number(cell, what, row);
  // A window keeps its place among the rates although the one before it may be blank.
  const used = cells.windows.flatMap((window, k) => (window.from === null && window.to === null ? [] : [k]));
  const windows = used.map((k) => {
    const { from, to, days } = cells.windows[k]!;
    const rows = windowRows(k);
    return {
      fromMinutes: minutes(number(from, `start of window ${k + 1}`, rows.from)),
      toMinutes: minutes(number(to, `end of window ${k + 1}`, rows.to)),
      days: parseDays(days === null ? '' : String(days), placeAt(rows.days)),
    };
  });
  const ratePeriods = cells.periods.flatMap((period, p): RatePeriod[] => {
    const rows = ratePeriodRows(p);
    const filled = [period.standing, period.base, ...period.windowRates, period.exportRate];
    if (p > 0 && period.validFrom === null) {
      const stray = filled.findIndex((cell) => cell !== null);
      if (stray < 0) return [];
      throw new InputError(
        `change ${p} of rates has rates but no date`,
        'Type the day from which they hold, or clear the rates.',
        placeAt(rows.validFrom),
      );
    }
    const idle = period.windowRates.findIndex((cell, k) => cell !== null && !used.includes(k));
    if (idle >= 0) {
      throw new InputError(
        `window ${idle + 1} has a rate but no times`,
        'Type the times of the window, or clear the rate.',
        placeAt(rows.windowRates[idle]!),
      );
    }
    return [
      {
        validFromSerial: p === 0 ? 0 : number(period.validFrom, 'valid-from date', rows.validFrom),
        standingChargePencePerDay: number(period.standing, 'standing charge', rows.standing),
        baseRatePence: number(period.base, 'base rate', rows.base),
        windowRatesPence: used.map((k) =>
          number(period.windowRates[k]!, `rate in window ${k + 1}`, rows.windowRates[k]!),
        ),
        exportRatePence: optional(period.exportRate, 'export rate', rows.exportRate),
      },
    ];
  });
  const tariff: Tariff = {
    name: String(cells.name),
    clock: choice(cells.clock, ['local', 'utc'], placeAt(TARIFF_ROW.clock)) as 'local' | 'utc',
    includesVat: yesOrNo(cells.includesVat, placeAt(TARIFF_ROW.includesVat)),
    halfHourlyPriced: yesOrNo(cells.halfHourlyPriced, placeAt(TARIFF_ROW.halfHourlyPriced)),
    exitFeePounds: optional(cells.exitFee, 'exit fee', TARIFF_ROW.exitFee),
    windows,
    ratePeriods,
  };
  validateTariff(tariff, (path) => placeAt(rowOfPath(path, used)));
  return tariff;
}

/** Row of the tariffs sheet for a path such as `windows[1].fromMinutes`. */
function rowOfPath(path: string, usedWindows: readonly number[]): number {
  const [, list, place, field = '', band] = /^(\w+)\[(\d+)\](?:\.(\w+)(?:\[(\d+)\])?)?$/.exec(path) ?? [];
  if (list === 'windows') {
    const rows = windowRows(usedWindows[Number(place)] ?? 0);
    return field === 'toMinutes' ? rows.to : field === 'days' ? rows.days : rows.from;
  }
  if (list === 'ratePeriods') {
    const rows = ratePeriodRows(Number(place));
    if (field === 'validFromSerial') return rows.validFrom;
    if (field === 'standingChargePencePerDay') return rows.standing;
    if (field === 'exportRatePence') return rows.exportRate;
    if (field === 'windowRatesPence') return rows.windowRates[usedWindows[Number(band ?? 0)] ?? 0]!;
    return rows.base;
  }
  return path === 'exitFeePounds' ? TARIFF_ROW.exitFee : TARIFF_ROW.name;
}

/** Minutes of a day's fraction, to the second: a time off the half-hour stays off it. */
function minutes(fraction: number): number {
  return Math.round(fraction * 86_400) / 60;
}

function requireNumber(cell: CellValue, what: string, place: Place): void {
  if (typeof cell === 'number') return;
  throw new InputError(
    cell === null ? `the ${what} is missing` : `the ${what} is ${JSON.stringify(cell)}, not a number`,
    'Type a number.',
    place,
  );
}

function yesOrNo(cell: CellValue, place: Place): boolean {
  choice(cell, ['yes', 'no'], place);
  return saysYes(cell);
}

function choice(cell: CellValue, choices: readonly string[], place: Place): string {
  const text = String(cell ?? '').toLowerCase();
  if (choices.includes(text)) return text;
  throw new InputError(
    cell === null ? 'the choice is missing' : `"${String(cell)}" is no choice here`,
    `Write ${choices.join(' or ')}.`,
    place,
  );
}
