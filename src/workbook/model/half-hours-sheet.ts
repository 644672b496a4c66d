import { EARLIEST_SERIAL, LATEST_SERIAL } from '../../time/serial.js';
import { absolute, sheetPrefix } from '../cell-address.js';
import { LOOK_UP_MARGIN_DAYS } from '../evaluate/half-hour-lines.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import {
  BANDS,
  DAY_ROWS,
  FIRST_ROW,
  LAST_DAY_ROW,
  READING_ROWS,
  SEED_ROW,
  SHEETS,
  TARIFF_COUNT,
} from '../layout.js';
import { label } from './cells.js';
import { columnHeaders, sheetTop } from './column-headers.js';
import { CELL, CLOCK, clockColumn, DAY as D, HALF_HOUR as H, READING, READING_VALUES } from './columns.js';
import { periodBlock, RATES, rateBlock } from './rates-rows.js';
import type { FormulaColumn, SheetModel } from './sheet-model.js';
import { TARIFF_ROW, tariffLetters } from './tariff-rows.js';
import { windowBandColumn } from './windows-rows.js';

const READINGS = sheetPrefix(SHEETS.readings);
const DAYS = sheetPrefix(SHEETS.days);

type Values = FormulaColumn['values'];

function column(
  letters: string,
  labelText: string,
  unit: string,
  description: string,
  style: FormulaColumn['style'],
  formula: FormulaColumn['formula'],
  values: Values,
): FormulaColumn {
  return {
    letters,
    firstRow: FIRST_ROW,
    rows: READING_ROWS,
    label: labelText,
    unit,
    description,
    style,
    formula,
    values,
  };
}

/** A reading as a number, 0 where the cell holds none: SUM, because N of a blank cell is an error in some programs. */
const reading = (letters: string, row: number): string => `SUM(${READINGS}$${letters}${row})`;
const netOf = (row: number): string =>
  `${reading(READING.importKwh, row)}-${reading(READING.exportKwh, row)}` +
  `+${reading(READING.batteryOutKwh, row)}-${reading(READING.batteryInKwh, row)}`;
const batteryIdle = (row: number): string =>
  `AND(${reading(READING.batteryInKwh, row)}=0,${reading(READING.batteryOutKwh, row)}=0)`;
const valueCells = (row: number): string =>
  `${READINGS}$${READING_VALUES.first}${row}:$${READING_VALUES.last}${row}`;

function sharedColumns(): FormulaColumn[] {
  const clockAt = (letters: string, row: number): string =>
    `INDEX(${clockColumn(letters)},$${H.clockRow}${row})`;
  const raw = (row: number): string => `${READINGS}$${READING.start}${row}`;
  const inRange = (row: number): string => `${raw(row)}>=${EARLIEST_SERIAL},${raw(row)}<=${LATEST_SERIAL}`;
  const lines = (r: WorkbookResults) => r.halfHours;
  return [
    column(
      H.start,
      'Start',
      'local time',
      'Start of the half-hour as the home’s clock shows it; 0 where the row has no usable time',
      'dateTime',
      (r) =>
        `IF(ISNUMBER(${raw(r)}),IF(AND(${inRange(r)},ABS(${raw(r)}*48-ROUND(${raw(r)}*48,0))<0.01),ROUND(${raw(r)}*48,0)/48,0),0)`,
      (r) => lines(r).startSerial,
    ),
    column(
      H.clockRow,
      'Clock row',
      'row',
      'Row of the clock sheet that holds at this time',
      'integer',
      (r) =>
        `IF($${H.start}${r}=0,0,MATCH($${H.start}${r}+1/${1 / LOOK_UP_MARGIN_DAYS},${clockColumn(CLOCK.from)},1))`,
      (r) => lines(r).clockRow,
    ),
    column(
      H.offset,
      'Offset',
      'h from UTC',
      'Offset of the clock: as the reading gives it, else from the clock sheet; a label that autumn repeats is its first occurrence unless an earlier row already reached it',
      'rate',
      (r) =>
        `IF($${H.start}${r}=0,0,IF(ISNUMBER(${READINGS}$${READING.offset}${r}),${READINGS}$${READING.offset}${r},` +
        `IF(AND(ROUND(($${H.start}${r}-${clockAt(CLOCK.from, r)})*96,0)<ROUND((${clockAt(CLOCK.before, r)}-${clockAt(CLOCK.after, r)})*4,0),` +
        `ROUND(($${H.start}${r}-${clockAt(CLOCK.before, r)}/24)*96,0)>$${H.latest}${r - 1}+1),` +
        `${clockAt(CLOCK.before, r)},${clockAt(CLOCK.after, r)})))`,
      (r) => lines(r).offsetHours,
    ),
    column(
      H.instant,
      'Instant',
      'quarter-hours',
      'Start in quarter-hours of UTC, a whole number, so that times compare exactly',
      'integer',
      (r) => `IF($${H.start}${r}=0,0,ROUND(($${H.start}${r}-$${H.offset}${r}/24)*96,0))`,
      (r) => lines(r).instantQuarters,
    ),
    column(
      H.latest,
      'Latest so far',
      'quarter-hours',
      'Latest instant down to this row: a row that does not go beyond it is repeated or out of order',
      'integer',
      (r) => `MAX($${H.latest}${r - 1},$${H.instant}${r})`,
      (r) => lines(r).latestQuarters,
    ),
    column(
      H.used,
      'In use',
      '1 or 0',
      '1 where the row counts',
      'integer',
      (r) => `IF(AND($${H.start}${r}>0,$${H.instant}${r}>$${H.latest}${r - 1}+1),1,0)`,
      (r) => lines(r).used,
    ),
    column(
      H.problem,
      'Problem',
      'code',
      '1 date is text, 2 off the half-hour, 3 repeated or out of order, 4 a value is not a number, 5 date outside 1990 to 2099, 6 values without a time',
      'integer',
      (r) =>
        `IF(ISBLANK(${raw(r)}),IF(COUNTA(${valueCells(r)})>0,6,0),IF(NOT(ISNUMBER(${raw(r)})),1,` +
        `IF(NOT(AND(${inRange(r)})),5,IF($${H.start}${r}=0,2,IF($${H.used}${r}=0,3,` +
        `IF(COUNTA(${valueCells(r)})>COUNT(${valueCells(r)}),4,0))))))`,
      (r) => lines(r).problem,
    ),
    column(
      H.day,
      'Day',
      'row of Days',
      `Day counted from the first day of the readings; 0 beyond the ${DAY_ROWS} days that the workbook holds`,
      'integer',
      (r) =>
        `IF($${H.used}${r}=1,IF(AND(INT($${H.start}${r})>=${CELL.firstDay},INT($${H.start}${r})-${CELL.firstDay}<${DAY_ROWS}),INT($${H.start}${r})-${CELL.firstDay}+1,0),0)`,
      (r) => lines(r).dayNumber,
    ),
    column(
      H.month,
      'Month',
      'row of Months',
      'Calendar month counted from the first of the readings',
      'integer',
      (r) =>
        `IF($${H.day}${r}=0,0,(YEAR($${H.start}${r})-YEAR(${CELL.firstDay}))*12+MONTH($${H.start}${r})-MONTH(${CELL.firstDay})+1)`,
      (r) => lines(r).monthNumber,
    ),
    column(
      H.weekSlotLocal,
      'Week slot, local',
      'row of Windows',
      'Half-hour of the week by the home’s clock, Monday 00:00 is 1',
      'integer',
      (r) => `IF($${H.day}${r}=0,0,MOD(INT($${H.start}${r})+5,7)*48+ROUND(MOD($${H.start}${r},1)*48,0)+1)`,
      (r) => lines(r).weekSlotLocal,
    ),
    column(
      H.weekSlotUtc,
      'Week slot, UTC',
      'row of Windows',
      'Half-hour of the week by UTC, for meters whose clock does not move with summer time',
      'integer',
      (r) =>
        `IF($${H.day}${r}=0,0,MOD(INT(INT($${H.instant}${r}/2)/48)+5,7)*48+MOD(INT($${H.instant}${r}/2),48)+1)`,
      (r) => lines(r).weekSlotUtc,
    ),
    column(
      H.metered,
      'Metered',
      '1 or 0',
      '1 where the row counts and has an import reading',
      'integer',
      (r) => `IF($${H.day}${r}=0,0,IF(ISNUMBER(${READINGS}$${READING.importKwh}${r}),1,0))`,
      (r) => lines(r).metered,
    ),
    column(
      H.importKwh,
      'Import without battery',
      'kWh',
      'Grid import as it would be without a battery: as metered where none ran, else import − export + battery out − battery in where above zero',
      'kwhFine',
      (r) =>
        `IF($${H.day}${r}=0,0,IF(${batteryIdle(r)},${reading(READING.importKwh, r)},MAX(0,${netOf(r)})))`,
      (r) => lines(r).importKwh,
    ),
    column(
      H.exportKwh,
      'Export without battery',
      'kWh',
      'Grid export as it would be without a battery',
      'kwhFine',
      (r) =>
        `IF($${H.day}${r}=0,0,IF(${batteryIdle(r)},${reading(READING.exportKwh, r)},MAX(0,-(${netOf(r)}))))`,
      (r) => lines(r).exportKwh,
    ),
    column(
      H.demandKwh,
      'Demand',
      'kWh',
      'What the home used: import − export + solar + battery out − battery in, never below zero',
      'kwhFine',
      (r) => `IF($${H.day}${r}=0,0,MAX(0,${netOf(r)}+${reading(READING.solarKwh, r)}))`,
      (r) => lines(r).demandKwh,
    ),
    column(
      H.clampedKwh,
      'Clamped',
      'kWh',
      'Demand below zero that was set to zero; meter noise when small',
      'kwhFine',
      (r) => `IF($${H.day}${r}=0,0,MAX(0,-(${netOf(r)}+${reading(READING.solarKwh, r)})))`,
      (r) => lines(r).clampedKwh,
    ),
  ];
}

function tariffColumns(tariff: number): FormulaColumn[] {
  const letters = tariffLetters(tariff);
  const number = tariff + 1;
  const ofDay = (dayLetters: string, r: number): string =>
    `INDEX(${DAYS}$${dayLetters}$${FIRST_ROW}:$${dayLetters}$${LAST_DAY_ROW},$${H.day}${r})`;
  const ratePeriod = D.ratePeriod(tariff);
  const weekSlot = (r: number): string =>
    `IF(${absolute(SHEETS.tariffs, letters, TARIFF_ROW.clock)}="UTC",$${H.weekSlotUtc}${r},$${H.weekSlotLocal}${r})`;
  const rate = H.unitRate(tariff);
  return [
    column(
      rate,
      `Unit rate, tariff ${number}`,
      '{minor}/kWh',
      'Unit rate with VAT: the band of the half-hour in the rates in force, plus the half-hourly price where the tariff follows it',
      'rate',
      (r) =>
        `IF($${H.day}${r}=0,0,INDEX(${rateBlock(tariff)},(${ofDay(ratePeriod, r)}-1)*${BANDS}` +
        `+INDEX(${windowBandColumn(tariff)},${weekSlot(r)})+1)` +
        `+${absolute(SHEETS.rates, letters, RATES.priceFactor)}*${reading(READING.pricePence, r)})`,
      (r) => r.tariffs[tariff]!.halfHours.unitRatePence,
    ),
    column(
      H.offPeakKwh(tariff),
      `Off-peak, tariff ${number}`,
      'kWh',
      'Import without battery at the tariff’s lowest rate; none for a single rate or a half-hourly price',
      'kwhFine',
      (r) =>
        `IF($${H.day}${r}=0,0,IF($${rate}${r}=INDEX(${periodBlock(tariff, RATES.firstOffPeak)},${ofDay(ratePeriod, r)}),$${H.importKwh}${r},0))`,
      (r) => r.tariffs[tariff]!.halfHours.offPeakKwh,
    ),
  ];
}

/** The workings, one row a half-hour; rows stand beside the rows of the readings sheet. */
export function halfHoursSheet(): SheetModel {
  const byTariff = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariffColumns(tariff));
  const columns = [...sharedColumns(), ...[0, 1].flatMap((item) => byTariff.map((tariff) => tariff[item]!))];
  return {
    name: SHEETS.halfHours,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, c.letters === H.start ? 17 : 12])),
    heights: { [FIRST_ROW - 3]: 48 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Half-hours',
        `Workings: one row a half-hour beside the rows of ${SHEETS.readings}. Nothing to fill in.`,
      ),
      ...columnHeaders(columns),
      label(`${H.start}${SEED_ROW}`, 'start values', 'seed'),
      label(`${H.latest}${SEED_ROW}`, 0, 'seed'),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
