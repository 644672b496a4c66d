import type { Battery } from '../../../battery/battery.js';
import { storedEnergyCost } from '../../../battery/stored-energy-cost.js';
import type { ReadingRows } from '../../inputs/workbook-inputs.js';
import { READING_ROWS } from '../../layout.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import { sumByMonth } from '../month-lines.js';
import { type BatteryHomeLines, positiveReading } from './battery-home-lines.js';
import {
  type BatteryTariffLines,
  batteryInput,
  type PricedTariff,
  workedRows,
} from './battery-tariff-lines.js';

/** What energy really cost on the tariff looked at; one entry a half-hour, and sums by month. */
export interface RealCostLines {
  heatPumpKwh: Float64Array;
  carKwh: Float64Array;
  startStockPence: number;
  stockPence: Float64Array;
  deliveredUnitPence: Float64Array;
  /** Cost that the users share in proportion; without a car that the battery may not feed. */
  sharedPence: Float64Array;
  heatPumpPence: Float64Array;
  carPence: Float64Array;
  months: Record<
    'houseKwh' | 'heatPumpKwh' | 'carKwh' | 'totalPence' | 'heatPumpPence' | 'carPence',
    Float64Array
  >;
}

/**
 * What energy really cost through the battery.
 *
 * @param tariff the tariff looked at and its battery lines; undefined where none is chosen
 */
export function realCostLines(
  tariff: { priced: PricedTariff; lines: BatteryTariffLines } | undefined,
  home: BatteryHomeLines,
  halfHours: HalfHourLines,
  readings: ReadingRows,
  battery: Battery,
): RealCostLines {
  const rows = workedRows(home);
  const whole = (): Float64Array => new Float64Array(READING_ROWS);
  const lines = {
    heatPumpKwh: whole(),
    carKwh: whole(),
    stockPence: whole(),
    deliveredUnitPence: whole(),
    sharedPence: whole(),
    heatPumpPence: whole(),
    carPence: whole(),
  };
  const use = {
    demandKwh: Float64Array.from(rows, (row) => home.houseKwh[row]!),
    heatPumpKwh: Float64Array.from(rows, (row) => positiveReading(readings.values.heatPumpKwh, row)),
    carKwh: Float64Array.from(rows, (row) => positiveReading(readings.values.carKwh, row)),
  };
  rows.forEach((row, i) => {
    const heatPump = use.heatPumpKwh[i]!;
    const car = use.carKwh[i]!;
    const house = use.demandKwh[i]!;
    const all = heatPump + car + Math.max(0, house - heatPump - car);
    if (all === 0) return;
    lines.heatPumpKwh[row] = (heatPump * house) / all;
    lines.carKwh[row] = (car * house) / all;
  });
  let startStockPence = 0;
  if (tariff !== undefined) {
    const input = batteryInput(
      rows,
      halfHours,
      readings,
      tariff.priced.halfHours.unitRatePence,
      tariff.lines.days.exportRate,
    );
    const of = (values: Float64Array): Float64Array => Float64Array.from(rows, (row) => values[row]!);
    const cost = storedEnergyCost(input, use, battery, {
      batteryKwh: of(tariff.lines.halfHours.batteryKwh),
      levelKwh: of(tariff.lines.halfHours.levelKwh),
    });
    startStockPence = cost.startStockPence;
    let stock = startStockPence;
    for (let row = 0, i = 0; row < READING_ROWS; row++) {
      if (rows[i] === row) {
        stock = cost.stockPence[i]!;
        lines.deliveredUnitPence[row] = cost.deliveredUnitPence[i]!;
        lines.heatPumpPence[row] = cost.heatPumpPence[i]!;
        lines.carPence[row] = cost.carPence[i]!;
        const sharers = cost.heatPumpPence[i]! + cost.restPence[i]!;
        lines.sharedPence[row] = sharers + (battery.mayFeedCar ? cost.carPence[i]! : 0);
        i++;
      }
      lines.stockPence[row] = stock;
    }
  }
  const byMonth = (values: Float64Array): Float64Array => sumByMonth(halfHours.monthNumber, values);
  const carPence = byMonth(lines.carPence);
  return {
    ...lines,
    startStockPence,
    months: {
      houseKwh: byMonth(home.houseKwh),
      heatPumpKwh: byMonth(lines.heatPumpKwh),
      carKwh: byMonth(lines.carKwh),
      totalPence: byMonth(lines.sharedPence).map(
        (pence, m) => pence + (battery.mayFeedCar ? 0 : carPence[m]!),
      ),
      heatPumpPence: byMonth(lines.heatPumpPence),
      carPence,
    },
  };
}
