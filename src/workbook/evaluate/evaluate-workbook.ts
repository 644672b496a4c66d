import { numberIn, type WorkbookInputs } from '../inputs/workbook-inputs.js';
import { type BatteryLines, batteryLines } from './battery/battery-lines.js';
import { dayLines, tariffDayLines } from './day-lines.js';
import { halfHourLines } from './half-hour-lines.js';
import { type HeatingParts, heatingResults } from './heating/heating-results.js';
import { monthLines, tariffMonthLines } from './month-lines.js';
import { rateLines } from './rate-lines.js';
import { tariffHalfHours } from './tariff-half-hours.js';
import { periodTotals, tariffSums, tariffTotals, todaysIndex } from './tariff-totals.js';
import type { WorkbookResults } from './workbook-results.js';

/**
 * Works out every line of the workbook with the library.
 *
 * @param inputs what the input cells hold, right or wrong: wrong cells are counted by the checks, as in the workbook
 * @returns the lines of all sheets, in their units
 */
export function evaluateWorkbook(inputs: WorkbookInputs): WorkbookResults {
  const halfHours = halfHourLines(inputs);
  const days = dayLines(halfHours, inputs.clock);
  const months = monthLines(halfHours, days, inputs.fromMonth, inputs.toMonth);
  const period = periodTotals(months);
  const todays = todaysIndex(inputs.tariffs, inputs.todaysTariff);
  const priced = inputs.tariffs.map((cells) => {
    const rates = rateLines(cells, numberIn(inputs.home.vatShare));
    const ofDays = tariffDayLines(days, rates);
    const ofHalfHours = tariffHalfHours(halfHours, inputs.readings, rates, ofDays);
    const ofMonths = tariffMonthLines(halfHours, days, ofHalfHours, ofDays);
    return {
      rates,
      days: ofDays,
      halfHours: ofHalfHours,
      months: ofMonths,
      sums: tariffSums(months, ofMonths),
    };
  });
  const totals = tariffTotals(
    inputs.tariffs,
    priced.map((tariff) => tariff.sums),
    period,
    todays,
  );
  const battery = batteryLines(inputs, priced, { halfHours, days, months });
  return {
    inputs,
    halfHours,
    days,
    months,
    period,
    battery,
    heating: heatingResults(inputs, {
      halfHours,
      days,
      months,
      unitRates: priced.map((tariff) => tariff.halfHours.unitRatePence),
      battery: heatPumpThroughBattery(battery),
    }),
    tariffs: priced.map((tariff, t) => ({ ...tariff, totals: totals[t]! })),
    todays,
  };
}

/** What the heat pump cost through the battery by month; undefined without a battery. */
function heatPumpThroughBattery({ figures, chosen, realCost }: BatteryLines): HeatingParts['battery'] {
  if (figures.battery.usableKwh === 0 || chosen < 0) return undefined;
  return { tariff: chosen, heatPumpPence: realCost.months.heatPumpPence };
}
