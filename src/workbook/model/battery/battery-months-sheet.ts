import { storedEnergyFormulas } from '../../../battery/battery-formulas.js';
import { roundMoneyFormula } from '../../../charges/round-money.js';
import { absolute, sheetPrefix } from '../../cell-address.js';
import { FIGURE_WEIGHTS, PERIOD_WEIGHTS, SLOT_OFFSET } from '../../evaluate/battery/battery-period.js';
import { sumSelected } from '../../evaluate/tariff-totals.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import {
  FIRST_ROW,
  LAST_MONTH_ROW,
  MONTH_ROWS,
  READING_ROWS,
  SEED_ROW,
  SHEETS,
  TARIFF_COUNT,
} from '../../layout.js';
import { formula, label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import {
  DAY,
  dayColumn,
  HALF_HOUR as H,
  halfHourColumn,
  MONTH,
  monthColumn,
  PERIOD_ROW,
} from '../columns.js';
import type { Cell, FormulaColumn, SheetModel } from '../sheet-model.js';
import {
  BATTERY_REFERENCES as B,
  BATTERY_DAY,
  BATTERY_HALF_HOUR,
  batteryDayColumn,
  batteryDayColumnFromSeed,
  batteryHalfHourColumn,
  batteryMonthColumn,
  byChosenTariff,
  BATTERY_MONTH as C,
  fact,
  BATTERY_SPAN_ROW as SPAN,
} from './battery-columns.js';
import { BATTERY_LAWS } from './battery-laws.js';

type Text = Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>;

function column(
  letters: string,
  text: Text,
  formulaOf: FormulaColumn['formula'],
  values: FormulaColumn['values'],
): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows: MONTH_ROWS, ...text, formula: formulaOf, values };
}

const number = (r: number): string => `ROW($${C.start}${r})-${FIRST_ROW - 1}`;
const fromDays = (letters: string) => (r: number) =>
  `SUMIFS(${batteryDayColumn(letters)},${dayColumn(DAY.month)},${number(r)})`;
/** The month's stretch of a half-hourly column: quick to read, a sum with a condition reads the whole column every month. */
const slice = (column: string, r: number): string =>
  `INDEX(${column},$${C.firstRow}${r}):INDEX(${column},$${C.firstRow}${r + 1}-1)`;
/** A sum over the month; while rows of a day stand apart the slow way, which finds them wherever they are. */
const fromHalfHours = (letters: string) => (r: number) => {
  const column = batteryHalfHourColumn(letters);
  return (
    `IF(${fact('daysApart')}>0,SUMIFS(${column},${halfHourColumn(H.month)},${number(r)}),` +
    `IF($${C.firstRow}${r + 1}>$${C.firstRow}${r},SUM(${slice(column, r)}),0))`
  );
};

/** A sum over the month of products of columns, on either sheet of half-hours; `product` is given each column's stretch. */
const sumOfProducts = (columns: readonly string[], product: (parts: string[]) => string, r: number): string =>
  `IF(${fact('daysApart')}>0,SUMPRODUCT((${halfHourColumn(H.month)}=${number(r)})*${product([...columns])}),` +
  `IF($${C.firstRow}${r + 1}>$${C.firstRow}${r},SUMPRODUCT(${product(columns.map((column) => slice(column, r)))}),0))`;
/** A user's part of the cost that the users share, who are all or all but the car. */
const shareOf = (letters: string, r: number): string =>
  sumOfProducts(
    [BATTERY_HALF_HOUR.shared, letters, BATTERY_HALF_HOUR.house, BATTERY_HALF_HOUR.carKwh].map(
      batteryHalfHourColumn,
    ),
    ([shared, part, house, car]) =>
      storedEnergyFormulas.partOfShared({ shared: shared!, part: part!, house: house!, car: car! }, B),
    r,
  );
/** What a car that the battery may not feed takes from the grid and the roof. */
const ofCarAlone = (r: number): string =>
  `IF(${fact('chosen')}=0,0,${byChosenTariff((t) =>
    sumOfProducts(
      [batteryHalfHourColumn(BATTERY_HALF_HOUR.carGrid), halfHourColumn(H.unitRate(t))],
      (parts) => parts.join('*'),
      r,
    ),
  )}+${fromHalfHours(BATTERY_HALF_HOUR.carSunPence)(r)})`;

function homeColumns(): FormulaColumn[] {
  const kwh = { unit: 'kWh', style: 'kwh' } as const;
  const pence = { unit: '{minor}', style: 'pence' } as const;
  const lines = (r: WorkbookResults) => r.battery.realCost.months;
  const text = 'On the tariff looked at, through the battery';
  return [
    column(
      C.start,
      { label: 'Month', unit: 'first day', description: 'As on the months sheet', style: 'month' },
      (r) => `${sheetPrefix(SHEETS.months)}$${MONTH.start}${r}`,
      (r) => r.months.start,
    ),
    column(
      C.houseKwh,
      { label: 'Used by the home', description: 'Sum of the month', ...kwh },
      fromHalfHours(BATTERY_HALF_HOUR.house),
      (r) => lines(r).houseKwh,
    ),
    column(
      C.heatPumpKwh,
      { label: 'of it the heat pump', description: 'Sum of the month', ...kwh },
      fromHalfHours(BATTERY_HALF_HOUR.heatPumpKwh),
      (r) => lines(r).heatPumpKwh,
    ),
    column(
      C.carKwh,
      { label: 'of it the car', description: 'Sum of the month', ...kwh },
      fromHalfHours(BATTERY_HALF_HOUR.carKwh),
      (r) => lines(r).carKwh,
    ),
    column(
      C.total,
      { label: 'What that really cost', description: text, ...pence },
      (r) => `${fromHalfHours(BATTERY_HALF_HOUR.shared)(r)}+IF(${B.mayFeedCar}=1,0,$${C.carPence}${r})`,
      (r) => lines(r).totalPence,
    ),
    column(
      C.heatPumpPence,
      { label: 'of it the heat pump', description: text, ...pence },
      (r) => shareOf(BATTERY_HALF_HOUR.heatPumpKwh, r),
      (r) => lines(r).heatPumpPence,
    ),
    column(
      C.carPence,
      { label: 'of it the car', description: text, ...pence },
      (r) => `IF(${B.mayFeedCar}=1,${shareOf(BATTERY_HALF_HOUR.carKwh, r)},${ofCarAlone(r)})`,
      (r) => lines(r).carPence,
    ),
  ];
}

function tariffColumns(tariff: number): FormulaColumn[] {
  const name = `tariff ${tariff + 1}`;
  const lines = (r: WorkbookResults) => r.battery.tariffs[tariff]!.months;
  const pence = { unit: '{minor}', style: 'pence' } as const;
  const money = { unit: '{major}', style: 'money' } as const;
  const battery = batteryHalfHourColumn(BATTERY_HALF_HOUR.battery(tariff));
  return [
    column(
      C.energyPence(tariff),
      { label: `Energy with battery, ${name}`, description: 'Before rounding', ...pence },
      (r) =>
        sumOfProducts(
          [batteryHalfHourColumn(BATTERY_HALF_HOUR.importWith(tariff)), halfHourColumn(H.unitRate(tariff))],
          (parts) => parts.join('*'),
          r,
        ),
      (r) => lines(r).energyPence,
    ),
    column(
      C.exportCreditPence(tariff),
      { label: `Export credit with battery, ${name}`, description: 'Before rounding', ...pence },
      fromDays(BATTERY_DAY.exportCredit(tariff)),
      (r) => lines(r).exportCreditPence,
    ),
    column(
      C.energy(tariff),
      { label: `Energy with battery, ${name}`, description: 'Rounded on the line', ...money },
      (r) => roundMoneyFormula(`$${C.energyPence(tariff)}${r}/100`),
      (r) => lines(r).energyPounds,
    ),
    column(
      C.exportCredit(tariff),
      { label: `Export credit with battery, ${name}`, description: 'Rounded on the line', ...money },
      (r) => roundMoneyFormula(`$${C.exportCreditPence(tariff)}${r}/100`),
      (r) => lines(r).exportCreditPounds,
    ),
    column(
      C.totalPounds(tariff),
      {
        label: `Total with battery, ${name}`,
        description: 'Energy + standing charge − export credit',
        ...money,
      },
      (r) =>
        `ROUND($${C.energy(tariff)}${r}+${sheetPrefix(SHEETS.months)}$${MONTH.standing(tariff)}${r}-$${C.exportCredit(tariff)}${r},2)`,
      (r) => lines(r).totalPounds,
    ),
    column(
      C.deliveredKwh(tariff),
      {
        label: `Given by the battery, ${name}`,
        unit: 'kWh AC',
        description: 'Sum of what it gave',
        style: 'kwh',
      },
      (r) =>
        `IF(AND(${fact('daysApart')}=0,$${C.firstRow}${r + 1}>$${C.firstRow}${r}),-SUMIF(${slice(battery, r)},"<0"),0)`,
      (r) => lines(r).deliveredKwh,
    ),
  ];
}

/** Sums over the chosen period. */
function periodCells(tariffs: readonly number[]): Cell[] {
  const chosen = (letters: string): string =>
    `SUMIFS(${batteryMonthColumn(letters)},${monthColumn(MONTH.selected)},1)`;
  const cell = (
    letters: string,
    text: string,
    value: (r: WorkbookResults) => number,
    style: FormulaColumn['style'],
  ): Cell => formula(`${letters}${PERIOD_ROW}`, text, value, style);
  const ofHome = [
    [C.houseKwh, 'houseKwh', 'kwh'],
    [C.heatPumpKwh, 'heatPumpKwh', 'kwh'],
    [C.carKwh, 'carKwh', 'kwh'],
    [C.total, 'totalPence', 'pence'],
    [C.heatPumpPence, 'heatPumpPence', 'pence'],
    [C.carPence, 'carPence', 'pence'],
  ] as const;
  return [
    label(`${C.start}${PERIOD_ROW}`, 'Chosen period', 'labelStrong'),
    ...ofHome.map(([letters, key, style]) =>
      cell(letters, chosen(letters), (r) => sumSelected(r.months, r.battery.realCost.months[key]), style),
    ),
    ...tariffs.flatMap((t) => {
      const lines = (r: WorkbookResults) => r.battery.tariffs[t]!;
      const pounds = (letters: string): string => `ROUND(${chosen(letters)},2)`;
      return [
        cell(
          C.energyPence(t),
          chosen(C.energyPence(t)),
          (r) => sumSelected(r.months, lines(r).months.energyPence),
          'pence',
        ),
        cell(
          C.exportCreditPence(t),
          chosen(C.exportCreditPence(t)),
          (r) => sumSelected(r.months, lines(r).months.exportCreditPence),
          'pence',
        ),
        cell(C.energy(t), pounds(C.energy(t)), (r) => lines(r).totals.energyPounds, 'moneyStrong'),
        cell(
          C.exportCredit(t),
          pounds(C.exportCredit(t)),
          (r) => lines(r).totals.exportCreditPounds,
          'moneyStrong',
        ),
        cell(C.totalPounds(t), pounds(C.totalPounds(t)), (r) => lines(r).totals.totalPounds, 'moneyStrong'),
        cell(C.deliveredKwh(t), chosen(C.deliveredKwh(t)), (r) => lines(r).totals.deliveredKwh, 'kwh'),
      ];
    }),
  ];
}

/** Level, wear and net cost over the chosen period, and the fingerprints of the inputs. */
function spanCells(tariffs: readonly number[]): Cell[] {
  const day = fact('firstDay');
  const start = `MIN(${B.startKwh},${B.usableKwh})`;
  const labels: readonly [number, string][] = [
    [SPAN.levelBefore, 'Level before the period, kWh'],
    [SPAN.levelAfter, 'Level at its end, kWh'],
    [SPAN.storedValue, 'A stored kWh is worth, {minor}'],
    [SPAN.wear, 'Wear, {minor}'],
    [SPAN.netCost, 'Energy − export credit + wear − level gained, {minor}'],
    [SPAN.fingerprint, 'Fingerprint of all that the least cost depends on'],
    [SPAN.homeFingerprint, 'Fingerprint of readings, battery and period'],
    [SPAN.outOfBounds, 'Level leaves its bounds, 1: yes'],
    [SPAN.unbalanced, 'Level is not what went in and out, 1: yes'],
    [SPAN.unrounded, 'Months and half-hours differ by more than rounding, 1: yes'],
    [SPAN.impossible, 'Import changes by other than the battery takes and gives, 1: yes'],
  ];
  const lines = (t: number) => (r: WorkbookResults) => r.battery.tariffs[t]!;
  return [
    label(`${C.start}${SPAN.heading}`, 'Over the chosen period, tariff by tariff', 'section'),
    ...labels.map(([row, text]) => label(`${C.start}${row}`, text, 'label')),
    formula(
      `${C.energyPence(0)}${SPAN.homeFingerprint}`,
      homeFingerprintFormula(),
      (r) => r.battery.homeFingerprint,
      'pence',
    ),
    ...tariffs.flatMap((t) => {
      const at = (row: number): string => `${C.energyPence(t)}${row}`;
      const lowest = batteryDayColumn(BATTERY_DAY.lowest(t));
      const level = BATTERY_DAY.level(t);
      const period = (letters: string): string => `${letters}${PERIOD_ROW}`;
      return [
        formula(
          at(SPAN.levelBefore),
          `IF(${day}=0,${start},INDEX(${batteryDayColumnFromSeed(level)},${day}))`,
          (r) => lines(t)(r).totals.levelBeforeKwh,
          'kwhFine',
        ),
        formula(
          at(SPAN.levelAfter),
          `IF(${day}=0,${start},INDEX(${batteryDayColumn(level)},${fact('lastDay')}))`,
          (r) => lines(t)(r).totals.levelAfterKwh,
          'kwhFine',
        ),
        formula(
          at(SPAN.storedValue),
          `IF(${day}=0,0,MIN(INDEX(${lowest},${day}):INDEX(${lowest},${fact('lastDay')}))/${B.chargeEfficiency})`,
          (r) => lines(t)(r).totals.storedValuePence,
          'rate',
        ),
        formula(
          at(SPAN.wear),
          `${period(C.deliveredKwh(t))}*${B.wearPencePerKwh}`,
          (r) => lines(t)(r).totals.wearPence,
          'pence',
        ),
        formula(
          at(SPAN.netCost),
          `${period(C.energyPence(t))}-${period(C.exportCreditPence(t))}+${at(SPAN.wear)}-${at(SPAN.storedValue)}*(${at(SPAN.levelAfter)}-${at(SPAN.levelBefore)})`,
          (r) => lines(t)(r).totals.netCostPence,
          'pence',
        ),
        formula(
          at(SPAN.fingerprint),
          `$${C.energyPence(0)}$${SPAN.homeFingerprint}+SUMPRODUCT(${halfHourColumn(H.importKwh)},${halfHourColumn(H.unitRate(t))})` +
            `+SUMPRODUCT(${halfHourColumn(H.unitRate(t))},${halfHourColumn(H.weekSlotLocal)})/100` +
            `+10*SUMPRODUCT(${batteryDayColumn(BATTERY_DAY.exportRate(t))},${dayColumn(DAY.month)})`,
          (r) => lines(t)(r).fingerprint,
          'pence',
        ),
        ...BATTERY_LAWS.map(({ row, formula: broken, isBroken }) =>
          formula(at(row), `IF(${broken(t)},1,0)`, (r) => (isBroken(r, t) ? 1 : 0), 'integer'),
        ),
      ];
    }),
  ];
}

function homeFingerprintFormula(): string {
  const weighed = (column: string): string =>
    `(SUMPRODUCT(${column},${halfHourColumn(H.weekSlotLocal)})+${SLOT_OFFSET}*SUM(${column}))`;
  const figures = Object.entries(FIGURE_WEIGHTS).map(
    ([key, weight]) => `${weight}*${B[key as keyof typeof FIGURE_WEIGHTS]}`,
  );
  return [
    weighed(halfHourColumn(H.importKwh)),
    `2*${weighed(halfHourColumn(H.exportKwh))}`,
    `3*${weighed(batteryHalfHourColumn(BATTERY_HALF_HOUR.servable))}`,
    `5*${weighed(batteryHalfHourColumn(BATTERY_HALF_HOUR.carKwh))}`,
    ...figures,
    `${PERIOD_WEIGHTS.firstDay}*${fact('firstDay')}`,
    `${PERIOD_WEIGHTS.lastDay}*${fact('lastDay')}`,
  ].join('+');
}

/** Rows (from 1) of the first half-hour of each month; without one, that of the next month. */
function firstRows(monthNumber: Int32Array): Float64Array {
  const rows = new Float64Array(MONTH_ROWS);
  for (let m = MONTH_ROWS - 1, next = READING_ROWS + 1; m >= 0; m--) {
    const first = monthNumber.indexOf(m + 1);
    if (first >= 0) next = first + 1;
    rows[m] = next;
  }
  return rows;
}

/** A tariff's figure over the chosen period. */
export function spanFigure(tariff: number, row: number): string {
  return absolute(SHEETS.batteryMonths, C.energyPence(tariff), row);
}

/** The battery's workings, one row a calendar month. */
export function batteryMonthsSheet(): SheetModel {
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
  const byTariff = tariffs.map(tariffColumns);
  const columns = [
    ...homeColumns(),
    ...byTariff[0]!.flatMap((_, item) => byTariff.map((tariff) => tariff[item]!)),
    column(
      C.firstRow,
      {
        label: 'First half-hour',
        unit: 'row from 1',
        description:
          'Place of the month’s first half-hour among the rows; without one, that of the next month',
        style: 'integer',
      },
      (r) => `IFERROR(MATCH(${number(r)},${halfHourColumn(H.month)},0),$${C.firstRow}${r + 1})`,
      (r) => firstRows(r.halfHours.monthNumber),
    ),
  ];
  return {
    name: SHEETS.batteryMonths,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, 13])),
    heights: { [FIRST_ROW - 3]: 48 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Battery months',
        'Workings: the bill lines of every tariff with the battery, and what energy really cost. Nothing to fill in.',
      ),
      ...columnHeaders(columns),
      label(`${C.firstRow}${LAST_MONTH_ROW + 1}`, READING_ROWS + 1, 'seed'),
      ...periodCells(tariffs),
      ...spanCells(tariffs),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
