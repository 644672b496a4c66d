import { SLOTS_PER_WEEK } from '../time/half-hour-calendar.js';
import { SLOTS_PER_DAY } from '../time/serial.js';
import type { AverageDay } from './average-day.js';
import { type Battery, HALF_HOUR_HOURS } from './battery.js';
import { TOLERANCE } from './battery-constants.js';

/** Fills for this much more than the average day takes where energy is as cheap as it gets: days differ. */
export const SPARE_FACTOR = 1.3;
/** Keeps this many average days' sun of room free where it fills beyond what the average day takes. */
export const SUN_DAYS_OF_ROOM = 3;
/** A run is cut here, half-hours from midnight: what is still to come of the sun is then another matter. */
const NOON = 24;

/** Half-hours that follow each other at one rate, and what comes after them; slots of the week, some beyond its end. */
export interface RateRun {
  ratePence: number;
  start: number;
  /** Start of the next run. */
  end: number;
  /** First slot at another rate. */
  changes: number;
  /** First slot whose rate repays buying at this one, before it is as cheap again; undefined: none within a day. */
  fillFrom?: number;
  /** First slot that is as cheap again, no more than a day after `changes`. */
  fillUntil: number;
  /** First dearer slot before refilling is repaid by this rate; undefined: none within a day. */
  keepFrom?: number;
  /** First slot that is not dearer any more, no more than a day later. */
  keepUntil: number;
}

/** The two levels of each half-hour of a week, stored kWh, and where it sells. */
export interface WeekLevels {
  /** It charges from the grid up to this; 0: it doesn't. */
  fillUpToKwh: Float64Array;
  /** It serves the home down to this. */
  keepKwh: Float64Array;
  /** It gives all that it can wherever it doesn't charge. */
  sells: boolean;
}

/** What the levels of a week depend on beside the rates and the average day. */
export interface WeekTerms {
  battery: Battery;
  exportRatePence: number;
  /** Half-hours by which the home's clock is ahead of that of the rates. */
  aheadHalfHours: number;
}

/**
 * The runs of a week of rates: half-hours at one rate, cut at noon and at the start of the week. The week goes round.
 *
 * With `threshold = rate / (chargeEff * dischargeEff) + wear`, a kWh bought at `rate` is repaid by rates above it. Each of the
 * searches looks a day ahead:
 *
 *     changes   = first slot after the start at another rate
 *     fillUntil = first slot from there on at this rate or below
 *     fillFrom  = first slot from there on above the threshold, before fillUntil
 *     keepFrom  = first slot after the start above this rate, before one whose own threshold is below this rate
 *     keepUntil = first slot from there on at this rate or below
 *
 * @param ratesPence 336 rates, p/kWh, Monday 00:00 first
 * @param battery efficiencies and wear, units as in {@link Battery}
 * @returns runs in order, at most 64 with four windows a day
 * @example runsOfWeek(week, battery)[0] // { ratePence: 8.5, start: 0, end: 9, changes: 9, … }
 */
export function runsOfWeek(ratesPence: Float64Array, battery: Battery): RateRun[] {
  const roundTrip = battery.chargeEfficiency * battery.dischargeEfficiency;
  const at = (slot: number): number => ratesPence[slot % SLOTS_PER_WEEK]!;
  const threshold = (rate: number): number => rate / roundTrip + battery.wearPencePerKwh;
  /** First of a day's slots that will do. */
  const first = (from: number, willDo: (rate: number) => boolean): number | undefined => {
    for (let slot = from; slot < from + SLOTS_PER_DAY; slot++) if (willDo(at(slot))) return slot;
    return undefined;
  };
  const starts: number[] = [];
  for (let slot = 0; slot < SLOTS_PER_WEEK; slot++) {
    const isCut = slot === 0 || slot % SLOTS_PER_DAY === NOON;
    if (isCut || Math.abs(at(slot) - at(slot - 1)) > TOLERANCE) starts.push(slot);
  }
  return starts.map((start, r): RateRun => {
    const rate = at(start);
    const end = starts[r + 1] ?? SLOTS_PER_WEEK;
    const changes = first(start + 1, (other) => Math.abs(other - rate) > TOLERANCE);
    const run: RateRun = {
      ratePence: rate,
      start,
      end,
      changes: changes ?? start + SLOTS_PER_DAY,
      fillUntil: 0,
      keepUntil: 0,
    };
    if (changes !== undefined) {
      run.fillUntil = first(changes, (other) => other <= rate + TOLERANCE) ?? changes + SLOTS_PER_DAY;
      const repays = first(changes, (other) => other > threshold(rate) + TOLERANCE);
      if (repays !== undefined && repays < run.fillUntil) run.fillFrom = repays;
    }
    const dearer = first(start + 1, (other) => other > rate + TOLERANCE);
    const refill = first(start + 1, (other) => threshold(other) < rate - TOLERANCE);
    if (dearer !== undefined && dearer < (refill ?? Number.POSITIVE_INFINITY)) {
      run.keepFrom = dearer;
      run.keepUntil = first(dearer, (other) => other <= rate + TOLERANCE) ?? dearer + SLOTS_PER_DAY;
    }
    return run;
  });
}

/**
 * The two levels of each half-hour of a week of rates: between them the battery takes the sun and serves the home.
 *
 * `need(from, until)` is the most that the average day's demand less its sun comes to between `from` and any slot up to `until`,
 * `sun(from, until)` its sun, each over a day at most. Both levels are the same over a run ({@link runsOfWeek}), with
 * `room = MAX(0, usable - reserve)`:
 *
 *     cheapest = rate <= lowest rate / (chargeEff * dischargeEff) + wear          (it doesn't repay a refill)
 *     calm     = room - SUN_DAYS_OF_ROOM * the average day's sun
 *     fill     = MAX(IF(cheapest, calm), IF(cheapest, SPARE_FACTOR, 1) * need(fillFrom, fillUntil)
 *                - sun(end, fillFrom) - chargeKw/2 * chargeEff * (changes - end))
 *     keep     = MAX(0, need(keepFrom, keepUntil) - sun(start, keepFrom), IF(cheapest and buying pays, calm, 0))
 *     fill up to MAX(0, MIN(usable, reserve + fill)) where it may charge from the grid; keep MIN(usable, reserve + keep)
 *
 * Without fillFrom there is nothing to fill for, without keepFrom nothing to keep for. What the rest of a stretch at one rate can
 * still buy is left to it, so that the sun may come first. Where export pays as much as the run's rate, the sun is better sold than
 * stored: it fills to the top. Where it may export and no rate of the week is above the export rate, which also repays a refill,
 * it sells: it fills to the top at the cheapest rates where selling and the dearest rate repay that, and keeps nothing.
 * Source: common practice, no source (a newsvendor's choice, with the average day for the demand).
 *
 * @param ratesPence 336 rates, p/kWh, Monday 00:00 first
 * @param day the average day, stored kWh
 * @param terms battery, export rate, p/kWh, and by how many half-hours the home's clock is ahead
 * @returns stored kWh of each half-hour of the week
 * @example levelsOfWeek(week, day, { battery, exportRatePence: 4, aheadHalfHours: 0 }).fillUpToKwh[0] // 7.4
 */
export function levelsOfWeek(ratesPence: Float64Array, day: AverageDay, terms: WeekTerms): WeekLevels {
  const { battery, exportRatePence } = terms;
  const { usableKwh, reserveKwh, wearPencePerKwh } = battery;
  const roundTrip = battery.chargeEfficiency * battery.dischargeEfficiency;
  const room = Math.max(0, usableKwh - reserveKwh);
  const step = battery.chargeKw * HALF_HOUR_HOURS * battery.chargeEfficiency;
  const lowest = ratesPence.reduce((least, rate) => Math.min(least, rate));
  const highest = ratesPence.reduce((most, rate) => Math.max(most, rate));
  const refill = lowest / roundTrip + wearPencePerKwh;
  const pays = battery.chargeFromGrid && highest > refill + TOLERANCE;
  const sells = battery.mayExport && exportRatePence >= highest && exportRatePence > refill + TOLERANCE;
  const { need, sun } = lookAhead(day, terms.aheadHalfHours);
  const calm = room - SUN_DAYS_OF_ROOM * sun(0, SLOTS_PER_DAY);

  const levels = {
    fillUpToKwh: new Float64Array(SLOTS_PER_WEEK),
    keepKwh: new Float64Array(SLOTS_PER_WEEK),
    sells,
  };
  for (const run of runsOfWeek(ratesPence, battery)) {
    const { ratePence, start, end, fillFrom, keepFrom } = run;
    const isCheapest = ratePence <= refill + TOLERANCE;
    let fill: number | undefined;
    if (sells && pays && isCheapest && ratePence / roundTrip + wearPencePerKwh < exportRatePence - TOLERANCE)
      fill = room;
    else if (fillFrom !== undefined) {
      fill =
        exportRatePence >= ratePence - TOLERANCE
          ? room
          : Math.max(
              isCheapest ? calm : Number.NEGATIVE_INFINITY,
              (isCheapest ? SPARE_FACTOR : 1) * need(fillFrom, run.fillUntil) -
                sun(end, fillFrom) -
                step * (run.changes - end),
            );
    }
    let keep = isCheapest && pays ? Math.max(0, calm) : 0;
    if (keepFrom !== undefined) keep = Math.max(keep, need(keepFrom, run.keepUntil) - sun(start, keepFrom));
    if (sells) keep = 0;
    const fillUpTo =
      battery.chargeFromGrid && fill !== undefined ? Math.max(0, Math.min(usableKwh, reserveKwh + fill)) : 0;
    levels.fillUpToKwh.fill(fillUpTo, start, end);
    levels.keepKwh.fill(Math.min(usableKwh, reserveKwh + keep), start, end);
  }
  return levels;
}

/** Sums over the average day from a slot on, a day at most. */
function lookAhead(day: AverageDay, ahead: number) {
  const last = (from: number, until: number): number => Math.min(until, from + SLOTS_PER_DAY);
  const at = (slot: number): number => (((slot + ahead) % SLOTS_PER_DAY) + SLOTS_PER_DAY) % SLOTS_PER_DAY;
  return {
    need: (from: number, until: number): number => {
      let [sum, most] = [0, 0];
      for (let slot = from; slot < last(from, until); slot++) {
        sum += day.demandKwh[at(slot)]! - day.sunKwh[at(slot)]!;
        most = Math.max(most, sum);
      }
      return most;
    },
    sun: (from: number, until: number): number => {
      let sum = 0;
      for (let slot = from; slot < last(from, until); slot++) sum += day.sunKwh[at(slot)]!;
      return sum;
    },
  };
}
