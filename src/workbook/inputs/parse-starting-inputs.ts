import { z } from 'zod';
import { type Fault, faultsFoundBy, InputError, refuse } from '../../errors.js';
import { faultsOfShape, readJson } from '../../parse-json.js';
import { faultsOfTariffs, tariffSchema } from '../../tariffs/parse-tariffs-file.js';
import { MAX_RATE_PERIODS, MAX_WINDOWS, type Tariff } from '../../tariffs/tariff.js';
import { validateVatShare } from '../../tariffs/validate-tariff.js';
import { assertTimeZone } from '../../time/zone-clock.js';
import { BILL_ROWS } from '../fields/bill-fields.js';
import { HEATING_RATE_ROWS } from '../fields/heating-fields.js';
import { HOME_FIELDS } from '../fields/home-fields.js';
import { RATES_USED, TARIFF_COUNT } from '../layout.js';
import type { StartingInputs } from '../model/workbook-model.js';
import { blankStoredBatteryResults } from './battery-cells.js';
import { checkTariffNames } from './check-tariff-names.js';
import { numberSchema } from './number-schema.js';
import { SoundParts } from './sound-parts.js';
import { soundTariff } from './sound-tariff.js';
import { startingBatteryCells, startingBatterySchema } from './starting-battery.js';
import { startingBillSchema, startingBillsCells, startingBillsSchema } from './starting-bills.js';
import {
  faultsOfSettings,
  startingHeatingCells,
  startingHeatingRatesSchema,
  startingHeatingSchema,
  startingSettingSchema,
} from './starting-heating.js';
import { followsFrom } from './starting-paths.js';
import { startingTimerCells, startingTimersSchema } from './starting-timers.js';
import { blankStoredTimerResults } from './stored-timers.js';
import { blankTariffCells, tariffCells } from './tariff-cells.js';

const homeSchema = z.strictObject({
  timeZone: z.string(),
  vatShare: z.number(),
  currency: z.string(),
  minorUnit: z.string(),
  largestHalfHourKwh: numberSchema(HOME_FIELDS.largestHalfHourKwh),
  batteryRan: z.boolean(),
});
const schema = z.strictObject({
  home: homeSchema,
  battery: startingBatterySchema,
  heating: startingHeatingSchema,
  /** Name of one of the tariffs; `null` where there are none yet. */
  todaysTariff: z.string().nullable(),
  tariffs: z.array(tariffSchema).max(TARIFF_COUNT),
  bills: startingBillsSchema.optional(),
  timers: startingTimersSchema.optional(),
});

/** The starting inputs as they were looked at. */
export interface InspectedStart {
  /** The inputs as cells; for what can't be used, something stands in that can. */
  readonly start: StartingInputs;
  /** What is wrong, with the path within the file. */
  readonly faults: readonly Fault[];
  /** Whether a fault of a cell says again what is among the faults, or follows from it. */
  readonly isTold: (fault: Fault) => boolean;
}

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
  const { start, faults } = inspectStartingInputs(json, file);
  refuse(faults);
  return start;
}

/**
 * Looks over what the inputs of a new workbook hold: a part that can't be used keeps none of the others from being looked at.
 *
 * @param json text of the file
 * @param file its path, for messages
 * @returns the inputs as cells, and what is wrong
 * @throws InputError when the file holds no JSON
 * @example inspectStartingInputs('{}', 'starting-inputs.json').faults[0].place.line // 'home'
 */
export function inspectStartingInputs(json: string, file: string): InspectedStart {
  const content = readJson(json, file);
  const whole = schema.safeParse(content);
  const parts = new SoundParts();
  const given = whole.success ? whole.data : soundStart(parts, content);
  const shape = whole.success ? [] : faultsOfShape(whole.error, file);
  const unknown = unknownPaths(given, parts);
  const meaning = faultsOfMeaning(given, file).filter(
    ({ place }) => !followsFrom(String(place.line), unknown),
  );
  const told = [...unknown, ...meaning.map(({ place }) => String(place.line))];
  return {
    start: startOf(given, (path) => !followsFrom(path, told)),
    faults: [...shape, ...meaning],
    isTold: ({ place }) => followsFrom(String(place.line), told),
  };
}

/** Where something stands in; with a tariff's name unknown, also whatever names one of them. */
function unknownPaths({ bills }: Given, { paths }: SoundParts): string[] {
  const namesAreKnown = !paths.some((path) => /^tariffs(?:\[\d+\](?:\.name)?)?$/.test(path));
  if (namesAreKnown) return [...paths];
  return [...paths, 'todaysTariff', ...(bills?.rows ?? []).map((_, i) => `bills.rows[${i}].tariff`)];
}

type Sound = ReturnType<typeof soundStart>;
type Given = Omit<Sound, 'bills' | 'timers'> & Partial<Pick<Sound, 'bills' | 'timers'>>;

/** What stands in for facts of the home. */
const HOME = {
  timeZone: 'UTC',
  vatShare: 0,
  currency: '',
  minorUnit: '',
  largestHalfHourKwh: 1,
  batteryRan: false,
} as const;

/** The parts of the starting inputs that follow their schemas. */
function soundStart(parts: SoundParts, content: unknown) {
  const all = parts.entriesOf(content, '');
  const heating = parts.entriesOf(all.heating, 'heating');
  const settings = Object.entries(parts.entriesOf(heating.settings, 'heating.settings'));
  const bills = all.bills === undefined ? undefined : parts.entriesOf(all.bills, 'bills');
  return {
    home: parts.takeGroup(homeSchema, all.home, 'home', HOME),
    battery: parts.takeGroup(startingBatterySchema, all.battery, 'battery', {
      chargeFromGrid: false,
      mayFeedCar: false,
      mayExport: false,
    }),
    heating: {
      settings: Object.fromEntries(
        settings.flatMap(([key, value]) => {
          const sound = parts.take(startingSettingSchema, value, `heating.settings.${key}`, undefined);
          return sound === undefined ? [] : [[key, sound] as const];
        }),
      ),
      rates: parts
        .listOf(heating.rates, 'heating.rates', HEATING_RATE_ROWS)
        .map((row, i) => parts.take(startingHeatingRatesSchema, row, `heating.rates[${i}]`, undefined)),
    },
    todaysTariff: parts.take(schema.shape.todaysTariff, all.todaysTariff, 'todaysTariff', null),
    tariffs: parts
      .listOf(all.tariffs, 'tariffs', TARIFF_COUNT)
      .map((tariff, t) => soundTariff(parts, tariff, `tariffs[${t}]`)),
    bills:
      bills === undefined
        ? undefined
        : {
            ...parts.takeGroup(startingBillsSchema.omit({ rows: true }), bills, 'bills', {}),
            rows: parts
              .listOf(bills.rows, 'bills.rows', BILL_ROWS)
              .map((row, i) => parts.take(startingBillSchema, row, `bills.rows[${i}]`, undefined)),
          },
    timers:
      all.timers === undefined ? undefined : parts.takeGroup(startingTimersSchema, all.timers, 'timers', {}),
  };
}

/** What is wrong in what the inputs say. */
function faultsOfMeaning({ home, heating, todaysTariff, tariffs }: Given, file: string): Fault[] {
  const names = tariffs.map(({ name }) => name);
  return [
    ...faultsFoundBy([
      () => assertTimeZone(home.timeZone, { file, line: 'home.timeZone' }),
      () => validateVatShare(home.vatShare, { file, line: 'home.vatShare' }),
    ]),
    ...faultsOfTariffs(tariffs, file),
    ...faultsFoundBy([
      () => checkTariffNames(names, (t) => ({ file, line: `tariffs[${t}].name` })),
      () => assertTodaysTariff(todaysTariff, tariffs, file),
    ]),
    ...faultsOfSettings(heating, file),
  ];
}

/**
 * The cells of a new workbook.
 *
 * @param given what the file says
 * @param isSound whether what stands at a path can be used
 */
function startOf(given: Given, isSound: (path: string) => boolean): StartingInputs {
  const { home, battery, heating, todaysTariff, tariffs, bills, timers } = given;
  const timeZone = isSound('home.timeZone') ? home.timeZone : HOME.timeZone;
  return {
    home: { ...home, timeZone, batteryRan: home.batteryRan ? 'yes' : 'no' },
    battery: startingBatteryCells(battery),
    storedBattery: blankStoredBatteryResults(),
    heating: startingHeatingCells(heating),
    bills: startingBillsCells(bills),
    timers: startingTimerCells(timers),
    storedTimers: blankStoredTimerResults(),
    todaysTariff,
    fromMonth: null,
    toMonth: null,
    ratesUsed: RATES_USED.asTheyWere,
    clockTimeZone: timeZone,
    tariffs: Array.from({ length: TARIFF_COUNT }, (_, t) =>
      tariffs[t] === undefined ? blankTariffCells() : tariffCells(withinRoom(tariffs[t])),
    ),
  };
}

/** A tariff with as many windows and sets of rates as a column holds; that there are more was told. */
function withinRoom(tariff: Tariff): Tariff {
  const { windows, ratePeriods } = tariff;
  return {
    ...tariff,
    windows: windows.slice(0, MAX_WINDOWS),
    ratePeriods: ratePeriods.slice(0, MAX_RATE_PERIODS),
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
