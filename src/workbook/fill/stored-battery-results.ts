import type { Battery, BatteryInput } from '../../battery/battery.js';
import { costByCapacity } from '../../battery/cost-by-capacity.js';
import { leastCostSchedule } from '../../battery/least-cost-schedule.js';
import type { Column, Line } from '../book/terms.js';
import type { Calculated } from '../calculate.js';
import { SIZES_KWH, type StoredBatteryResults } from '../inputs/battery-cells.js';
import { hasName, numberIn, type WorkbookInputs } from '../inputs/workbook-inputs.js';
import { BLOCK_ROWS } from '../layout.js';
import { type BatterySpan, batterySpan } from '../model/battery/battery-span.js';
import { isCurrent } from '../model/battery/battery-status.js';
import type { Book } from '../model/book.js';
import { tariffOf } from '../model/period-line.js';
import { WEEK_ROWS, WEEK_SLOTS } from '../sheets/shape.js';

/** What the workbook's lines give. */
export interface Worked {
  calculated: Calculated;
  book: Book;
  inputs: WorkbookInputs;
  span: BatterySpan;
}

/**
 * Works out what no formula can, where an input has changed since it was stored: the least cost of any schedule on
 * every tariff, and the sizing table.
 *
 * @param calculated what the formulas give
 * @param book the lines they belong to
 * @param inputs as the cells hold them
 * @param now local date and time, serial, to mark what is worked out anew
 * @returns what to store, in the currency and kWh; the very figures and times of before where nothing changed
 */
export function storedBatteryResults(
  calculated: Calculated,
  book: Book,
  inputs: WorkbookInputs,
  now: number,
): StoredBatteryResults {
  const worked: Worked = { calculated, book, inputs, span: batterySpan(book) };
  const isEmpty = numberOf(worked, worked.span.halfHours) === 0;
  const tariffs = worked.span.tariffs.map((of, t) => {
    const before = inputs.storedBattery.tariffs[t];
    if (!hasName(inputs.tariffs[t]?.name ?? null) || isEmpty) {
      return { leastCostPounds: null, fingerprint: null, computedAt: null };
    }
    const fingerprint = numberOf(worked, of.fingerprint);
    if (
      before !== undefined &&
      isCurrent(before.fingerprint, fingerprint) &&
      typeof before.leastCostPounds === 'number'
    ) {
      return before;
    }
    const { input, battery, endValuePence } = spanOf(worked, t);
    const { netCostPence } = leastCostSchedule(input, battery, endValuePence).totals;
    return { leastCostPounds: netCostPence / 100, fingerprint, computedAt: now };
  });
  return { tariffs, sizing: storedSizing(worked, isEmpty, now) };
}

function storedSizing(worked: Worked, isEmpty: boolean, now: number): StoredBatteryResults['sizing'] {
  const { inputs, span, book } = worked;
  const before = inputs.storedBattery.sizing;
  const looked = numberOf(worked, book.workings.looked);
  const blank = { ruleCostPounds: null, leastCostPounds: null, cyclesPerYear: null };
  if (looked === 0 || isEmpty) {
    return { fingerprint: null, computedAt: null, rows: SIZES_KWH.map(() => blank) };
  }
  const fingerprint = numberOf(worked, span.sizingFingerprint);
  const isWhole = before.rows.every((row) => typeof row.leastCostPounds === 'number');
  if (isCurrent(before.fingerprint, fingerprint) && isWhole) return before;
  const { input, battery, endValuePence } = spanOf(worked, looked - 1);
  const { priceFixed, pricePerKwh } = inputs.battery;
  // Without a battery of its own power the table has nothing to size.
  const canSize = battery.chargeKw > 0 && battery.dischargeKw > 0;
  const price = { fixedPounds: numberIn(priceFixed), poundsPerKwh: numberIn(pricePerKwh) };
  const rows = canSize
    ? costByCapacity(input, battery, SIZES_KWH, price, endValuePence).map((row) => ({
        ruleCostPounds: row.ruleCostPence / 100,
        leastCostPounds: row.leastCostPence / 100,
        cyclesPerYear: row.ruleCyclesPerYear,
      }))
    : SIZES_KWH.map(() => blank);
  return { fingerprint, computedAt: now, rows };
}

function numberOf({ calculated }: Pick<Worked, 'calculated'>, line: Line): number {
  const value = calculated.of(line);
  if (typeof value === 'number') return value;
  throw new Error(`${line.name ?? line.place.sheet} is ${String(value)}, not a number`);
}

/**
 * The half-hours of the chosen period on a tariff, with the battery as the rule left it before.
 *
 * @param worked the lines and their values
 * @param t the tariff, from 0
 * @returns kWh and p/kWh of the period's half-hours, the battery, and the worth of a stored kWh at the end, p
 */
export function spanOf(
  worked: Worked,
  t: number,
): { input: BatteryInput; battery: Battery; endValuePence: number } {
  const { book, span } = worked;
  const of = span.tariffs[t];
  if (of === undefined) throw new RangeError(`there is no tariff ${t + 1}`);
  const [firstDay, lastDay] = [numberOf(worked, span.firstDay), numberOf(worked, span.lastDay)];
  const figures = book.workings.battery;
  const figure = (line: Line): number => numberOf(worked, line);
  return {
    input: batteryInput(worked, t, firstDay, lastDay),
    battery: {
      usableKwh: figure(figures.usableKwh),
      chargeKw: figure(figures.chargeKw),
      dischargeKw: figure(figures.dischargeKw),
      chargeEfficiency: figure(figures.chargeEfficiency),
      dischargeEfficiency: figure(figures.dischargeEfficiency),
      reserveKwh: figure(figures.reserveKwh),
      startKwh: figure(of.levelBefore),
      wearPencePerKwh: figure(figures.wearPencePerKwh),
      chargeFromGrid: figure(figures.chargesFromGrid) === 1,
      mayFeedCar: figure(figures.carBarred) === 0,
      mayExport: figure(figures.mayExport) === 1,
    },
    endValuePence: figure(of.storedValue),
  };
}

/**
 * What the battery meets on a tariff.
 *
 * @param worked the lines and their values
 * @param t the tariff, from 0
 * @param firstDay row of the first day, from 1
 * @param lastDay row of the last day, from 1
 * @returns kWh and p/kWh of every half-hour of these days
 */
export function batteryInput(
  worked: Pick<Worked, 'calculated' | 'book' | 'inputs'>,
  t: number,
  firstDay: number,
  lastDay: number,
): BatteryInput {
  const { calculated, book, inputs } = worked;
  const { halfHours } = book.workings;
  const { rates, days } = tariffOf(book, t);
  const starts = calculated.column(halfHours.start);
  const readingRow = calculated.numbers(halfHours.readingRow);
  const used = calculated.column(halfHours.usedKwh);
  // In a half-hour that was not metered the battery stands still: there is nothing to gain in it.
  const rows = Int32Array.from(
    [...starts.keys()].filter((row) => {
      const day = Math.floor(row / BLOCK_ROWS) + 1;
      return day >= firstDay && day <= lastDay && typeof used[row] === 'number';
    }),
  );
  const numbers = (column: Pick<Column, 'sheet' | 'column' | 'firstRow' | 'rows'>): Float64Array =>
    calculated.numbers(column);
  const [grid, exportRates] = [rates.grid, rates.exportRate].map(numbers);
  const [at, set] = [days.at, days.set].map(numbers);
  const price = numbers(halfHours.pricePence);
  const factor = numberOf(worked, rates.priceFactor);
  const dayOf = (row: number): number => Math.floor(row / BLOCK_ROWS);
  const pick = (values: (row: number) => number | undefined): Float64Array =>
    Float64Array.from(rows, (row) => values(row) ?? Number.NaN);
  const ofSet = (values: Float64Array | undefined, row: number): number | undefined =>
    values?.[(set?.[dayOf(row)] ?? 0) - 1];
  const fixed = (row: number): number =>
    grid?.[(at?.[dayOf(row)] ?? 0) - 1 + (row % BLOCK_ROWS)] ?? Number.NaN;
  const ofPrice = (row: number): number => factor * (price[row] ?? 0);
  const { calendar, rates: grids, averageDays } = book.workings;
  const month = numbers(calendar.month);
  const firstMonth = month[firstDay - 1] ?? 1;
  const monthIndex = Int32Array.from(rows, (row) => (month[dayOf(row)] ?? 0) - firstMonth);
  /** Decided by the week of rates that holds, by the tariff's clock. */
  const byRates = (): Pick<BatteryInput, 'weeks'> => {
    const slotOfRow = numbers({ ...grids.slot, rows: rates.grid.rows });
    const ahead = numbers(averageDays.aheadOfUtc);
    const isUtc = numberOf(worked, rates.byUtc) === 1;
    return {
      weeks: {
        ratesPence: Array.from(exportRates ?? [], (_, of) =>
          (grid ?? new Float64Array()).slice(of * WEEK_ROWS, of * WEEK_ROWS + WEEK_SLOTS),
        ),
        exportRatePence: exportRates ?? new Float64Array(),
        index: Int32Array.from(rows, (row) => (set?.[dayOf(row)] ?? 0) - 1),
        slot: Int32Array.from(
          rows,
          (row) => (slotOfRow[(at?.[dayOf(row)] ?? 0) - 1 + (row % BLOCK_ROWS)] ?? 0) - 1,
        ),
        aheadHalfHours: Array.from(ahead.subarray(firstMonth - 1), (halfHours) => (isUtc ? halfHours : 0)),
      },
    };
  };
  /** Decided by the half-hourly price alone, local day by local day; it does not sell by it. */
  const byPrice = (): Pick<BatteryInput, 'ruleRatePence'> => ({ ruleRatePence: pick((row) => price[row]) });
  const positive = (values: Float64Array) => pick((row) => Math.max(0, values[row] ?? 0));
  const car = inputs.readings.values.carKwh;
  const carChange = numbers(halfHours.carChangeKwh);
  return {
    importKwh: positive(numbers(halfHours.importKwh)),
    exportKwh: positive(numbers(halfHours.exportKwh)),
    // Not the car's part of what the home used: what its own meter says, and its timer moves.
    carKwh: pick((row) =>
      Math.max(0, numberIn(car[(readingRow[row] ?? 0) - 1] || null) + (carChange[row] ?? 0)),
    ),
    unitRatePence: pick((row) => fixed(row) + ofPrice(row)),
    exportRatePence: pick((row) => ofSet(exportRates, row)),
    dayIndex: countedOn(Int32Array.from(rows, dayOf)),
    halfHourOfDay: Int32Array.from(rows, (row) => row % BLOCK_ROWS),
    monthIndex,
    ...(factor === 0 ? byRates() : byPrice()),
  };
}

/** Days counted from 0 without a gap, whatever days have no half-hour. */
function countedOn(days: Int32Array): Int32Array {
  let count = -1;
  return days.map((day, i) => {
    if (i === 0 || day !== days[i - 1]) count++;
    return count;
  });
}
