import { BATTERY_FIELDS } from '../fields/battery-fields.js';
import { blankCells } from '../fields/rule.js';
import { blankStoredBatteryResults } from '../inputs/battery-cells.js';
import { blankBillsCells } from '../inputs/bill-cells.js';
import { blankHeatingCells } from '../inputs/heating-cells.js';
import { blankStoredTimerResults } from '../inputs/stored-timers.js';
import { blankTariffCells } from '../inputs/tariff-cells.js';
import { blankTimerCells } from '../inputs/timer-cells.js';
import { TARIFF_COUNT } from '../layout.js';
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
    battery: blankCells(BATTERY_FIELDS),
    storedBattery: blankStoredBatteryResults(),
    heating: blankHeatingCells(),
    bills: blankBillsCells(),
    timers: blankTimerCells(),
    storedTimers: blankStoredTimerResults(),
    todaysTariff: null,
    fromMonth: null,
    toMonth: null,
    ratesUsed: null,
    tariffs: Array.from({ length: TARIFF_COUNT }, blankTariffCells),
    clockTimeZone: 'UTC',
  };
}
