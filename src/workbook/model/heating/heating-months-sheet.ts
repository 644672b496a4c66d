import { HEATING_MONTH_INPUTS } from '../../../heating/comparison/heating-inputs.js';
import { HEATING_MONTH_LINES } from '../../../heating/comparison/month-lines.js';
import { METERS_NOTE } from '../../evaluate/heating/heating-month-lines.js';
import { FIRST_ROW, MONTH_ROWS, SEED_ROW, SHEETS } from '../../layout.js';
import { quoted } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import {
  DAY as D,
  dayColumn,
  HALF_HOUR as H,
  halfHourColumn,
  MONTH as M,
  READING as R,
  readingColumn,
} from '../columns.js';
import type { FormulaColumn, SheetModel } from '../sheet-model.js';
import { chooseTariff } from '../tariff-rows.js';
import { figureCell, TARIFF_PLACE } from './heating-figures-rows.js';
import { monthLetters, type TakenKey } from './heating-months-rows.js';
import {
  DEGREE_DAY_TABLE,
  HEATING_DAY,
  heatingDayColumn,
  monthDegreeDayColumn,
  RATES_TABLE,
  rateColumn,
} from './heating-rows.js';
import { styleOf, unitOf } from './line-looks.js';
import { monthReferences } from './line-references.js';
import { throughBattery } from './through-battery.js';

const NUMBER = '">-1E+300"';
const number = (r: number): string => `ROW($A${r})-${FIRST_ROW - 1}`;
const ofMonths = (letters: string, r: number): string => `${SHEETS.months}!$${letters}${r}`;
const own = (key: TakenKey, r: number): string => `$${monthLetters(key)}${r}`;
const chosen = (r: number, then: string): string => `IF(${ofMonths(M.selected, r)}=1,${then},"")`;
const nextMonth = (r: number): string =>
  `DATE(YEAR(${ofMonths(M.start, r)}),MONTH(${ofMonths(M.start, r)})+1,1)`;
const ofHalfHours = (r: number): string => `${halfHourColumn(H.month)},${number(r)}`;
/** What the heat pump used at the half-hourly rates of the tariff chosen for heating; text among the readings counts as nothing. */
const costOfHeatPump = (r: number): string => {
  const onTariff = (tariff: number): string =>
    `SUMPRODUCT((${halfHourColumn(H.month)}=${number(r)})*${halfHourColumn(H.unitRate(tariff))},${readingColumn(R.heatPumpKwh)})`;
  return chooseTariff(figureCell(TARIFF_PLACE), onTariff);
};
const ofDays = (r: number): string => `${dayColumn(D.month)},${number(r)}`;

/** A meter's sum where it covers enough of the month. */
const whole = (count: TakenKey, sum: TakenKey) => (r: number) =>
  chosen(
    r,
    `IF(AND(${own(count, r)}>0,${own(count, r)}>=${figureCell('leastCoverageShare')}*${ofMonths(M.expected, r)},${own(sum, r)}>=0),${own(sum, r)},"")`,
  );

/** A rate of the last set that holds in the month. */
const rate = (letters: string) => (r: number) => {
  const sets = `COUNTIFS(${rateColumn(RATES_TABLE.from)},"<"&${nextMonth(r)})`;
  const found = `INDEX(${rateColumn(letters)},${sets})`;
  return chosen(r, `IF(${sets}=0,"",IF(ISNUMBER(${found}),IF(${found}>=0,${found},""),""))`);
};

function typedDegreeDays(r: number): string {
  const months = monthDegreeDayColumn(DEGREE_DAY_TABLE.month);
  const values = monthDegreeDayColumn(DEGREE_DAY_TABLE.degreeDays);
  const typed = `${months},">="&${ofMonths(M.start, r)},${months},"<"&${nextMonth(r)},${values},">=0"`;
  return chosen(
    r,
    `IF(COUNTIFS(${typed})=0,"",SUMIFS(${values},${typed})/COUNTIFS(${typed})*${ofMonths(M.days, r)}/(${nextMonth(r)}-${ofMonths(M.start, r)}))`,
  );
}

const OWN_TEXTS: Partial<Record<TakenKey, { label: string; unit: string; description: string }>> = {
  heatPumpHalfHours: {
    label: 'Heat pump metered',
    unit: 'half-hours',
    description: 'Half-hours with a reading of the heat pump',
  },
  heatPumpMeteredKwh: { label: 'Heat pump, sum', unit: 'kWh', description: 'Sum of what was metered' },
  heatHalfHours: {
    label: 'Heat metered',
    unit: 'half-hours',
    description: 'Half-hours with a reading of the heat meter',
  },
  heatMeteredKwh: { label: 'Heat, sum', unit: 'kWh', description: 'Sum of what was metered' },
  metersNote: { label: 'Meters', unit: '', description: 'What is missing' },
  degreeDaysTyped: {
    label: 'Degree days typed',
    unit: '°C·day',
    description: 'As typed on Heating inputs, for the days of the month that were metered',
  },
};

function taken(key: TakenKey, formula: FormulaColumn['formula']): FormulaColumn {
  const line = HEATING_MONTH_INPUTS.find((input) => input.key === key);
  const text = OWN_TEXTS[key] ?? {
    label: line!.label,
    unit: unitOf(line!),
    description: line!.description,
  };
  const style = line === undefined ? (key === 'metersNote' ? 'text' : 'kwh') : styleOf(line.format);
  return {
    letters: monthLetters(key),
    firstRow: FIRST_ROW,
    rows: MONTH_ROWS,
    ...text,
    style,
    formula,
    values: (r) => r.heating.months.map((month) => month[key] ?? ''),
  };
}

function takenColumns(): FormulaColumn[] {
  const outdoor = heatingDayColumn(HEATING_DAY.degreeDays);
  const note = METERS_NOTE;
  return [
    taken('monthSerial', (r) => `IF(${ofMonths(M.start, r)}=0,"",${ofMonths(M.start, r)})`),
    taken('days', (r) => chosen(r, ofMonths(M.days, r))),
    taken(
      'heatPumpHalfHours',
      (r) => `COUNTIFS(${ofHalfHours(r)},${readingColumn(R.heatPumpKwh)},${NUMBER})`,
    ),
    taken('heatPumpMeteredKwh', (r) => `SUMIFS(${readingColumn(R.heatPumpKwh)},${ofHalfHours(r)})`),
    taken('electricityKwh', whole('heatPumpHalfHours', 'heatPumpMeteredKwh')),
    taken('heatHalfHours', (r) => `COUNTIFS(${ofHalfHours(r)},${readingColumn(R.heatOutputKwh)},${NUMBER})`),
    taken('heatMeteredKwh', (r) => `SUMIFS(${readingColumn(R.heatOutputKwh)},${ofHalfHours(r)})`),
    taken('heatKwh', whole('heatHalfHours', 'heatMeteredKwh')),
    taken('metersNote', (r) =>
      chosen(
        r,
        `IF(${own('heatPumpHalfHours', r)}=0,${quoted(note.noReadings)},IF(NOT(ISNUMBER(${own('electricityKwh', r)})),${quoted(note.heatPumpGaps)},` +
          `IF(AND(${own('heatHalfHours', r)}>0,NOT(ISNUMBER(${own('heatKwh', r)}))),${quoted(note.heatGaps)},"")))`,
      ),
    ),
    taken('degreeDaysTyped', typedDegreeDays),
    taken('degreeDays', (r) =>
      chosen(
        r,
        `IF(ISNUMBER(${own('degreeDaysTyped', r)}),${own('degreeDaysTyped', r)},IF(COUNTIFS(${ofDays(r)},${outdoor},${NUMBER})=0,"",SUMIFS(${outdoor},${ofDays(r)})))`,
      ),
    ),
    taken('daysWithTemperature', (r) =>
      chosen(r, `IF(ISNUMBER(${own('degreeDaysTyped', r)}),"",COUNTIFS(${ofDays(r)},${outdoor},${NUMBER}))`),
    ),
    taken(
      'costHalfHourlyPounds',
      (r) =>
        `IF(OR(NOT(ISNUMBER(${own('electricityKwh', r)})),${figureCell(TARIFF_PLACE)}=0),"",${costOfHeatPump(r)}/100)`,
    ),
    taken('costBatteryPounds', (r) => throughBattery(own('electricityKwh', r), r)),
    taken('monthSingleRatePence', rate(RATES_TABLE.singleRate)),
    taken('monthGasRatePence', rate(RATES_TABLE.gasRate)),
    taken('monthGasStandingPencePerDay', rate(RATES_TABLE.gasStanding)),
  ];
}

/** Workings: every line of the comparison that has a figure a month. */
export function heatingMonthsSheet(): SheetModel {
  const columns: FormulaColumn[] = [
    ...takenColumns(),
    ...HEATING_MONTH_LINES.map(
      (line): FormulaColumn => ({
        letters: monthLetters(line.key),
        firstRow: FIRST_ROW,
        rows: MONTH_ROWS,
        label: line.label,
        unit: unitOf(line),
        description: line.description,
        style: styleOf(line.format),
        formula: (r) => line.formula(monthReferences(r)),
        values: (r) => r.heating.comparison.months.map((month) => month[line.key] ?? ''),
      }),
    ),
  ];
  return {
    name: SHEETS.heatingMonths,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, c.style === 'text' ? 44 : 14])),
    heights: { [FIRST_ROW - 3]: 48, [FIRST_ROW - 2]: 26 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Heating months',
        'Workings: heat pump and boiler, one row a month of the chosen period. Nothing to fill in.',
      ),
      ...columnHeaders(columns),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
