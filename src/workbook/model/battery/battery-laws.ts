import { absolute } from '../../cell-address.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import { LAST_READING_ROW, MONTH_ROWS, SEED_ROW, SHEETS } from '../../layout.js';
import { HALF_HOUR, halfHourColumn } from '../columns.js';
import {
  BATTERY_REFERENCES as B,
  BATTERY_HALF_HOUR,
  BATTERY_MONTH,
  BATTERY_SPAN_ROW,
  batteryHalfHourColumn,
  batteryMonthColumn,
} from './battery-columns.js';

/** Energy and levels that differ by less agree, kWh. */
export const TOLERANCE_KWH = 1e-6;
const SMALL = TOLERANCE_KWH.toFixed(6);
/** What rounding a month's line to the penny can add, in the currency. */
const ROUNDING = 0.006;

/** A law that the battery's lines of a tariff keep; each tariff has a cell for it, so that one rate works out one cell. */
export interface BatteryLaw {
  /** Row under the battery months. */
  row: number;
  name: string;
  /** Condition, without `=`, that holds where the law is broken. */
  formula: (tariff: number) => string;
  isBroken: (results: WorkbookResults, tariff: number) => boolean;
}

const column = (letters: (tariff: number) => string, tariff: number): string =>
  batteryHalfHourColumn(letters(tariff));
const sum = (values: Float64Array): number => values.reduce((a, b) => a + b, 0);

export const BATTERY_LAWS: readonly BatteryLaw[] = [
  {
    row: BATTERY_SPAN_ROW.outOfBounds,
    name: 'Tariffs on which the battery’s level leaves its bounds',
    formula: (t) => {
      const level = column(BATTERY_HALF_HOUR.level, t);
      return `OR(MIN(${level})<-${SMALL},MAX(${level})>${B.usableKwh}+${SMALL})`;
    },
    isBroken: ({ battery: { tariffs, figures } }, t) => {
      const { usableKwh } = figures.battery;
      return tariffs[t]!.halfHours.levelKwh.some(
        (kwh) => kwh < -TOLERANCE_KWH || kwh > usableKwh + TOLERANCE_KWH,
      );
    },
  },
  {
    row: BATTERY_SPAN_ROW.unbalanced,
    name: 'Tariffs on which the level is not what went in and out',
    formula: (t) => {
      const flow = column(BATTERY_HALF_HOUR.battery, t);
      const level = (row: number): string =>
        absolute(SHEETS.batteryHalfHours, BATTERY_HALF_HOUR.level(t), row);
      const stored = `${B.chargeEfficiency}*SUMIF(${flow},">0")+SUMIF(${flow},"<0")/${B.dischargeEfficiency}`;
      return `ABS(${level(LAST_READING_ROW)}-${level(SEED_ROW)}-(${stored}))>${SMALL}`;
    },
    isBroken: ({ battery: { tariffs, figures } }, t) => {
      const { batteryKwh, levelKwh } = tariffs[t]!.halfHours;
      const { battery } = figures;
      let stored = Math.min(battery.startKwh, battery.usableKwh);
      for (const kwh of batteryKwh) {
        stored += kwh > 0 ? battery.chargeEfficiency * kwh : kwh / battery.dischargeEfficiency;
      }
      return Math.abs(levelKwh.at(-1)! - stored) > TOLERANCE_KWH;
    },
  },
  {
    row: BATTERY_SPAN_ROW.unrounded,
    name: 'Tariffs whose months with the battery differ from their half-hours',
    formula: (t) =>
      `ABS(SUM(${batteryMonthColumn(BATTERY_MONTH.energy(t))})-SUMPRODUCT(${column(BATTERY_HALF_HOUR.importWith, t)},${halfHourColumn(HALF_HOUR.unitRate(t))})/100)>${MONTH_ROWS}*${ROUNDING}`,
    isBroken: ({ battery: { tariffs }, tariffs: priced }, t) => {
      const {
        months,
        halfHours: { importKwh },
      } = tariffs[t]!;
      const { unitRatePence } = priced[t]!.halfHours;
      const pence = importKwh.reduce((cost, kwh, row) => cost + kwh * unitRatePence[row]!, 0);
      return Math.abs(sum(months.energyPounds) - pence / 100) > MONTH_ROWS * ROUNDING;
    },
  },
  {
    // It grows by what charging takes beyond the export, and falls by what is given, up to the demand that may be served.
    row: BATTERY_SPAN_ROW.impossible,
    name: 'Tariffs on which import changes by other than what the battery takes and gives',
    formula: (t) => {
      const flow = column(BATTERY_HALF_HOUR.battery, t);
      const servable = batteryHalfHourColumn(BATTERY_HALF_HOUR.servable);
      const exported = halfHourColumn(HALF_HOUR.exportKwh);
      // Products of comparisons, because functions are not worked out row by row in every program.
      const grown = `(${column(BATTERY_HALF_HOUR.importWith, t)}-${halfHourColumn(HALF_HOUR.importKwh)})`;
      const taken = `(${flow}-${exported}*(${exported}>0))*(${flow}>0)*(${flow}>${exported})`;
      const given = `(${flow}<0)*(${servable}-(${servable}+${flow})*(${servable}+${flow}>0))`;
      const gap = `(${grown}-${taken}+${given})`;
      return `SUMPRODUCT((${gap}>${SMALL})+(${gap}<-${SMALL}))>0`;
    },
    isBroken: ({ battery: { tariffs, home }, halfHours }, t) => {
      const { importKwh, batteryKwh } = tariffs[t]!.halfHours;
      return importKwh.some((kwh, row) => {
        const flow = batteryKwh[row]!;
        const taken = flow > 0 ? Math.max(0, flow - Math.max(0, halfHours.exportKwh[row]!)) : 0;
        const given = flow < 0 ? Math.min(home.servableKwh[row]!, -flow) : 0;
        return Math.abs(kwh - halfHours.importKwh[row]! - taken + given) > TOLERANCE_KWH;
      });
    },
  },
];
