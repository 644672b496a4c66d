import { BATTERY_FIELDS } from '../fields/battery-fields.js';
import { BILL_FIELDS } from '../fields/bill-fields.js';
import type { Field } from '../fields/field.js';
import { HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTING_FIELDS } from '../fields/heating-settings.js';
import { HOME_FIELDS } from '../fields/home-fields.js';
import { TARIFF_FIELDS, TODAYS_TARIFF } from '../fields/tariff-fields.js';

/** Where the value of a cell stands in the starting inputs. */
const PATHS: ReadonlyMap<string, string> = new Map(
  [...paths()].map(([{ cell, at }, path]) => [`${cell.place.sheet}!${at}`, path]),
);

function* paths(): Generator<readonly [Field, string]> {
  yield [TODAYS_TARIFF, 'todaysTariff'];
  for (const [key, field] of Object.entries(HOME_FIELDS)) yield [field, `home.${key}`];
  const { priceFixed, pricePerKwh, ...battery } = BATTERY_FIELDS;
  yield [priceFixed, 'battery.priceFixedPounds'];
  yield [pricePerKwh, 'battery.pricePoundsPerKwh'];
  for (const [key, field] of Object.entries(battery)) yield [field, `battery.${key}`];
  for (const [i, { tariff }] of BILL_FIELDS.entries()) yield [tariff, `bills.rows[${i}].tariff`];
  for (const [i, row] of HEATING_TABLES.rates.entries()) yield [row.from, `heating.rates[${i}].from`];
  for (const [key, field] of Object.entries(SETTING_FIELDS)) yield [field, `heating.settings.${key}`];
  for (const [t, { name, windows, periods, exitFee, ...choices }] of TARIFF_FIELDS.entries()) {
    const tariff = `tariffs[${t}]`;
    yield [name, `${tariff}.name`];
    yield [exitFee, `${tariff}.exitFeePounds`];
    for (const [key, field] of Object.entries(choices)) yield [field, `${tariff}.${key}`];
    for (const [k, window] of windows.entries()) {
      for (const [key, field] of Object.entries(window)) yield [field, `${tariff}.windows[${k}].${key}`];
    }
    for (const [p, { validFrom, standing, base, windowRates, exportRate }] of periods.entries()) {
      const period = `${tariff}.ratePeriods[${p}]`;
      if (validFrom !== undefined) yield [validFrom, `${period}.validFrom`];
      yield [standing, `${period}.standingChargePencePerDay`];
      yield [base, `${period}.baseRatePence`];
      yield [exportRate, `${period}.exportRatePence`];
      for (const [k, field] of windowRates.entries()) yield [field, `${period}.windowRatesPence[${k}]`];
    }
  }
}

/**
 * Whether what is wrong in a place may follow from something that is wrong elsewhere, and was told there.
 *
 * @param line the place: a path within the starting inputs, or the cell that holds its value
 * @param told paths of what was told
 * @example followsFrom('tariffs[0].windows[1].from', ['tariffs[0].windows[1]']) // true
 */
export function followsFrom(line: string, told: readonly string[]): boolean {
  const path = PATHS.get(line) ?? line;
  return told.some((before) => isWithin(path, before) || isWithin(path, alsoUnknown(path, before)));
}

const isWithin = (path: string, whole: string | undefined): boolean =>
  whole !== undefined && path.startsWith(whole) && /^(?:$|[.[])/.test(path.slice(whole.length));

/** What can't be judged either, as it is held against something wrong: the rates of a window, the date after a date, the order of heating rates. */
function alsoUnknown(path: string, before: string): string | undefined {
  if (before.startsWith('heating.rates[')) return 'heating.rates';
  const [, tariff, part, index, within] =
    /^(tariffs\[\d+\])\.(windows|ratePeriods)(?:\[(\d+)\](?:\.(\w+))?)?/.exec(before) ?? [];
  if (tariff === undefined) return undefined;
  if (part === 'windows') {
    const [rates] = /^tariffs\[\d+\]\.ratePeriods\[\d+\]\.windowRatesPence/.exec(path) ?? [];
    if (rates === undefined || !isWithin(rates, tariff)) return undefined;
    return index === undefined ? rates : `${rates}[${index}]`;
  }
  if (index === undefined || (within !== undefined && within !== 'validFrom')) return undefined;
  return `${tariff}.ratePeriods[${Number(index) + 1}].validFrom`;
}
