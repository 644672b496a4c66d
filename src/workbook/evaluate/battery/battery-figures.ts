import type { Battery } from '../../../battery/battery.js';
import { type BatteryCells, isEfficiency, oneWayEfficiencies } from '../../inputs/battery-cells.js';
import { numberIn, saysYes } from '../../inputs/workbook-inputs.js';

/** The battery as it is worked with. */
export interface BatteryFigures {
  /** Inputs that can't be used; while there are any, it counts as a battery of 0 kWh. */
  faults: number;
  battery: Battery;
}

/** Figures that have to be numbers of 0 or more. */
export const PLAIN_FIGURES = [
  'usableKwh',
  'chargeKw',
  'dischargeKw',
  'reserveKwh',
  'startKwh',
  'wearPencePerKwh',
] as const satisfies readonly (keyof BatteryCells)[];

/**
 * The battery of the input cells, right or wrong: a wrong figure is counted, and the battery left out.
 *
 * @param cells the inputs as they stand
 * @returns the faults, and a battery that every formula can work with
 */
export function batteryFigures(cells: BatteryCells): BatteryFigures {
  const { charge, discharge } = oneWayEfficiencies(cells);
  const isThere = numberIn(cells.usableKwh) > 0;
  const plainFaults = PLAIN_FIGURES.filter(
    (key) => typeof cells[key] === 'string' || numberIn(cells[key]) < 0,
  ).length;
  const powerFaults = [cells.chargeKw, cells.dischargeKw].filter((kw) => numberIn(kw) === 0).length;
  const efficiencyFaults =
    cells.roundTripEfficiency === null
      ? [charge, discharge].filter((share) => !isEfficiency(share)).length
      : isEfficiency(cells.roundTripEfficiency)
        ? 0
        : 1;
  const faults = plainFaults + (isThere ? powerFaults + efficiencyFaults : 0);
  const figure = (key: (typeof PLAIN_FIGURES)[number]): number => (faults === 0 ? numberIn(cells[key]) : 0);
  const works = faults === 0 && isThere;
  return {
    faults,
    battery: {
      usableKwh: figure('usableKwh'),
      chargeKw: figure('chargeKw'),
      dischargeKw: figure('dischargeKw'),
      chargeEfficiency: works ? (charge as number) : 1,
      dischargeEfficiency: works ? (discharge as number) : 1,
      reserveKwh: figure('reserveKwh'),
      startKwh: figure('startKwh'),
      wearPencePerKwh: figure('wearPencePerKwh'),
      chargeFromGrid: saysYes(cells.chargeFromGrid),
      mayFeedCar: saysYes(cells.mayFeedCar),
      mayExport: saysYes(cells.mayExport),
    },
  };
}
