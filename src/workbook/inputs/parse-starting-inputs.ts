import { z } from 'zod';
import { faultsFoundBy, InputError, refuse } from '../../errors.js';
import { parseJson } from '../../parse-json.js';
import { tariffSchema, validateTariffs } from '../../tariffs/parse-tariffs-file.js';
import { validateVatShare } from '../../tariffs/validate-tariff.js';
import { assertTimeZone } from '../../time/zone-clock.js';
import { HOME_FIELDS } from '../fields/home-fields.js';
import { RATES_USED, TARIFF_COUNT } from '../layout.js';
import type { StartingInputs } from '../model/workbook-model.js';
import { blankStoredBatteryResults } from './battery-cells.js';
import { checkTariffNames } from './check-tariff-names.js';
import { numberSchema } from './number-schema.js';
import { startingBatteryCells, startingBatterySchema } from './starting-battery.js';
import { startingBillsCells, startingBillsSchema } from './starting-bills.js';
import { startingHeatingCells, startingHeatingSchema } from './starting-heating.js';
import { startingTimerCells, startingTimersSchema } from './starting-timers.js';
import { blankStoredTimerResults } from './stored-timers.js';
import { blankTariffCells, tariffCells } from './tariff-cells.js';

const schema = z.strictObject({
  home: z.strictObject({
    timeZone: z.string(),
    vatShare: z.number(),
    currency: z.string(),
    minorUnit: z.string(),
    largestHalfHourKwh: numberSchema(HOME_FIELDS.largestHalfHourKwh),
    batteryRan: z.boolean(),
  }),
  battery: startingBatterySchema,
  heating: startingHeatingSchema,
  /** Name of one of the tariffs; `null` where there are none yet. */
  todaysTariff: z.string().nullable(),
  tariffs: z.array(tariffSchema).max(TARIFF_COUNT),
  bills: startingBillsSchema.optional(),
  timers: startingTimersSchema.optional(),
});

/**
 * Reads what the inputs of a new workbook hold.
 *
 * @param json text of the file
 * @param file its path, for messages
 * @returns the inputs as cells
 * @throws InputError with file and path within when something is wrong; InputErrors where several things are
 * @example parseStartingInputs(readFileSync('starting-inputs.json', 'utf8'), 'starting-inputs.json').home.vatShare // 0.05
 */
export function parseStartingInputs(json: string, file: string): StartingInputs {
  const { home, battery, heating, todaysTariff, tariffs, bills, timers } = parseJson(json, schema, file);
  refuse(
    faultsFoundBy([
      () => assertTimeZone(home.timeZone, { file, line: 'home.timeZone' }),
      () => validateVatShare(home.vatShare, { file, line: 'home.vatShare' }),
      () => validateTariffs(tariffs, file),
      () =>
        checkTariffNames(
          tariffs.map(({ name }) => name),
          (t) => ({ file, line: `tariffs[${t}].name` }),
        ),
      () => assertTodaysTariff(todaysTariff, tariffs, file),
    ]),
  );
  return {
    home: { ...home, batteryRan: home.batteryRan ? 'yes' : 'no' },
    battery: startingBatteryCells(battery),
    storedBattery: blankStoredBatteryResults(),
    heating: startingHeatingCells(heating, file),
    bills: startingBillsCells(bills),
    timers: startingTimerCells(timers),
    storedTimers: blankStoredTimerResults(),
    todaysTariff,
    fromMonth: null,
    toMonth: null,
    ratesUsed: RATES_USED.asTheyWere,
    clockTimeZone: home.timeZone,
    tariffs: Array.from({ length: TARIFF_COUNT }, (_, t) =>
      tariffs[t] === undefined ? blankTariffCells() : tariffCells(tariffs[t]),
    ),
  };
}

function assertTodaysTariff(
  todaysTariff: string | null,
  tariffs: readonly { name: string }[],
  file: string,
): void {
  if (tariffs.length === 0 ? todaysTariff === null : tariffs.some(({ name }) => name === todaysTariff))
    return;
  throw new InputError(
    todaysTariff === null ? "today's tariff is not named" : `no tariff is called "${todaysTariff}"`,
    tariffs.length === 0 ? 'Give null where there are no tariffs.' : "Give today's tariff by its name.",
    { file, line: 'todaysTariff' },
  );
}
