import type { ModelData } from 'highs';
import type { MovableLoad, Timer } from '../../src/timers/timer.js';

/**
 * The least cost of a load as a linear programme, written without the library: kWh of each half-hour between 0 and the power
 * within the hours, what they hold moved in, the rest left at its hours in one share. Sessions in which more was metered
 * within the hours than they hold stay as they are.
 *
 *     minimise  Σ rate × kWh   so that for each session  Σ kWh within the hours = what fits
 *
 * @param load a load
 * @param timer hours, kW
 * @param unitRatePence p/kWh of each half-hour
 * @returns model in compressed columns; its optimum, p
 */
export function loadProgramme(load: MovableLoad, timer: Timer, unitRatePence: Float64Array): ModelData {
  const bySession = new Map<number, number[]>();
  for (const [i, serial] of load.localSerial.entries()) {
    const session = Math.floor(serial - 0.5 + 1e-6);
    bySession.set(session, [...(bySession.get(session) ?? []), i]);
  }
  const { fromMinutes, toMinutes } = timer.hours;
  const isWithin = (i: number): boolean => {
    const minutes = Math.round((load.localSerial[i]! % 1) * 1440) % 1440;
    return fromMinutes < toMinutes
      ? minutes >= fromMinutes && minutes < toMinutes
      : minutes >= fromMinutes || minutes < toMinutes;
  };
  const most = timer.powerKw / 2;
  const sumOf = (places: number[], value: (i: number) => number): number =>
    places.reduce((sum, i) => sum + value(i), 0);
  let offset = 0;
  const colCost: number[] = [];
  const rows: number[] = [];
  const sums: number[] = [];
  for (const places of bySession.values()) {
    const within = places.filter(isWithin);
    const outside = places.filter((i) => !isWithin(i));
    const kwh = (i: number): number => load.loadKwh[i]!;
    const [inside, out] = [sumOf(within, kwh), sumOf(outside, kwh)];
    const room = within.length * most;
    if (inside > room) {
      offset += sumOf(places, (i) => kwh(i) * unitRatePence[i]!);
      continue;
    }
    const fits = Math.min(inside + out, room);
    const left = inside + out - fits;
    if (left > 0) offset += sumOf(outside, (i) => ((kwh(i) * left) / out) * unitRatePence[i]!);
    sums.push(fits);
    for (const i of within) {
      colCost.push(unitRatePence[i]!);
      rows.push(sums.length - 1);
    }
  }
  const [numCols, numRows] = [colCost.length, sums.length];
  return {
    numCols,
    numRows,
    offset,
    colCost,
    colLower: colCost.map(() => 0),
    colUpper: colCost.map(() => most),
    rowLower: sums,
    rowUpper: sums,
    matrix: {
      format: 'csc',
      numRows,
      numCols,
      starts: Array.from({ length: numCols + 1 }, (_, k) => k),
      indices: rows,
      values: colCost.map(() => 1),
    },
  };
}
