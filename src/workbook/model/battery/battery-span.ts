import type { Node } from '../../../formula/nodes.js';
import { SheetBuilder } from '../../book/sheet-builder.js';
import { across, all, type Column, f, joined, type Line } from '../../book/terms.js';
import { BLOCK_ROWS, FIRST_COLUMN, SHEETS, TARIFF_COUNT } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { periodLine } from '../period-line.js';
import { type RealCostMonths, realCostMonths } from './real-cost-months.js';
import {
  fingerprintOfTariff,
  type LawsOfTariff,
  lawsOfTariff,
  type PeriodOfTariff,
  periodOfTariff,
} from './span-of-tariff.js';
import { SPAN_FIRST_ROW, SpanRows, slice } from './span-rows.js';
import { weighedByTime } from './weighed-by-time.js';

/** How much each of the battery's figures weighs in the fingerprint: no two changes cancel by chance. */
const FIGURE_WEIGHTS = {
  usableKwh: 1103,
  chargeKw: 1301,
  dischargeKw: 1709,
  chargeEfficiency: 19_001,
  dischargeEfficiency: 23_003,
  reserveKwh: 2903,
  startKwh: 3109,
  wearPencePerKwh: 3709,
  chargesFromGrid: 4111,
  carBarred: 4307,
  mayExport: 4703,
} as const;
/** The same for the days of the period and the tariff looked at. */
const PERIOD_WEIGHTS = { first: 5003, last: 5303 } as const;
const TARIFF_WEIGHT = 6007;
/** Changes with the rule: what the rule before it cost by size is no longer current. */
const RULE_WEIGHT = 7001;

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);

/** A tariff's lines over the chosen period, and the laws that hold over all days. */
export type SpanOfTariff = PeriodOfTariff & { fingerprint: Line } & LawsOfTariff;

/** The battery over the chosen period. */
export interface BatterySpan {
  sheet: SheetBuilder;
  firstDay: Line;
  lastDay: Line;
  /** First and last row of the period in the grid, from 1. */
  firstRow: Line;
  lastRow: Line;
  /** Half-hours with a reading. */
  halfHours: Line;
  sizingFingerprint: Line;
  lookedName: Line;
  tariffs: readonly SpanOfTariff[];
  months: RealCostMonths;
  period: ReadonlyMap<Column, Line>;
}

/**
 * The battery over the chosen period, and what energy really cost by month.
 *
 * @param book inputs and workings
 */
export function batterySpan(book: Book): BatterySpan {
  const { workings } = book;
  const { months, calendar, battery, halfHours, looked } = workings;
  const sheet = new SheetBuilder(
    SHEETS.batterySpan,
    SPAN_FIRST_ROW,
    FIRST_COLUMN.batterySpan,
    'Battery span',
  );
  const rows = new SpanRows(sheet);
  const ofHome = (text: string, unit: string, style: StyleName, name: string, is: Node): Line =>
    rows.line(0, text, unit, style, is, name);

  rows.heading('The chosen period');
  const firstMonth = ofHome(
    'First month',
    'row of Months; 0: none',
    'integer',
    'span_first_month',
    f`IFERROR(MATCH(1,${all(months.selected)},0),0)`,
  );
  const firstDay = ofHome(
    'First day',
    'row of Days; 0: none',
    'integer',
    'span_first_day',
    f`IF(${firstMonth}=0,0,MATCH(${firstMonth},${all(calendar.month)},0))`,
  );
  const lastDay = ofHome(
    'Last day',
    'row of Days; 0: none',
    'integer',
    'span_last_day',
    f`IF(${firstMonth}=0,0,${firstDay}+${periodLine(book, months.days)}-1)`,
  );
  const firstRow = ofHome(
    'First half-hour',
    'row of Grid, from 1',
    'integer',
    'span_first_row',
    f`MAX(0,${firstDay}-1)*${BLOCK_ROWS}+1`,
  );
  const lastRow = ofHome(
    'Last half-hour',
    'row of Grid, from 1',
    'integer',
    'span_last_row',
    f`MAX(1,${lastDay})*${BLOCK_ROWS}`,
  );
  const halfHoursRead = ofHome(
    'Half-hours with a reading',
    'count',
    'integer',
    'span_half_hours',
    f`IF(${firstMonth}=0,0,COUNT(${slice(halfHours.usedKwh, firstRow, lastRow)}))`,
  );
  const span = { firstDay, lastDay };

  rows.heading('Fingerprint of what all tariffs share');
  const weighed = (text: string, name: string, column: Column): Line =>
    ofHome(`${text}, weighed by time`, 'number', 'pence', name, weighedByTime(book, column));
  const figures = (text: string, name: string, keys: readonly (keyof typeof FIGURE_WEIGHTS)[]): Line =>
    ofHome(
      text,
      'number',
      'pence',
      name,
      joined(
        '+',
        keys.map((key) => f`${FIGURE_WEIGHTS[key]}*${battery[key]}`),
      ),
    );
  const homeParts = [
    weighed('Import', 'weighed_import', halfHours.importKwh),
    weighed('Export', 'weighed_export', halfHours.exportKwh),
    weighed('Sun stored or use served', 'weighed_store_change', halfHours.storeChangeKwh),
    weighed('Car', 'weighed_car', halfHours.carKwh),
    figures('Capacity, powers and efficiencies, weighed', 'weighed_size', [
      'usableKwh',
      'chargeKw',
      'dischargeKw',
      'chargeEfficiency',
      'dischargeEfficiency',
    ]),
    figures('Levels, wear and choices, weighed', 'weighed_choices', [
      'reserveKwh',
      'startKwh',
      'wearPencePerKwh',
      'chargesFromGrid',
      'carBarred',
      'mayExport',
    ]),
  ];
  const [imported, exported, stored, car, ...ofBattery] = homeParts.map((part) => f`${part}`);
  const homeFingerprint = ofHome(
    'Fingerprint of readings, battery and period',
    'number',
    'pence',
    'home_fingerprint',
    f`${imported ?? 0}+2*${exported ?? 0}+3*${stored ?? 0}+5*${car ?? 0}+${joined('+', ofBattery)}+${PERIOD_WEIGHTS.first}*${firstDay}+${PERIOD_WEIGHTS.last}*${lastDay}`,
  );
  const weighedPrice = weighed('Half-hourly price', 'weighed_price', halfHours.pricePence);

  rows.heading('Over the chosen period, tariff by tariff');
  const ofTariffs = tariffs.map((t) => periodOfTariff(book, rows, span, t));
  rows.heading('Fingerprints of all that the least cost depends on');
  const fingerprints = tariffs.map((t) =>
    fingerprintOfTariff(book, rows, { home: homeFingerprint, price: weighedPrice }, t),
  );
  const sizingFingerprint = ofHome(
    'Fingerprint of the sizing, on the tariff looked at',
    'number',
    'pence',
    'sizing_fingerprint',
    f`IF(${looked}=0,0,INDEX(${across(fingerprints)},1,MAX(1,${looked}))+${TARIFF_WEIGHT}*${looked}+${RULE_WEIGHT})`,
  );
  rows.heading('Laws over all days, 1: broken');
  const laws = tariffs.map((t) => lawsOfTariff(book, rows, t));
  rows.heading('Words');
  const names = across(
    book.inputs.tariffs.map(({ name }) => name),
    'tariff_names',
  );
  const lookedName = ofHome(
    'Tariff looked at',
    'name',
    'text',
    'looked_at_name',
    f`IF(${looked}=0,"",INDEX(${names},1,MAX(1,${looked})))`,
  );
  const ofMonths = realCostMonths(book, sheet);
  return {
    sheet,
    firstDay,
    lastDay,
    firstRow,
    lastRow,
    halfHours: halfHoursRead,
    sizingFingerprint,
    lookedName,
    tariffs: tariffs.map((t) => {
      const [period, fingerprint, law] = [ofTariffs[t], fingerprints[t], laws[t]];
      if (period === undefined || fingerprint === undefined || law === undefined) {
        throw new RangeError(`there is no tariff ${t + 1}`);
      }
      return { ...period, fingerprint, ...law };
    }),
    ...ofMonths,
  };
}
