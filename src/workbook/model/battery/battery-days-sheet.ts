import { SERVE_ALWAYS } from '../../../battery/battery-constants.js';
import { batteryDayFormulas, batteryRuleFormulas } from '../../../battery/battery-formulas.js';
import { sheetPrefix } from '../../cell-address.js';
import { PLAIN_FIGURES } from '../../evaluate/battery/battery-figures.js';
import { EXPORT_DECIMALS } from '../../evaluate/battery/battery-tariff-lines.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import { DAY_ROWS, FIRST_ROW, LAST_DAY_ROW, SEED_ROW, SHEETS, TARIFF_COUNT } from '../../layout.js';
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
import { periodBlock, RATES } from '../rates-rows.js';
import { tariffRow } from '../sentences.js';
import type { Cell, FormulaColumn, SheetModel } from '../sheet-model.js';
import { TARIFF_ROW, TODAYS_TARIFF_CELL } from '../tariff-rows.js';
import {
  BATTERY_REFERENCES as B,
  BATTERY_HALF_HOUR,
  batteryDayColumn,
  batteryHalfHourColumn,
  BATTERY_DAY as C,
  FACT_LETTERS,
  FACT_ROW,
  fact,
} from './battery-columns.js';
import { batteryInput } from './battery-rows.js';

const DAYS = sheetPrefix(SHEETS.days);
const RULE = batteryDayFormulas;

type Text = Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>;

function column(
  letters: string,
  text: Text,
  formulaOf: FormulaColumn['formula'],
  values: FormulaColumn['values'],
): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows: DAY_ROWS, ...text, formula: formulaOf, values };
}

const number = (r: number): string => `ROW($${C.date}${r})-${FIRST_ROW - 1}`;
const rowsOfDay = (r: number): string => `COUNTIFS(${halfHourColumn(H.day)},${number(r)})`;
/** The day's stretch of a half-hourly column. */
const slice = (column: string, r: number): string =>
  `INDEX(${column},$${C.firstRow}${r}):INDEX(${column},$${C.firstRow}${r}+$${C.halfHours}${r}-1)`;

/** Sum over the day; where rows stand apart the slow way, which finds them wherever they are. */
const sumOfDay = (column: string) => (r: number) =>
  `IF($${C.halfHours}${r}>0,SUM(${slice(column, r)}),` +
  `IF(OR($${C.date}${r}=0,${fact('daysApart')}=0),0,SUMIFS(${column},${halfHourColumn(H.day)},${number(r)})))`;
function sharedColumns(): FormulaColumn[] {
  return [
    column(
      C.date,
      { label: 'Day', unit: 'local date', description: 'As on the days sheet', style: 'date' },
      (r) => `${DAYS}$${DAY.date}${r}`,
      (r) => r.days.date,
    ),
    column(
      C.firstRow,
      {
        label: 'First half-hour',
        unit: 'row from 1',
        description: 'Place of the day’s first half-hour among the rows',
        style: 'integer',
      },
      (r) => `IF($${C.date}${r}=0,0,IFERROR(MATCH(${number(r)},${halfHourColumn(H.day)},0),0))`,
      (r) => r.battery.home.firstRow,
    ),
    column(
      C.apart,
      {
        label: 'Rows stand apart',
        unit: '1 or 0',
        description: '1 where other rows stand between the day’s half-hours, or days are out of order',
        style: 'integer',
      },
      (r) =>
        `IF($${C.firstRow}${r}=0,0,IF(OR($${C.firstRow}${r}<MAX($${C.firstRow}$${SEED_ROW}:$${C.firstRow}${r - 1}),` +
        `INDEX(${halfHourColumn(H.day)},$${C.firstRow}${r}+${rowsOfDay(r)}-1)<>${number(r)}),1,0))`,
      (r) => r.battery.home.apart,
    ),
    column(
      C.halfHours,
      {
        label: 'Half-hours worked with',
        unit: 'count',
        description: 'None on any day while rows stand apart',
        style: 'integer',
      },
      (r) => `IF(OR($${C.firstRow}${r}=0,${fact('daysApart')}>0),0,${rowsOfDay(r)})`,
      (r) => r.battery.home.halfHours,
    ),
    column(
      C.halfHoursToFill,
      {
        label: 'Half-hours to fill the battery',
        unit: 'count',
        description: 'At full power, from the reserve; at least 1, at most the day’s',
        style: 'integer',
      },
      (r) => `IF($${C.halfHours}${r}=0,0,${RULE.halfHoursToFill(`$${C.halfHours}${r}`, B)})`,
      (r) => r.battery.home.halfHoursToFill,
    ),
  ];
}

function tariffColumns(tariff: number): FormulaColumn[] {
  const name = `tariff ${tariff + 1}`;
  const lines = (r: WorkbookResults) => r.battery.tariffs[tariff]!.days;
  const rate = { unit: '{minor}/kWh', style: 'rate' } as const;
  /** Rounded, because the sums leave crumbs where nothing is exported. */
  const exported = (r: number): string => {
    const sum = (letters: string): string => sumOfDay(batteryHalfHourColumn(letters))(r);
    const day = (letters: string): string => `${DAYS}$${letters}${r}`;
    const kwh = batteryRuleFormulas.exportWith({
      importWith: sum(BATTERY_HALF_HOUR.importWith(tariff)),
      battery: sum(BATTERY_HALF_HOUR.battery(tariff)),
      imported: day(DAY.importKwh),
      exported: day(DAY.exportKwh),
    });
    return `ROUND(${kwh},${EXPORT_DECIMALS})`;
  };
  const rates = (r: number): string => slice(halfHourColumn(H.unitRate(tariff)), r);
  const cell = (letters: (tariff: number) => string, r: number): string => `$${letters(tariff)}${r}`;
  const worked = (otherwise: string, text: (r: number) => string) => (r: number) =>
    `IF($${C.halfHours}${r}=0,${otherwise},${text(r)})`;
  return [
    column(
      C.chargeUpTo(tariff),
      {
        label: `Charging needs rates up to, ${name}`,
        description:
          'Dearest of the cheapest half-hours that fill the battery; a day without half-hours takes the next day’s',
        ...rate,
      },
      (r) =>
        worked(cell(C.chargeUpTo, r + 1), () => RULE.chargeUpTo(rates(r), `$${C.halfHoursToFill}${r}`))(r),
      (r) => lines(r).chargeUpTo,
    ),
    column(
      C.dear(tariff),
      { label: `Dear rate, ${name}`, description: 'Lowest of as many dearest half-hours', ...rate },
      worked('0', (r) => RULE.dear(rates(r), `$${C.halfHoursToFill}${r}`)),
      (r) => lines(r).dear,
    ),
    column(
      C.chargeBelow(tariff),
      {
        label: `Would charge below, ${name}`,
        description:
          'Rate that the day needs, and that beats losses and wear at the dear rate, where the grid may charge it',
        ...rate,
      },
      worked('0', (r) =>
        RULE.chargeBelow({
          chargeUpTo: cell(C.chargeUpTo, r),
          worthwhileBelow: RULE.worthwhileBelow(cell(C.dear, r), B),
        }),
      ),
      (r) => lines(r).chargeBelow,
    ),
    column(
      C.serveFrom(tariff),
      {
        label: `Serves from, ${name}`,
        description: 'Rate from which it serves the home; far below zero: always',
        ...rate,
      },
      worked('0', (r) =>
        RULE.serveFrom(
          {
            rates: cell(C.lowest, r),
            chargeUpTo: cell(C.chargeUpTo, r),
            dear: cell(C.dear, r),
            worthwhileBelow: RULE.worthwhileBelow(cell(C.dear, r), B),
          },
          B,
        ),
      ),
      (r) => lines(r).serveFrom,
    ),
    column(
      C.refill(tariff),
      {
        label: `Refilling costs, ${name}`,
        description: 'The higher of this and the next day’s rate for charging',
        ...rate,
      },
      worked('0', (r) => RULE.refill(cell(C.chargeUpTo, r), cell(C.chargeUpTo, r + 1))),
      (r) => lines(r).refill,
    ),
    column(
      C.lowest(tariff),
      { label: `Lowest rate, ${name}`, description: 'Of the day’s half-hours', ...rate },
      worked('"none"', (r) => `MIN(${rates(r)})`),
      (r) => lines(r).lowest,
    ),
    column(
      C.exportRate(tariff),
      { label: `Export rate, ${name}`, description: 'In force on the day', ...rate },
      (r) =>
        `IF($${C.date}${r}=0,0,INDEX(${periodBlock(tariff, RATES.firstExport)},${DAYS}$${DAY.ratePeriod(tariff)}${r}))`,
      (r) => lines(r).exportRate,
    ),
    column(
      C.exportCredit(tariff),
      {
        label: `Export credit with battery, ${name}`,
        unit: '{minor}',
        description: 'Export with the battery × export rate',
        style: 'pence',
      },
      (r) => `${exported(r)}*$${C.exportRate(tariff)}${r}`,
      (r) => lines(r).exportCreditPence,
    ),
    column(
      C.level(tariff),
      { label: `Level, ${name}`, unit: 'kWh stored', description: 'At the end of the day', style: 'kwhFine' },
      (r) =>
        worked(
          cell(C.level, r - 1),
          () =>
            `INDEX(${batteryHalfHourColumn(BATTERY_HALF_HOUR.level(tariff))},$${C.firstRow}${r}+$${C.halfHours}${r}-1)`,
        )(r),
      (r) => lines(r).levelKwh,
    ),
    column(
      C.sells(tariff),
      {
        label: `Selling pays, ${name}`,
        unit: '1 or 0',
        description: 'It may export, and the export rate less wear is more than the refill',
        style: 'integer',
      },
      worked(
        '0',
        (r) => `IF(${RULE.sells({ exportRate: cell(C.exportRate, r), refill: cell(C.refill, r) }, B)},1,0)`,
      ),
      (r) => lines(r).sells,
    ),
    column(
      C.toCharging(tariff),
      {
        label: `Half-hours to charging, ${name}`,
        unit: 'count',
        description:
          'From the start of the day to the next half-hour in which it charges from the grid; 0 where it may not export',
        style: 'integer',
      },
      (r) =>
        worked(
          cell(C.toCharging, r + 1),
          () =>
            `IF(${B.mayExport}=0,0,IF(AND(${B.usableKwh}>0,$${C.serveFrom(tariff)}${r}>${SERVE_ALWAYS}),` +
            `INDEX(${batteryHalfHourColumn(BATTERY_HALF_HOUR.steps(tariff))},$${C.firstRow}${r}),` +
            `$${C.halfHours}${r}+${cell(C.toCharging, r + 1)}))`,
        )(r),
      (r) => lines(r).toCharging,
    ),
  ];
}

/** Formula that counts the inputs which can't be used. */
function faultsFormula(): string {
  const there = `SUM(${batteryInput('usableKwh')})>0`;
  const isShare = (cell: string): string => `IF(AND(SUM(${cell})>0,SUM(${cell})<=1),0,1)`;
  const roundTrip = batteryInput('roundTripEfficiency');
  return [
    ...PLAIN_FIGURES.map((key) => `IF(OR(ISTEXT(${batteryInput(key)}),SUM(${batteryInput(key)})<0),1,0)`),
    ...(['chargeKw', 'dischargeKw'] as const).map(
      (key) => `IF(AND(${there},SUM(${batteryInput(key)})=0),1,0)`,
    ),
    `IF(${there},IF(ISBLANK(${roundTrip}),${isShare(batteryInput('chargeEfficiency'))}+${isShare(batteryInput('dischargeEfficiency'))},${isShare(roundTrip)}),0)`,
  ].join('+');
}

type Fact = readonly [
  key: keyof typeof FACT_LETTERS,
  text: string,
  formula: string,
  value: (r: WorkbookResults) => number,
  style: FormulaColumn['style'],
];

function factCells(): Cell[] {
  const faults = fact('faults').replace(/^.*!/, '');
  const plain = (key: (typeof PLAIN_FIGURES)[number]): string =>
    `IF(${faults}=0,SUM(${batteryInput(key)}),0)`;
  const efficiency = (key: 'chargeEfficiency' | 'dischargeEfficiency'): string =>
    `IF(AND(${faults}=0,SUM(${batteryInput('usableKwh')})>0),IF(ISBLANK(${batteryInput('roundTripEfficiency')}),SUM(${batteryInput(key)}),SQRT(SUM(${batteryInput('roundTripEfficiency')}))),1)`;
  const flag = (key: 'chargeFromGrid' | 'mayFeedCar' | 'mayExport'): string =>
    `IF(${batteryInput(key)}="yes",1,0)`;
  const todays = `${SHEETS.tariffs}!$${TODAYS_TARIFF_CELL.replace(/(\d+)/, '$$$1')}`;
  const chosen = batteryInput('tariff');
  const selected = monthColumn(MONTH.selected);
  const firstDay = fact('firstDay').replace(/^.*!/, '');
  const lastDay = fact('lastDay').replace(/^.*!/, '');
  const own = batteryDayColumn(C.halfHours);
  const facts: readonly Fact[] = [
    ['faults', 'Inputs that can’t be used', faultsFormula(), (r) => r.battery.figures.faults, 'integer'],
    ...PLAIN_FIGURES.map(
      (key): Fact => [key, FIGURE_LABELS[key], plain(key), (r) => r.battery.figures.battery[key], 'rate'],
    ),
    ...(['chargeEfficiency', 'dischargeEfficiency'] as const).map(
      (key): Fact => [
        key,
        FIGURE_LABELS[key],
        efficiency(key),
        (r) => r.battery.figures.battery[key],
        'rateFine',
      ],
    ),
    ...(['chargeFromGrid', 'mayFeedCar', 'mayExport'] as const).map(
      (key): Fact => [
        key,
        FIGURE_LABELS[key],
        flag(key),
        (r) => Number(r.battery.figures.battery[key]),
        'integer',
      ],
    ),
    [
      'daysApart',
      'Days whose rows stand apart',
      `SUM(${batteryDayColumn(C.apart)})`,
      (r) => r.battery.home.daysApart,
      'integer',
    ],
    [
      'chosen',
      'Tariff looked at, column',
      `IFERROR(MATCH(IF(ISBLANK(${chosen}),${todays},${chosen}),${tariffRow(TARIFF_ROW.name)},0),0)`,
      (r) => r.battery.chosen + 1,
      'integer',
    ],
    [
      'firstDay',
      'First day of the period, row',
      `IF(SUM(${selected})=0,0,MATCH(MATCH(1,${selected},0),${dayColumn(DAY.month)},0))`,
      (r) => r.battery.period.firstDay,
      'integer',
    ],
    [
      'lastDay',
      'Last day of the period, row',
      `IF(${firstDay}=0,0,${firstDay}-1+${sheetPrefix(SHEETS.months)}$${MONTH.days}$${PERIOD_ROW})`,
      (r) => r.battery.period.lastDay,
      'integer',
    ],
    [
      'halfHours',
      'Half-hours of the period',
      `IF(${firstDay}=0,0,SUM(INDEX(${own},${firstDay}):INDEX(${own},${lastDay})))`,
      (r) => r.battery.period.halfHours,
      'count',
    ],
  ];
  return facts.flatMap(([key, text, formulaText, value, style]) => [
    label(`${FACT_LETTERS[key]}${FACT_ROW - 1}`, text, 'headerUnit'),
    formula(`${FACT_LETTERS[key]}${FACT_ROW}`, formulaText, value, style),
  ]);
}

const FIGURE_LABELS = {
  usableKwh: 'Usable, kWh',
  chargeKw: 'Charge, kW',
  dischargeKw: 'Discharge, kW',
  chargeEfficiency: 'Charge efficiency',
  dischargeEfficiency: 'Discharge efficiency',
  reserveKwh: 'Reserve, kWh',
  startKwh: 'Start, kWh',
  wearPencePerKwh: 'Wear, {minor}/kWh',
  chargeFromGrid: 'From the grid, 1: yes',
  mayFeedCar: 'Feeds the car, 1: yes',
  mayExport: 'Exports, 1: yes',
} as const;

/** The battery's workings, one row a calendar day; the battery as it is worked with stands at the top. */
export function batteryDaysSheet(): SheetModel {
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
  const byTariff = tariffs.map(tariffColumns);
  const columns = [
    ...sharedColumns(),
    ...byTariff[0]!.flatMap((_, item) => byTariff.map((tariff) => tariff[item]!)),
  ];
  return {
    name: SHEETS.batteryDays,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, 13])),
    heights: { [FACT_ROW - 1]: 26, [FIRST_ROW - 3]: 48 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Battery days',
        'Workings: what the rule knows of each day, and the battery as it is worked with. Nothing to fill in.',
      ),
      ...factCells(),
      ...columnHeaders(columns),
      ...tariffs.flatMap((tariff) => [
        formula(
          `${C.level(tariff)}${SEED_ROW}`,
          batteryRuleFormulas.startLevel(B),
          ({ battery: { figures } }) => Math.min(figures.battery.startKwh, figures.battery.usableKwh),
          'kwhFine',
        ),
        label(`${C.chargeUpTo(tariff)}${LAST_DAY_ROW + 1}`, 'none', 'seed'),
        label(
          `${C.toCharging(tariff)}${LAST_DAY_ROW + 1}`,
          Number(batteryRuleFormulas.noChargingAhead),
          'seed',
        ),
      ]),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
