import { type BatteryCells, blankStoredBatteryResults } from '../inputs/battery-cells.js';
import { blankHeatingCells } from '../inputs/heating-cells.js';
import { blankTariffCells } from '../inputs/tariff-cells.js';
import { TARIFF_COUNT } from '../layout.js';
import { BATTERY_INPUT_ROW } from '../model/battery/battery-rows.js';
import type { StartingInputs } from '../model/workbook-model.js';

/** Inputs of which nothing is known yet: enough for the model to say what stands where. */
export function blankStart(): StartingInputs {
  return {
    home: {
      timeZone: null,
      vatShare: null,
      currency: null,
      minorUnit: null,
      largestHalfHourKwh: null,
      batteryRan: null,
    },
    battery: Object.fromEntries(Object.keys(BATTERY_INPUT_ROW).map((key) => [key, null])) as Record<
      keyof BatteryCells,
      null
    >,
    storedBattery: blankStoredBatteryResults(),
    heating: blankHeatingCells(),
    todaysTariff: null,
    fromMonth: null,
    toMonth: null,
    tariffs: Array.from({ length: TARIFF_COUNT }, blankTariffCells),
    clockTimeZone: 'UTC',
  };
}
