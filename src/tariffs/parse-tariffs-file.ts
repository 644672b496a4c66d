import { z } from 'zod';
import { type Fault, refuse } from '../errors.js';
import { parseJson } from '../parse-json.js';
import { isoDateToSerial } from '../time/serial.js';
import { parseClock } from './clock-text.js';
import type { RateWindow, Tariff, Weekdays } from './tariff.js';
import { faultsOfTariff } from './validate-tariff.js';
import { parseDays } from './weekdays.js';

const clockTime = z.string().transform((text, context): number => {
  const minutes = parseClock(text);
  if (minutes !== undefined) return minutes;
  context.addIssue({ code: 'custom', message: `"${text}" is not a time HH:MM from 00:00 to 24:00` });
  return z.NEVER;
});

const dayNames = z.string().transform((text, context): Weekdays => {
  try {
    return parseDays(text);
  } catch (error) {
    context.addIssue({ code: 'custom', message: error instanceof Error ? error.message : String(error) });
    return z.NEVER;
  }
});

const date = z.string().transform((text, context): number => {
  try {
    return isoDateToSerial(text);
  } catch (error) {
    context.addIssue({ code: 'custom', message: error instanceof Error ? error.message : String(error) });
    return z.NEVER;
  }
});

/** A window as a JSON file says it: clock times `HH:MM`, days in words. */
export const windowSchema = z
  .strictObject({ from: clockTime, to: clockTime, days: dayNames.default(parseDays('')) })
  .transform(({ from, to, days }): RateWindow => ({ fromMinutes: from, toMinutes: to, days }));

/** Rates from a date on as a JSON file says them: dates `YYYY-MM-DD`. */
export const ratePeriodParts = z.strictObject({
  validFrom: date.default(0),
  standingChargePencePerDay: z.number(),
  baseRatePence: z.number(),
  windowRatesPence: z.array(z.number()).default([]),
  exportRatePence: z.number().default(0),
});

/** The parts of a tariff as a JSON file says it. */
export const tariffParts = z.strictObject({
  name: z.string(),
  clock: z.enum(['local', 'utc']).default('local'),
  includesVat: z.boolean().default(true),
  halfHourlyPriced: z.boolean().default(false),
  /** By default as the rates. */
  priceIncludesVat: z.boolean().optional(),
  exitFeePounds: z.number().default(0),
  windows: z.array(windowSchema).default([]),
  ratePeriods: z.array(ratePeriodParts),
});

/** A tariff as a JSON file says it: clock times `HH:MM`, days in words, dates `YYYY-MM-DD`. */
export const tariffSchema = tariffParts.transform(
  ({ ratePeriods, ...rest }): Tariff => ({
    ...rest,
    priceIncludesVat: rest.priceIncludesVat ?? rest.includesVat,
    ratePeriods: ratePeriods.map(({ validFrom, ...period }) => ({ validFromSerial: validFrom, ...period })),
  }),
);

const fileSchema = z.strictObject({ tariffs: z.array(tariffSchema).min(1) });

/** Names in the file where they differ from those of {@link Tariff}. */
const FILE_NAMES: readonly [string, string][] = [
  ['fromMinutes', 'from'],
  ['toMinutes', 'to'],
  ['validFromSerial', 'validFrom'],
];

/**
 * Reads tariffs from JSON: `{ "tariffs": [{ "name", "windows": [{ "from", "to", "days" }], "ratePeriods": [...] }] }`.
 *
 * @param json text of the file
 * @param file its path, for messages
 * @returns valid tariffs in the order of the file
 * @throws InputError with file and path within (`tariffs[1].windows[0].from`) when something is wrong; InputErrors where several
 *   things are
 * @example parseTariffsFile(readFileSync('tariffs.json', 'utf8'), 'tariffs.json')[0].name // 'One rate'
 */
export function parseTariffsFile(json: string, file: string): Tariff[] {
  const { tariffs } = parseJson(json, fileSchema, file);
  validateTariffs(tariffs, file);
  return tariffs;
}

/**
 * Checks the tariffs of a file one by one and against each other.
 *
 * @param tariffs in the order of the file
 * @param file its path, for messages
 * @throws InputError with file and path within when a tariff is wrong or two share a name; InputErrors where several are
 * @example validateTariffs(parseTariffsFile(json, 'tariffs.json'), 'tariffs.json')
 */
export function validateTariffs(tariffs: readonly Tariff[], file: string): void {
  refuse(faultsOfTariffs(tariffs, file));
}

/**
 * What is wrong with the tariffs of a file, one by one and against each other.
 *
 * @param tariffs in the order of the file
 * @param file its path, for messages
 * @returns the faults, each with file and path within; none where all can be used
 * @example faultsOfTariffs([], 'tariffs.json') // []
 */
export function faultsOfTariffs(tariffs: readonly Tariff[], file: string): Fault[] {
  return tariffs.flatMap((tariff, index): Fault[] => {
    const at = (path: string): Fault['place'] => {
      const inFile = FILE_NAMES.reduce((text, [from, to]) => text.replace(from, to), path);
      return { file, line: `tariffs[${index}].${inFile}` };
    };
    const found = faultsOfTariff(tariff, at);
    if (tariffs.findIndex((other) => other.name === tariff.name) === index) return found;
    return [
      ...found,
      {
        found: `two tariffs are called "${tariff.name}"`,
        whatToDo: 'Give each a name of its own.',
        place: at('name'),
      },
    ];
  });
}
