import { degreeDaysFromDailyMeanDescribed } from '../../../heating/degree-days-from-daily-mean.js';
import { degreeDaysFromTemperaturesDescribed } from '../../../heating/degree-days-from-temperatures.js';
import { absolute } from '../../cell-address.js';
import { DAY_ROWS, FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import { formula, label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { CELL, DAY, HALF_HOUR, halfHourColumn, READING, readingColumn } from '../columns.js';
import type { FormulaColumn, SheetModel } from '../sheet-model.js';
import { figureCell } from './heating-figures-rows.js';
import {
  FIRST_IN_FIT_CELL,
  HEATING_DAY as H,
  heatingDayColumn,
  TEMPERATURE,
  temperatureColumn,
} from './heating-rows.js';

const NUMBER = '">-1E+300"';

type Values = FormulaColumn['values'];

function column(
  letters: string,
  text: Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>,
  formulaOf: FormulaColumn['formula'],
  values: Values,
): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows: DAY_ROWS, ...text, formula: formulaOf, values };
}

const dayOf = (letters: string, r: number): string =>
  `${absolute(SHEETS.days, letters, r).replace(/\$(\d+)$/, '$1')}`;
/** Range and criterion: the half-hours of the row's day. */
const ofDay = (r: number): string => `${halfHourColumn(HALF_HOUR.day)},$${H.date}${r}-${CELL.firstDay}+1`;
const ifDay = (r: number, then: string, otherwise: string): string =>
  `IF($${H.date}${r}=0,${otherwise},${then})`;

/** The library's sum over temperatures below the base, over the half-hours of the day. */
function halfHourlyDegreeDays(r: number): string {
  const base = figureCell('degreeDayBaseC');
  const below = `${ofDay(r)},${readingColumn(READING.outdoorC)},"<"&${base}`;
  return degreeDaysFromTemperaturesDescribed.formula!(['@', base, '0.5'])
    .replace(/COUNTIF\(@,[^)]*\)/, `COUNTIFS(${below})`)
    .replace(/SUMIF\(@,[^)]*\)/, `SUMIFS(${readingColumn(READING.outdoorC)},${below})`);
}

function degreeDays(r: number): string {
  const dates = temperatureColumn(TEMPERATURE.date);
  const table = temperatureColumn(TEMPERATURE.degreeDays);
  const fromMean = degreeDaysFromDailyMeanDescribed.formula!([
    `$${H.meanC}${r}`,
    figureCell('degreeDayBaseC'),
  ]);
  const count = `COUNTIFS(${dates},$${H.date}${r},${table},${NUMBER})`;
  return ifDay(
    r,
    `IF($${H.temperatureHalfHours}${r}>=${dayOf(DAY.expected, r)},` +
      `IF(${figureCell('degreeDayMethod')}="half-hours",${halfHourlyDegreeDays(r)},${fromMean}),` +
      `IF(${count}=0,"",SUMIFS(${table},${dates},$${H.date}${r})/${count}))`,
    '""',
  );
}

function columns(): FormulaColumn[] {
  const shown = (letters: string, r: number): string =>
    `IF($${H.inFit}${r}=1,$${letters}${r},IF(${FIRST_IN_FIT_CELL}=0,0,INDEX(${heatingDayColumn(letters)},${FIRST_IN_FIT_CELL})))`;
  return [
    column(
      H.date,
      { label: 'Day', unit: 'local date', description: 'As on Days', style: 'date' },
      (r) => dayOf(DAY.date, r),
      (r) => r.days.date,
    ),
    column(
      H.heatPumpHalfHours,
      {
        label: 'Heat pump metered',
        unit: 'half-hours',
        description: 'Half-hours with a reading of the heat pump',
        style: 'integer',
      },
      (r) => ifDay(r, `COUNTIFS(${ofDay(r)},${readingColumn(READING.heatPumpKwh)},${NUMBER})`, '0'),
      (r) => r.heating.days.heatPumpHalfHours,
    ),
    column(
      H.heatPumpKwh,
      {
        label: 'Heat pump',
        unit: 'kWh',
        description: 'Electricity of the day; blank where nothing was metered',
        style: 'rate',
      },
      (r) => `IF($${H.heatPumpHalfHours}${r}=0,"",SUMIFS(${readingColumn(READING.heatPumpKwh)},${ofDay(r)}))`,
      (r) => r.heating.days.heatPumpKwh,
    ),
    column(
      H.temperatureHalfHours,
      {
        label: 'Temperature metered',
        unit: 'half-hours',
        description: 'Half-hours with an outdoor temperature',
        style: 'integer',
      },
      (r) => ifDay(r, `COUNTIFS(${ofDay(r)},${readingColumn(READING.outdoorC)},${NUMBER})`, '0'),
      (r) => r.heating.days.temperatureHalfHours,
    ),
    column(
      H.meanC,
      {
        label: 'Mean outdoors',
        unit: '°C',
        description: 'Mean of the half-hours that have a temperature',
        style: 'oneDecimal',
      },
      (r) =>
        `IF($${H.temperatureHalfHours}${r}=0,"",SUMIFS(${readingColumn(READING.outdoorC)},${ofDay(r)})/$${H.temperatureHalfHours}${r})`,
      (r) => r.heating.days.meanC,
    ),
    column(
      H.degreeDays,
      {
        label: 'Degree days',
        unit: '°C·day',
        description:
          'From the half-hours where none is missing, else from the sheet of temperatures, else blank: nothing is filled in',
        style: 'rate',
      },
      degreeDays,
      (r) => r.heating.days.degreeDays,
    ),
    column(
      H.inFit,
      {
        label: 'In the fit',
        unit: '1 or 0',
        description: 'Whole day of the heat pump’s meter, and degree days known',
        style: 'integer',
      },
      (r) =>
        ifDay(
          r,
          `IF(AND($${H.heatPumpHalfHours}${r}>=${dayOf(DAY.expected, r)},ISNUMBER($${H.degreeDays}${r})),1,0)`,
          '0',
        ),
      (r) => r.heating.days.inFit,
    ),
    column(
      H.fitDegreeDays,
      { label: 'Degree days, fitted', unit: '°C·day', description: 'Of days in the fit', style: 'rate' },
      (r) => `IF($${H.inFit}${r}=1,$${H.degreeDays}${r},"")`,
      (r) => r.heating.days.fitDegreeDays,
    ),
    column(
      H.fitKwh,
      { label: 'Heat pump, fitted', unit: 'kWh', description: 'Of days in the fit', style: 'rate' },
      (r) => `IF($${H.inFit}${r}=1,$${H.heatPumpKwh}${r},"")`,
      (r) => r.heating.days.fitKwh,
    ),
    column(
      H.chartDegreeDays,
      {
        label: 'Degree days, charted',
        unit: '°C·day',
        description:
          'A chart wants numbers on every row: a day that is not in the fit takes the place of the first that is',
        style: 'rate',
      },
      (r) => shown(H.degreeDays, r),
      (r) => r.heating.days.chartDegreeDays,
    ),
    column(
      H.chartKwh,
      { label: 'Heat pump, charted', unit: 'kWh', description: 'As beside', style: 'rate' },
      (r) => shown(H.heatPumpKwh, r),
      (r) => r.heating.days.chartKwh,
    ),
  ];
}

/** Workings: the heat pump and the weather, one row a day. */
export function heatingDaysSheet(): SheetModel {
  const all = columns();
  return {
    name: SHEETS.heatingDays,
    tab: 'workings',
    widths: Object.fromEntries(all.map((c) => [c.letters, 13])),
    heights: { [FIRST_ROW - 3]: 34 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Heating days',
        'Workings: the heat pump and the weather, one row a day. Nothing to fill in.',
      ),
      label('A3', 'First in fit', 'label'),
      formula(
        'B3',
        `IFERROR(MATCH(1,${heatingDayColumn(H.inFit)},0),0)`,
        (r) => r.heating.days.firstInFit,
        'integer',
      ),
      ...columnHeaders(all),
    ],
    formulaColumns: all,
    inputColumns: [],
    conditional: [],
  };
}
