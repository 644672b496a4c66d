import type { Battery } from '../../../battery/battery.js';
import { carSunKwh, storedEnergyCost } from '../../../battery/stored-energy-cost.js';
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
  /** Import of a car that the battery may not feed; 0 otherwise. */
  carGridKwh: Float64Array;
  /** Sun of such a car, at the export rate. */
  carSunPence: Float64Array;
  stockPence: Float64Array;
  /** Cost that the users share in proportion; without a car that the battery may not feed. */
  sharedPence: Float64Array;
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
    carGridKwh: whole(),
    carSunPence: whole(),
    stockPence: whole(),
    sharedPence: whole(),
  };
  const heatPumpPence = whole();
  const carPence = whole();
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
    if (!battery.mayFeedCar) {
      lines.carGridKwh[row] = Math.min(car, Math.max(0, halfHours.importKwh[row]!));
    }
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
        heatPumpPence[row] = cost.heatPumpPence[i]!;
        carPence[row] = cost.carPence[i]!;
        if (!battery.mayFeedCar) {
          const sunKwh = use.demandKwh[i]! - input.importKwh[i]!;
          lines.carSunPence[row] =
            carSunKwh(sunKwh, lines.carKwh[row]!, lines.carGridKwh[row]!) * input.exportRatePence[i]!;
        }
        const sharers = cost.heatPumpPence[i]! + cost.restPence[i]!;
        lines.sharedPence[row] = sharers + (battery.mayFeedCar ? cost.carPence[i]! : 0);
        i++;
      }
      lines.stockPence[row] = stock;
    }
  }
  const byMonth = (values: Float64Array): Float64Array => sumByMonth(halfHours.monthNumber, values);
  const carByMonth = byMonth(carPence);
  return {
    ...lines,
    startStockPence,
    months: {
      houseKwh: byMonth(home.houseKwh),
      heatPumpKwh: byMonth(lines.heatPumpKwh),
      carKwh: byMonth(lines.carKwh),
      totalPence: byMonth(lines.sharedPence).map(
        (pence, m) => pence + (battery.mayFeedCar ? 0 : carByMonth[m]!),
      ),
      heatPumpPence: byMonth(heatPumpPence),
      carPence: carByMonth,
    },
  };
}
