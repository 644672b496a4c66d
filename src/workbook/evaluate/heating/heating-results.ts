import { compareHeating, type HeatingComparison } from '../../../heating/compare-heating.js';
import { HEATING_INPUTS, HEATING_MONTH_INPUTS } from '../../../heating/comparison/heating-inputs.js';
import { SENSITIVITY_ROWS } from '../../../heating/comparison/sensitivity-lines.js';
import type { HeatingCells } from '../../inputs/heating-cells.js';
import type { WorkbookInputs } from '../../inputs/workbook-inputs.js';
import { READING_ROWS } from '../../layout.js';
import { SETTINGS } from '../../model/heating/heating-settings.js';
import type { CellValue } from '../../model/sheet-model.js';
import type { DayLines } from '../day-lines.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import type { MonthLines } from '../month-lines.js';
import { todaysIndex } from '../tariff-totals.js';
import { type GasLines, gasLines } from './gas-lines.js';
import { type HeatingDayLines, heatingDayLines } from './heating-day-lines.js';
import { type HeatingMonth, heatingMonthLines } from './heating-month-lines.js';
import { type TemperatureLines, temperatureLines } from './temperature-lines.js';
import { usedSetting } from './used-settings.js';

/** Every line of the heating sheets. */
export interface HeatingResults {
  /** Place of the tariff whose rates price the heat pump, -1 where it is not found. */
  tariff: number;
  /** Settings as the comparison takes them, by key. */
  settings: Record<string, CellValue>;
  temperatures: TemperatureLines;
  days: HeatingDayLines;
  gas: GasLines[];
  months: HeatingMonth[];
  comparison: HeatingComparison;
}

/** What the heating sheets take from the other sheets. */
export interface HeatingParts {
  halfHours: HalfHourLines;
  days: DayLines;
  months: MonthLines;
  /** Unit rates of each tariff by half-hour, p/kWh. */
  unitRates: readonly Float64Array[];
  /** Heat pump's cost through the battery by month, pence, and the tariff that it is of; undefined without one. */
  battery: { tariff: number; heatPumpPence: ArrayLike<number> } | undefined;
}

/** Compares heat pump and boiler with the library, from the cells of the workbook. */
export function heatingResults(inputs: WorkbookInputs, parts: HeatingParts): HeatingResults {
  const { heating, readings } = inputs;
  const { halfHours, days, months } = parts;
  const settings: Record<string, CellValue> = Object.fromEntries(
    SETTINGS.map(({ input }) => [input.key, usedSetting(input, heating.settings[input.key] ?? null)]),
  );
  const figure = (key: string): number => settings[key] as number;
  settings.disagreeBeyondShare = Math.max(figure('agreeWithinShare'), figure('disagreeBeyondShare'));

  const tariff = todaysIndex(inputs.tariffs, heating.settings.tariff ?? inputs.todaysTariff);
  const rates = parts.unitRates[tariff];
  const halfHourCostPence = new Float64Array(READING_ROWS);
  if (rates !== undefined) {
    for (let row = 0; row < READING_ROWS; row++) {
      if (halfHours.dayNumber[row] === 0) continue;
      halfHourCostPence[row] = (readings.values.heatPumpKwh[row]! || 0) * rates[row]!;
    }
  }

  const baseC = figure('degreeDayBaseC');
  const temperatures = temperatureLines(heating.temperatures, baseC);
  settings.yearDegreeDays ??= temperatures.yearDegreeDays(figure('yearDays'));
  const heatingDays = heatingDayLines(readings, halfHours, days, temperatures, {
    baseC,
    byHalfHours: settings.degreeDayMethod === 'half-hours',
  });
  const gas = gasLines(heating.gas, temperatures, days, heatingDays, {
    calorificValueMjPerM3: figure('calorificValueMjPerM3'),
    volumeCorrection: figure('volumeCorrection'),
    scaleDegreeDays: settings.scaleDegreeDays === 'yes',
  });
  if (isSummerGasTooMuch(settings.enteredBaseGasKwhPerDay ?? null, gas)) {
    settings.enteredBaseGasKwhPerDay = null;
  }
  const monthLines = heatingMonthLines({
    heating,
    readings,
    halfHours,
    days,
    months,
    heatingDays,
    leastCoverageShare: figure('leastCoverageShare'),
    halfHourCostPence: rates === undefined ? undefined : halfHourCostPence,
    batteryPence: parts.battery?.tariff === tariff ? parts.battery.heatPumpPence : undefined,
  });
  return {
    tariff,
    settings,
    temperatures,
    days: heatingDays,
    gas,
    months: monthLines,
    comparison: compareHeating({
      settings: pick(
        settings,
        HEATING_INPUTS.map(({ key }) => key),
      ),
      gasMonths: gas.map(({ gasDays, gasKwh, gasDegreeDays }) => ({ gasDays, gasKwh, gasDegreeDays })),
      months: monthLines.map((month) =>
        pick(
          month,
          HEATING_MONTH_INPUTS.map(({ key }) => key),
        ),
      ),
      sensitivity: usedSensitivity(heating),
    }),
  };
}

/** The rows of the sensitivity table; a wrong figure counts as its initial one. */
export function usedSensitivity({ sensitivity }: HeatingCells): typeof SENSITIVITY_ROWS {
  return SENSITIVITY_ROWS.map((row, i) => {
    const cell = sensitivity[i] ?? null;
    return typeof cell === 'number' && cell > 0 ? { ...row, sensitivityValue: cell } : row;
  });
}

/** Whether a summer gas a day comes to more than all gas that was metered. */
export function isSummerGasTooMuch(gasKwhPerDay: CellValue, rows: readonly GasLines[]): boolean {
  if (typeof gasKwhPerDay !== 'number') return false;
  let days = 0;
  let kwh = 0;
  for (const { gasDays, gasKwh, gasDegreeDays } of rows) {
    if (gasDays === null || gasKwh === null || gasDegreeDays === null) continue;
    days += gasDays;
    kwh += gasKwh;
  }
  return days > 0 && kwh - gasKwhPerDay * days < 0;
}

function pick(from: object, keys: readonly string[]): Record<string, string | number | null> {
  const values = from as Record<string, string | number | null>;
  return Object.fromEntries(keys.map((key) => [key, values[key] ?? null]));
}
