import { Grid } from '../../../src/formula/grid.js';
import type { Value } from '../../../src/formula/values.js';
import { CHANNELS, type Channel } from '../../../src/readings/channels.js';
import { seededRandom } from '../../../src/sample/seeded-random.js';
import type { Tariff } from '../../../src/tariffs/tariff.js';
import { localMsToSerial } from '../../../src/time/serial.js';
import { ZoneClock } from '../../../src/time/zone-clock.js';
import { putLines } from '../../../src/workbook/book/evaluate-book.js';
import { SheetBuilder } from '../../../src/workbook/book/sheet-builder.js';
import { areaReference, type Column, type Line } from '../../../src/workbook/book/terms.js';
import { tariffCells } from '../../../src/workbook/inputs/tariff-cells.js';
import { clockTable } from '../../../src/workbook/model/clock-table.js';
import type { CellValue } from '../../../src/workbook/model/sheet-model.js';
import type { BatteryTerms, InputTerms } from '../../../src/workbook/sheets/input-terms.js';
import { shapeOf } from '../../../src/workbook/sheets/shape.js';
import { type Workings, workings } from '../../../src/workbook/sheets/workings.js';

/** Readings as rows of the readings sheet, in any order. */
export interface Rows {
  zone: string;
  /** Start of each half-hour, epoch ms, ascending. */
  startUtcMs: Float64Array;
  channels: Partial<Record<Channel, Float64Array>>;
}

/** What the battery's input cells hold. */
export type BatteryCells = Record<keyof BatteryTerms, CellValue>;

export const NO_BATTERY: BatteryCells = {
  usableKwh: 0,
  chargeKw: 0,
  dischargeKw: 0,
  chargeEfficiency: 0.9,
  dischargeEfficiency: 0.9,
  roundTripEfficiency: null,
  reserveKwh: 0,
  startKwh: 0,
  wearPencePerKwh: 0,
  chargeFromGrid: 'yes',
  mayFeedCar: 'yes',
  mayExport: 'no',
  tariff: null,
};

/** What the cells of a timer hold; times as shares of a day. */
export interface TimerCase {
  isOn: CellValue;
  from: CellValue;
  to: CellValue;
  powerKw: CellValue;
}

/** What the cells of the timers hold. */
export interface TimersCase {
  car?: TimerCase;
  hotWater?: TimerCase & { kwhPerDay: CellValue; heatedFrom: CellValue; heatedTo: CellValue };
}

const NO_TIMER: TimerCase = { isOn: null, from: null, to: null, powerKw: null };

/** Workings over typed inputs, with a look at their values. */
export interface Case {
  workings: Workings;
  sheets: readonly SheetBuilder[];
  /** What stands in input cells, by sheet, row and column. */
  typed: readonly { sheet: string; row: number; column: number; value: Exclude<CellValue, null> }[];
  of: (line: Line) => Value;
  at: (column: Column, index: number) => Value;
  /** The numbers of a column, 0 where there is none. */
  numbers: (column: Column) => number[];
  /** Sum over all months of a line that has one. */
  period: (column: Column) => Value;
}

/**
 * Declares workings and works them out.
 *
 * @param rows readings
 * @param tariffs the tariffs to price them on; the first is today's
 * @param battery the battery's cells
 * @param today place of today's tariff, from 1; 0 where none is chosen
 * @param timers the timers' cells
 * @param ratesUsed which rates price the readings
 * @param windowDays text of the days of each window, in place of the tariffs' own
 * @param order places of the rows as they stand on the sheet; by default by time
 */
export function workingsCase(
  rows: Rows,
  tariffs: readonly Tariff[],
  {
    battery = NO_BATTERY,
    order,
    vatShare = 0.05,
    days = 40,
    windowDays,
    today = 1,
    ratesUsed = null,
    timers = {},
  }: {
    battery?: BatteryCells;
    order?: readonly number[];
    vatShare?: number;
    days?: number;
    windowDays?: string;
    today?: number;
    ratesUsed?: CellValue;
    timers?: TimersCase;
  } = {},
): Case {
  const inputs = new SheetBuilder('Inputs');
  const typed: { sheet: string; row: number; column: number; value: Exclude<CellValue, null> }[] = [];
  const put = (place: { sheet: string; row: number; column: number }, value: CellValue): void => {
    if (value !== null && !Number.isNaN(value)) typed.push({ ...place, value });
  };
  let row = 0;
  const cell = (value: CellValue, column = 1, name?: string): Line => {
    row++;
    const line = inputs.line(row, column, {
      label: '',
      unit: '',
      style: 'text',
      ...(name === undefined ? {} : { name }),
    });
    put(line.place, value);
    return line;
  };
  const timerCells = ({ isOn, from, to, powerKw }: TimerCase) => ({
    isOn: cell(isOn),
    from: cell(from),
    to: cell(to),
    powerKw: cell(powerKw),
  });
  const terms: InputTerms = {
    vatShare: cell(vatShare),
    todaysTariff: cell(tariffs[0]?.name ?? null),
    todaysPlace: cell(today),
    todaysIsPriced: cell(1),
    fromMonth: cell(null),
    toMonth: cell(null),
    ratesUsed: cell(ratesUsed),
    tariffs: tariffs.map((tariff, t) => {
      row = 10;
      const typedTariff = tariffCells(tariff);
      const of = (value: CellValue): Line => cell(value, 2 + t);
      return {
        name: of(typedTariff.name),
        clock: of(typedTariff.clock),
        includesVat: of(typedTariff.includesVat),
        halfHourlyPriced: of(typedTariff.halfHourlyPriced),
        priceIncludesVat: of(typedTariff.priceIncludesVat),
        priced: of(1),
        windows: typedTariff.windows.map(({ from, to, days: on }) => ({
          from: of(from),
          to: of(to),
          days: of(from === null ? on : (windowDays ?? on)),
        })),
        periods: typedTariff.periods.map((period, p) => ({
          validFrom: p === 0 ? undefined : of(period.validFrom),
          standing: of(period.standing),
          base: of(period.base),
          windowRates: period.windowRates.map(of),
          exportRate: of(period.exportRate),
        })),
      };
    }),
    battery: Object.fromEntries(
      Object.entries(battery).map(([key, value]) => [key, cell(value)]),
    ) as unknown as BatteryTerms,
    // What is given here can be used.
    batteryFlags: cell(0),
    timers: {
      car: timerCells(timers.car ?? NO_TIMER),
      hotWater: timerCells(timers.hotWater ?? NO_TIMER),
      tank: {
        kwhPerDay: cell(timers.hotWater?.kwhPerDay ?? null),
        from: cell(timers.hotWater?.heatedFrom ?? null),
        to: cell(timers.hotWater?.heatedTo ?? null),
      },
      supply: { limitKw: cell(null) },
      carFlags: cell(0),
      hotWaterFlags: cell(0),
      supplyFlags: cell(0),
    },
    bills: noBills(inputs),
  };
  const declared = workings(terms, shapeOf(days, tariffs.length));
  const { readings, clock } = declared;
  const clockOfZone = new ZoneClock(rows.zone, rows.startUtcMs[0] ?? 0, rows.startUtcMs.at(-1) ?? 0);
  const places = order ?? Array.from(rows.startUtcMs, (_, i) => i);
  places.forEach((place, i) => {
    const start = rows.startUtcMs[place] ?? 0;
    put(readings.start.cell(i), localMsToSerial(start + clockOfZone.offsetMinutesAt(start) * 60_000));
    for (const channel of CHANNELS)
      put(readings.channels[channel].cell(i), rows.channels[channel]?.[place] ?? null);
  });
  const table = clockTable(rows.zone);
  const list: [Column, Float64Array][] = [
    [clock.from, table.fromLocalSerial],
    [clock.before, table.offsetBeforeHours],
    [clock.after, table.offsetAfterHours],
    [clock.gained, table.minutesGained],
    [clock.day, table.daySerial],
  ];
  for (const [column, values] of list)
    values.forEach((value, i) => {
      put(column.cell(i), value);
    });

  const grid = new Grid();
  const sheets = [inputs, ...declared.sheets];
  putLines(sheets, grid);
  for (const { sheet, row: at, column, value } of typed) grid.column(sheet, column).setValue(at, value);
  const at = (column: Column, index: number): Value => grid.value(column.cell(index));
  return {
    workings: declared,
    sheets,
    typed,
    of: (line) => grid.value(line.place),
    at,
    numbers: (column) => Array.from({ length: column.rows }, (_, i) => Number(at(column, i)) || 0),
    period: (column) => {
      const line = declared.months.period.get(column);
      if (line === undefined) throw new RangeError(`${column.text.label} has no sum over the period`);
      return grid.value(line.place);
    },
  };
}

/** Where bills would stand: none is typed. */
function noBills(inputs: SheetBuilder): InputTerms['bills'] {
  const at = (column: number, name: string): InputTerms['bills']['from'] =>
    areaReference(
      { sheet: inputs.name, firstRow: 1, lastRow: 2, firstColumn: column, lastColumn: column },
      name,
    );
  return {
    from: at(20, 'bill_from'),
    to: at(21, 'bill_to'),
    number: at(22, 'bill_numbers'),
    place: at(23, 'bill_places'),
  };
}

/**
 * A home of random use: import at most times, export at noon, now and then a heat pump, a car, a gap.
 *
 * @param seed the same seed gives the same home
 * @param zone IANA name
 * @param firstUtcMs start of the first half-hour
 * @param days local days, whole ones
 * @param gaps share of half-hours that were not metered
 */
export function randomRows(seed: number, zone: string, firstUtcMs: number, days: number, gaps = 0): Rows {
  const { uniform } = seededRandom(`workings ${seed}`);
  const clock = new ZoneClock(zone, firstUtcMs, firstUtcMs + (days + 1) * 86_400_000);
  const local = (i: number): number => {
    const start = firstUtcMs + i * 1_800_000;
    return start + clock.offsetMinutesAt(start) * 60_000;
  };
  const kept = Array.from({ length: (days + 1) * 48 }, (_, i) => i)
    .filter((i) => local(i) < local(0) + days * 86_400_000)
    .filter((i) => i === 0 || uniform() >= gaps);
  const series = (of: (halfHour: number) => number): Float64Array => Float64Array.from(kept, of);
  const round = (kwh: number): number => Math.round(kwh * 1000) / 1000;
  const exportKwh = series((i) => (i % 48 > 20 && i % 48 < 28 && uniform() < 0.6 ? round(uniform() * 2) : 0));
  const importKwh = exportKwh.map((kwh) => (kwh > 0 ? 0 : round(uniform() * (uniform() < 0.1 ? 4 : 0.6))));
  return {
    zone,
    startUtcMs: series((i) => firstUtcMs + i * 1_800_000),
    channels: {
      importKwh,
      exportKwh,
      solarKwh: exportKwh.map((kwh) => round(kwh * 1.2)),
      heatPumpKwh: importKwh.map((kwh) => round(kwh * 0.3 * uniform())),
      carKwh: importKwh.map((kwh) => (kwh > 1 ? round(kwh * 0.6) : 0)),
      pricePence: series((i) => round(10 + 15 * uniform() + (i % 48 > 32 && i % 48 < 38 ? 20 : 0))),
    },
  };
}
