import { type Fault, faultsFoundBy, InputError, type Place, refuse } from '../../errors.js';
import { MAX_RATE_PERIODS, type Tariff } from '../../tariffs/tariff.js';
import { faultsOfTariff } from '../../tariffs/validate-tariff.js';
import { parseDays } from '../../tariffs/weekdays.js';
import { assertTimeZone } from '../../time/zone-clock.js';
import { BATTERY_RULES } from '../fields/battery-fields.js';
import { ALL_BILL_RULES } from '../fields/bill-rules.js';
import type { CellValue } from '../fields/cell-value.js';
import type { Field } from '../fields/field.js';
import { faultsOfRows } from '../fields/field-column.js';
import { ALL_GAS_RULES } from '../fields/gas-fields.js';
import { HEATING_RULES, RANGE_RULES, SHARES_RULE } from '../fields/heating-fields.js';
import { HOME_FIELDS, HOME_RULES, PERIOD_RULES } from '../fields/home-fields.js';
import type { Rule } from '../fields/rule.js';
import { TARIFF_FIELDS, type TariffFields } from '../fields/tariff-fields.js';
import { TARIFF_RULES, TODAYS_TARIFF_RULE } from '../fields/tariff-rules.js';
import { ALL_TEMPERATURE_RULES } from '../fields/temperature-fields.js';
import { ALL_TIMER_RULES } from '../fields/timer-fields.js';
import { typedCells } from './typed-cells.js';
import { hasName, numberIn, saysYes, type TariffCells, type WorkbookInputs } from './workbook-inputs.js';

/** Inputs as they were looked at. */
export interface InspectedInputs {
  /** The named tariffs, in the order of their columns; undefined where a column has no name, or can't be priced. */
  tariffs: (Tariff | undefined)[];
  /** What is wrong, in the order in which a fill tells it. */
  faults: Fault[];
}

/**
 * Makes sure that the inputs can be worked with.
 *
 * @param inputs as the cells hold them
 * @param file name of the workbook, for messages
 * @returns the named tariffs, in the order of their columns; undefined where a column has no name
 * @throws InputError naming the cell that is wrong; InputErrors where several are
 */
export function checkInputs(inputs: WorkbookInputs, file: string): (Tariff | undefined)[] {
  const { tariffs, faults } = inspectInputs(inputs, file);
  refuse(faults);
  return tariffs;
}

/**
 * Looks the inputs over: whether they keep to the rules that the workbook shows as flags, and to the few that no formula can tell.
 *
 * @param inputs as the cells hold them
 * @param file name of the workbook, for messages
 * @returns the tariffs and all faults; a cell may have several
 */
export function inspectInputs(inputs: WorkbookInputs, file: string): InspectedInputs {
  const typed = typedCells(inputs);
  const broken = (rules: readonly Rule[]): Fault[] => typed.faultsOf(rules, file);
  const faults = [
    ...faultsFoundBy([() => checkTimeZone(inputs.home.timeZone, file)]),
    ...broken([...Object.values(HOME_RULES), ...Object.values(PERIOD_RULES)]),
  ];
  const brokenByTariff = TARIFF_RULES.map(broken);
  faults.push(...brokenByTariff.flat());
  const tariffs = inputs.tariffs.map((cells, t) => {
    const fields = TARIFF_FIELDS[t];
    // Rates that are no numbers and windows that have no times make no tariff to look at further.
    const isSound = brokenByTariff[t]?.length === 0;
    if (fields === undefined || !isSound || !hasName(cells.name)) return undefined;
    let tariff: Tariff | undefined;
    const found = faultsFoundBy([
      () => {
        tariff = tariffOf(cells, fields, file);
      },
    ]);
    faults.push(...found);
    return tariff;
  });
  faults.push(
    ...broken([TODAYS_TARIFF_RULE, ...Object.values(BATTERY_RULES).flat()]),
    ...broken([...Object.values(HEATING_RULES).flat(2), SHARES_RULE, ...RANGE_RULES]),
    ...broken(ALL_BILL_RULES),
    ...broken(ALL_TIMER_RULES),
    ...faultsOfRows(inputs.heating.gas, ALL_GAS_RULES, typed, file),
    ...faultsOfRows(inputs.heating.temperatures, ALL_TEMPERATURE_RULES, typed, file),
  );
  return { tariffs, faults };
}

const placeOf = ({ cell, at }: Field, file: string): Place => ({ file, line: `${cell.place.sheet}!${at}` });

/**
 * Makes sure that the home's time zone is one.
 *
 * @param zone as the cell holds it
 * @param file name of the workbook, for messages
 * @throws InputError when it is missing or unknown
 */
export function checkTimeZone(zone: CellValue, file: string): asserts zone is string {
  const place = placeOf(HOME_FIELDS.timeZone, file);
  if (typeof zone !== 'string') {
    throw new InputError('the time zone is missing', HOME_FIELDS.timeZone.spec.toDo ?? '', place);
  }
  assertTimeZone(zone, place);
}

/** A tariff of cells that keep to the rules. */
function tariffOf(cells: TariffCells, fields: TariffFields, file: string): Tariff {
  // A window keeps its place among the rates although the one before it may be blank.
  const used = cells.windows.flatMap((window, k) => (window.from === null ? [] : [k]));
  const tariff: Tariff = {
    name: String(cells.name),
    clock: String(cells.clock).toLowerCase() === 'utc' ? 'utc' : 'local',
    includesVat: saysYes(cells.includesVat),
    halfHourlyPriced: saysYes(cells.halfHourlyPriced),
    priceIncludesVat: saysYes(cells.priceIncludesVat),
    exitFeePounds: numberIn(cells.exitFee),
    windows: cells.windows.flatMap(({ from, to, days }, k) => {
      const field = fields.windows[k]?.days;
      if (field === undefined || !used.includes(k)) return [];
      return [
        {
          fromMinutes: minutes(numberIn(from)),
          toMinutes: minutes(numberIn(to)),
          days: parseDays(days === null ? '' : String(days), placeOf(field, file)),
        },
      ];
    }),
    ratePeriods: cells.periods.slice(0, MAX_RATE_PERIODS).flatMap((period, p) =>
      p > 0 && period.validFrom === null
        ? []
        : [
            {
              validFromSerial: numberIn(period.validFrom),
              standingChargePencePerDay: numberIn(period.standing),
              baseRatePence: numberIn(period.base),
              windowRatesPence: used.map((k) => numberIn(period.windowRates[k] ?? null)),
              exportRatePence: numberIn(period.exportRate),
            },
          ],
    ),
  };
  // What is left are windows that overlap: rates are numbers, and dates in order.
  refuse(
    faultsOfTariff(tariff, (path) => {
      const [, window] = /^windows\[(\d+)\]/.exec(path) ?? [];
      const field = window === undefined ? fields.name : fields.windows[used[Number(window)] ?? 0]?.from;
      return placeOf(field ?? fields.name, file);
    }),
  );
  return tariff;
}

/** Minutes of a day's fraction, to the second: a time off the half-hour stays off it. */
function minutes(fraction: number): number {
  return Math.round(fraction * 86_400) / 60;
}
