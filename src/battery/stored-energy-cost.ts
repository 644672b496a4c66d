import { InputError } from '../errors.js';
import {
  assertBattery,
  assertBatteryInput,
  type Battery,
  type BatteryInput,
  servableKwh,
  startLevelKwh,
} from './battery.js';
import { TOLERANCE } from './battery-constants.js';
import { defaultEndValuePencePerKwh } from './battery-totals.js';

/** What the house used, sun included, and for what; same half-hours as the battery's. */
export interface HouseUse {
  /** All that the house used, whatever served it, kWh. */
  demandKwh: Float64Array;
  /** Part of it that is the heat pump, kWh. */
  heatPumpKwh: Float64Array;
  /** Part of it that is the car, kWh. */
  carKwh: Float64Array;
}

export interface StoredEnergyCostOptions {
  /** p per stored kWh of the level at the start; by default the average day's lowest unit rate ÷ charge efficiency. */
  startCostPencePerKwh?: number;
  /** Days to average over, one number a half-hour; by default those that the rule decides by, `input.dayIndex`. */
  dayIndex?: Int32Array;
  /** Whether a delivered kWh carries its wear; by default yes. */
  includeWear?: boolean;
  /** Whether the sun's energy costs the export credit forgone (default) or nothing. */
  sunAtExportRate?: boolean;
}

/** What energy really cost, half-hour by half-hour. */
export interface StoredEnergyCost {
  /** Cost of all that is stored at the end of each half-hour, at the day's average, p. */
  stockPence: Float64Array;
  /** p per AC kWh delivered in each half-hour, the same all day; 0 on a day on which nothing is stored. */
  deliveredUnitPence: Float64Array;
  /** Cost of each user's energy, p. */
  heatPumpPence: Float64Array;
  carPence: Float64Array;
  restPence: Float64Array;
  /** Energy of each user, kWh; together the house's. */
  heatPumpKwh: Float64Array;
  carKwh: Float64Array;
  restKwh: Float64Array;
  /** Cost of the stored energy that was sold, p. */
  soldPence: Float64Array;
  /** Cost of what was stored at the start, p. */
  startStockPence: number;
}

/**
 * What energy really cost through the battery. Each half-hour the house's import is met by grid energy at its rate and
 * by stored energy at the day's average cost: what was stored at midnight and what the day charges, together. Heat
 * pump, car and the rest share in proportion to their kWh. A barred car takes grid energy only. The sun's energy,
 * stored or used at once, costs the export credit forgone.
 * Source: common practice, no source (average cost of a stock over a period, as in book-keeping).
 *
 * As spreadsheet columns, beside the rule's (by day: sums of the day's half-hours; `up`: the day before, on the first
 * day the start level and what it cost):
 *
 *     fromSun  = MIN(export, MAX(0, battery))
 *     toHouse  = MIN(demand, MAX(0, -battery))               (demand as in the rule)
 *     charged  = (battery - fromSun) * rate + fromSun * exportRate, where battery > 0                    (by day)
 *     average  = (average up * level at midnight + charged) / (level at midnight + rises of the level)   (by day)
 *     stock    = average * level
 *     unit     = IF(something was stored that day, average / dischargeEff + wear, 0)     (p per delivered kWh)
 *     house    = MAX(house demand, import)
 *     sun      = house - import
 *     rest     = MAX(0, house - heatPump - car)
 *     carGrid  = IF(mayFeedCar, 0, MIN(car's part of the import, import))
 *     pool     = (import - carGrid - toHouse) * rate + toHouse * unit
 *     carSun   = IF(mayFeedCar, 0, MIN(sun, MAX(0, house * car / (heatPump + car + rest) - carGrid)))
 *     shared   = pool + (sun - carSun) * exportRate
 *     sharers  = heatPump + IF(mayFeedCar, car, 0) + rest
 *     heat pump's cost = IF(sharers > 0, shared * heatPump / sharers, 0)
 *     car's cost       = carGrid * rate + carSun * exportRate + IF(AND(mayFeedCar, sharers > 0), shared * car / sharers, 0)
 *     rest's cost      = carGrid * rate + carSun * exportRate + shared - heat pump's cost - car's cost
 *     sold             = MAX(0, -battery - toHouse) * unit
 *
 * Where heat pump and car are metered as more than the house (two meters never agree to the last Wh), the house's
 * energy is shared between them in proportion. It holds that
 * users + sold + stock at the end − stock at the start
 * = import with the battery at its rate + forgone export credit + wear of all that was delivered.
 *
 * @param input what the battery met, units as in {@link BatteryInput}; its `carKwh` is the car's part of the import
 * @param use what the house used, kWh
 * @param battery units as in {@link Battery}
 * @param run flows of the rule on the same half-hours: AC kWh (charging above 0) and level at the end, stored kWh
 * @param options see {@link StoredEnergyCostOptions}
 * @returns pence and kWh of each half-hour
 * @throws InputError when a figure can't be used or lengths differ
 * @example
 * const { heatPumpPence, heatPumpKwh } = storedEnergyCost(input, use, battery, runBatteryRule(input, battery));
 * sum(heatPumpPence) / sum(heatPumpKwh) // p/kWh that the heat pump really cost
 */
export function storedEnergyCost(
  input: BatteryInput,
  use: HouseUse,
  battery: Battery,
  run: { batteryKwh: Float64Array; levelKwh: Float64Array },
  options: StoredEnergyCostOptions = {},
): StoredEnergyCost {
  assertBattery(battery);
  assertBatteryInput(input);
  const count = input.importKwh.length;
  assertSameHalfHours(count, { ...use, ...run, dayIndex: options.dayIndex });
  const wear = (options.includeWear ?? true) ? battery.wearPencePerKwh : 0;
  const sunAtExportRate = options.sunAtExportRate ?? true;
  const zeros = (): Float64Array<ArrayBuffer> => new Float64Array(count);
  const result = {
    stockPence: zeros(),
    deliveredUnitPence: zeros(),
    heatPumpPence: zeros(),
    carPence: zeros(),
    restPence: zeros(),
    heatPumpKwh: zeros(),
    carKwh: zeros(),
    restKwh: zeros(),
    soldPence: zeros(),
  };
  let level = startLevelKwh(battery);
  const startStockPence =
    level *
    (options.startCostPencePerKwh ??
      defaultEndValuePencePerKwh(input.unitRatePence, battery.chargeEfficiency, input.dayIndex));
  const sunRate = (i: number): number => (sunAtExportRate ? input.exportRatePence[i]! : 0);
  let stock = startStockPence;
  for (const { from, to } of daysOf(options.dayIndex ?? input.dayIndex)) {
    let stored = level;
    for (let i = from; i < to; i++) {
      const charged = Math.max(0, run.batteryKwh[i]!);
      const fromSun = Math.min(input.exportKwh[i]!, charged);
      stock += (charged - fromSun) * input.unitRatePence[i]! + fromSun * sunRate(i);
      stored += Math.max(0, run.levelKwh[i]! - (i === from ? level : run.levelKwh[i - 1]!));
    }
    const average = stored > TOLERANCE ? stock / stored : 0;
    const unit = stored > TOLERANCE ? average / battery.dischargeEfficiency + wear : 0;
    for (let i = from; i < to; i++) {
      const imported = input.importKwh[i]!;
      const delivered = Math.max(0, -run.batteryKwh[i]!);
      const toHouse = Math.min(
        servableKwh(imported, input.exportKwh[i]!, input.carKwh[i]!, battery.mayFeedCar),
        delivered,
      );
      result.deliveredUnitPence[i] = unit;
      result.soldPence[i] = Math.max(0, delivered - toHouse) * unit;
      shareAmongUsers(result, i, {
        imported,
        house: Math.max(use.demandKwh[i]!, imported),
        heatPump: use.heatPumpKwh[i]!,
        car: use.carKwh[i]!,
        carGrid: battery.mayFeedCar ? 0 : Math.min(input.carKwh[i]!, imported),
        mayFeedCar: battery.mayFeedCar,
        toHouse,
        rate: input.unitRatePence[i]!,
        unit,
        sunRate: sunRate(i),
      });
      level = run.levelKwh[i]!;
      result.stockPence[i] = average * level;
    }
    stock = average * level;
  }
  return { ...result, startStockPence };
}

/** The stretches of half-hours of one day each. */
function* daysOf(dayIndex: Int32Array): Generator<{ from: number; to: number }> {
  for (let from = 0; from < dayIndex.length; ) {
    let to = from + 1;
    while (to < dayIndex.length && dayIndex[to] === dayIndex[from]) to++;
    yield { from, to };
    from = to;
  }
}

function shareAmongUsers(
  to: Pick<
    StoredEnergyCost,
    'heatPumpPence' | 'carPence' | 'restPence' | 'heatPumpKwh' | 'carKwh' | 'restKwh'
  >,
  i: number,
  at: {
    imported: number;
    house: number;
    heatPump: number;
    car: number;
    carGrid: number;
    mayFeedCar: boolean;
    toHouse: number;
    rate: number;
    unit: number;
    sunRate: number;
  },
): void {
  const { house, heatPump, car, carGrid, rate, sunRate } = at;
  const sun = house - at.imported;
  const rest = Math.max(0, house - heatPump - car);
  const all = heatPump + car + rest;
  const scale = all > 0 ? house / all : 0;
  to.heatPumpKwh[i] = heatPump * scale;
  to.carKwh[i] = car * scale;
  to.restKwh[i] = rest * scale;

  const pool = (at.imported - carGrid - at.toHouse) * rate + at.toHouse * at.unit;
  const carSun = at.mayFeedCar ? 0 : carSunKwh(sun, car * scale, carGrid);
  const shared = pool + (sun - carSun) * sunRate;
  const sharers = heatPump + (at.mayFeedCar ? car : 0) + rest;
  const carAlone = carGrid * rate + carSun * sunRate;
  const heatPumpPence = sharers > 0 ? (shared * heatPump) / sharers : 0;
  const carShare = at.mayFeedCar && sharers > 0 ? (shared * car) / sharers : 0;
  to.heatPumpPence[i] = heatPumpPence;
  to.carPence[i] = carAlone + carShare;
  to.restPence[i] = shared - heatPumpPence - carShare;
}

/**
 * Sun that a car takes which the battery may not feed.
 *
 * @param sunKwh what the house used beyond its import
 * @param carKwh what the car used within that, from grid and sun
 * @param carGridKwh what it imported
 * @returns kWh
 * @example carSunKwh(1, 3, 2.4) // 0.6
 */
export function carSunKwh(sunKwh: number, carKwh: number, carGridKwh: number): number {
  return Math.min(sunKwh, Math.max(0, carKwh - carGridKwh));
}

function assertSameHalfHours(count: number, columns: Record<string, unknown>): void {
  for (const [name, values] of Object.entries(columns)) {
    if (!(values instanceof Float64Array || values instanceof Int32Array)) continue;
    if (values.length !== count) {
      throw new InputError(
        `${name} has ${values.length} half-hours and importKwh ${count}`,
        'Give all columns over the same half-hours.',
      );
    }
    const wrong = values.findIndex((value) => !Number.isFinite(value));
    if (wrong >= 0) {
      throw new InputError(
        `${name} is ${values[wrong]} in half-hour ${wrong + 1}`,
        'Give every half-hour a number; a missing one counts as 0.',
        { line: wrong + 1 },
      );
    }
  }
}
