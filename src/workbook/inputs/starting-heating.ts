import { z } from 'zod';
import type { Fault } from '../../errors.js';
import { isoDateToSerial } from '../../time/serial.js';
import { HEATING_RATE_ROWS, HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTINGS } from '../fields/heating-settings.js';
import { BLANK_HEATING_RATES, blankHeatingCells, type HeatingCells, padded } from './heating-cells.js';
import { numberSchema } from './number-schema.js';

const [RATES] = HEATING_TABLES.rates;
if (RATES === undefined) throw new RangeError('there is no set of heating rates');

/** A set of rates in the starting inputs. */
export const startingHeatingRatesSchema = z.strictObject({
  from: z.iso.date(),
  gasRatePence: numberSchema(RATES.gasRate).optional(),
  gasStandingPencePerDay: numberSchema(RATES.gasStanding).optional(),
  singleRatePence: numberSchema(RATES.singleRate).optional(),
});

/** What a setting of the starting inputs may be, before it is held against its own limits. */
export const startingSettingSchema = z.union([z.number(), z.string()]);

/** Heating in the starting inputs: settings by key, and sets of rates from a month on. */
export const startingHeatingSchema = z.strictObject({
  settings: z.record(z.string(), startingSettingSchema),
  rates: z.array(startingHeatingRatesSchema).max(HEATING_RATE_ROWS),
});
type StartingHeating = z.infer<typeof startingHeatingSchema>;

const KEYS: readonly string[] = SETTINGS.map(({ input: { key } }) => key);

/**
 * Settings that are none.
 *
 * @param heating as the file gives it
 * @param file its path, for messages
 * @returns a fault for each
 */
export function faultsOfSettings({ settings }: Pick<StartingHeating, 'settings'>, file: string): Fault[] {
  return Object.keys(settings)
    .filter((key) => !KEYS.includes(key))
    .map((key) => ({
      found: `"${key}" is no heating setting`,
      whatToDo: `Give ${KEYS.join(', ')}.`,
      place: { file, line: `heating.settings.${key}` },
    }));
}

/** The starting inputs of the heating sheets as cells; settings that are none are left out, and a row that is undefined is blank. */
export function startingHeatingCells(
  heating: Pick<StartingHeating, 'settings'> & {
    readonly rates: readonly (StartingHeating['rates'][number] | undefined)[];
  },
): HeatingCells {
  const blank = blankHeatingCells();
  const known = Object.entries(heating.settings).filter(([key]) => KEYS.includes(key));
  return {
    ...blank,
    settings: { ...blank.settings, ...Object.fromEntries(known) },
    rates: padded(
      heating.rates.map((rates) =>
        rates === undefined
          ? BLANK_HEATING_RATES
          : {
              from: isoDateToSerial(rates.from),
              gasRate: rates.gasRatePence ?? null,
              gasStanding: rates.gasStandingPencePerDay ?? null,
              singleRate: rates.singleRatePence ?? null,
            },
      ),
      HEATING_RATE_ROWS,
      BLANK_HEATING_RATES,
    ),
  };
}
