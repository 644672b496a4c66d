import { z } from 'zod';
import { InputError } from '../../errors.js';
import { isoDateToSerial } from '../../time/serial.js';
import { HEATING_RATE_ROWS, HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTINGS } from '../fields/heating-settings.js';
import { BLANK_HEATING_RATES, blankHeatingCells, type HeatingCells, padded } from './heating-cells.js';
import { numberSchema } from './number-schema.js';

const [RATES] = HEATING_TABLES.rates;
if (RATES === undefined) throw new RangeError('there is no set of heating rates');

/** Heating in the starting inputs: settings by key, and sets of rates from a month on. */
export const startingHeatingSchema = z.strictObject({
  settings: z.record(z.string(), z.union([z.number(), z.string()])),
  rates: z
    .array(
      z.strictObject({
        from: z.iso.date(),
        gasRatePence: numberSchema(RATES.gasRate).optional(),
        gasStandingPencePerDay: numberSchema(RATES.gasStanding).optional(),
        singleRatePence: numberSchema(RATES.singleRate).optional(),
      }),
    )
    .max(HEATING_RATE_ROWS),
});

/**
 * The starting inputs of the heating sheets as cells.
 *
 * @param heating as the file gives it
 * @param file its path, for messages
 * @throws InputError when a setting is unknown; values are checked with all other cells
 */
export function startingHeatingCells(
  heating: z.infer<typeof startingHeatingSchema>,
  file: string,
): HeatingCells {
  const keys: readonly string[] = SETTINGS.map(({ input: { key } }) => key);
  for (const key of Object.keys(heating.settings)) {
    if (keys.includes(key)) continue;
    throw new InputError(`"${key}" is no heating setting`, `Give ${keys.join(', ')}.`, {
      file,
      line: 'heating.settings',
    });
  }
  const blank = blankHeatingCells();
  return {
    ...blank,
    settings: { ...blank.settings, ...heating.settings },
    rates: padded(
      heating.rates.map((rates) => ({
        from: isoDateToSerial(rates.from),
        gasRate: rates.gasRatePence ?? null,
        gasStanding: rates.gasStandingPencePerDay ?? null,
        singleRate: rates.singleRatePence ?? null,
      })),
      HEATING_RATE_ROWS,
      BLANK_HEATING_RATES,
    ),
  };
}
