import type { Reference } from '../../formula/nodes.js';
import type { Line } from '../book/terms.js';

/** The input cells of a tariff that its rates are made of. */
export interface TariffTerms {
  name: Line;
  clock: Line;
  includesVat: Line;
  halfHourlyPriced: Line;
  priceIncludesVat: Line;
  /** 1 where all that it needs for a total is there, 0 where something lacks, blank without a name. */
  priced: Line;
  windows: readonly { from: Line; to: Line; days: Line }[];
  periods: readonly {
    /** The first set holds from the beginning. */
    validFrom: Line | undefined;
    standing: Line;
    base: Line;
    windowRates: readonly Line[];
    exportRate: Line;
  }[];
}

/** The battery's input cells. */
export interface BatteryTerms {
  usableKwh: Line;
  chargeKw: Line;
  dischargeKw: Line;
  chargeEfficiency: Line;
  dischargeEfficiency: Line;
  roundTripEfficiency: Line;
  reserveKwh: Line;
  startKwh: Line;
  wearPencePerKwh: Line;
  chargeFromGrid: Line;
  mayFeedCar: Line;
  mayExport: Line;
  tariff: Line;
}

/** The bills that were typed, a row each. */
export interface BillTerms {
  from: Reference;
  to: Reference;
  /** Number of the bill where its dates and its tariff can be used, else 0. */
  number: Reference;
  /** Column of its tariff, from 1. */
  place: Reference;
}

/** When a load may run, and its power. */
export interface TimerTerms {
  isOn: Line;
  from: Line;
  to: Line;
  powerKw: Line;
}

/** The input cells of the timers, and what counts how often they can't be used. */
export interface TimersTerms {
  car: TimerTerms;
  hotWater: TimerTerms;
  /** What a tank takes from noon to noon, and when it is heated as things are. */
  tank: { kwhPerDay: Line; from: Line; to: Line };
  supply: { limitKw: Line };
  carFlags: Line | Reference;
  hotWaterFlags: Line | Reference;
  supplyFlags: Line | Reference;
}

/** Every input cell that the workings look at, readings apart. */
export interface InputTerms {
  vatShare: Line;
  todaysTariff: Line;
  /** Column of today's tariff, from 1; 0 where it is none of them. */
  todaysPlace: Line;
  /** 1 where today's tariff has all that it needs for a total. */
  todaysIsPriced: Line;
  fromMonth: Line;
  toMonth: Line;
  /** Which rates price the period: as they were, or as they are now. */
  ratesUsed: Line;
  tariffs: readonly TariffTerms[];
  battery: BatteryTerms;
  /** Beside the battery's figures: how often each can't be used. */
  batteryFlags: Line | Reference;
  bills: BillTerms;
  timers: TimersTerms;
}
