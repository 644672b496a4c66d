import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import type { StyleName } from '../build/styles.js';
import { absolute, absoluteColumn, absoluteRow, sheetPrefix } from '../cell-address.js';
import { batteryAnswer } from '../evaluate/battery/battery-answers.js';
import type { TariffTotals } from '../evaluate/tariff-totals.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import type { TariffCells } from '../inputs/workbook-inputs.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { BATTERY_MONTH } from './battery/battery-columns.js';
import { formula, input, label } from './cells.js';
import { MONTH as M, PERIOD_ROW } from './columns.js';
import { sentenceOf } from './sentences.js';
import type { Cell, CellValue, InputRule, SheetModel } from './sheet-model.js';
import {
  FIRST_TARIFF_LETTERS,
  LAST_TARIFF_LETTERS,
  LAST_TARIFF_ROW,
  ratePeriodRows,
  TARIFF_ROW as T,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from './tariff-rows.js';
import { coverCountLetters, LAST_SLOT_ROW, WINDOWS } from './windows-rows.js';

const YES_NO: InputRule = { kind: 'list', choices: ['yes', 'no'], title: 'Yes or no', message: 'yes or no' };
const RATE: InputRule = {
  kind: 'number',
  minimum: -1000,
  maximum: 1000,
  title: 'Rate',
  message: 'A rate per kWh or per day as your bill gives it; VAT as chosen above.',
};
const TIME: InputRule = {
  kind: 'time',
  minimum: 0,
  maximum: 1,
  title: 'Time',
  message: 'A time on the half-hour, 00:00 to 24:00, such as 00:30.',
};
const DATE: InputRule = {
  kind: 'date',
  minimum: 32_874,
  maximum: 73_050,
  title: 'Date',
  message: 'The first day on which these rates hold; later than the change before.',
};
const DAYS: InputRule = {
  kind: 'any',
  title: 'Days',
  message:
    'Every day, Mon-Fri, Sat-Sun, or a list such as Mon, Wed, Sat. A window past midnight belongs to the day it starts on.',
};

/** Notes on the inputs that people get wrong. */
const NOTE = {
  includesVat:
    'Bills show rates with VAT, business offers and price lists often without. yes: taken as typed. no: VAT from the home sheet is added.',
  halfHourlyPriced:
    'yes: the unit rate is the price column of the readings plus the rate below. Type 0 as base rate where the price is all there is.',
  windowTo: 'Midnight is 24:00. An end before the start means that the window runs past midnight.',
  exportRate: 'What you are paid for a kWh. It carries no VAT.',
  standing: 'A day, in the same small unit as the rates: 53.80, not 0.538.',
} as const;

const PERIOD = (letters: string): string => absolute(SHEETS.months, letters, PERIOD_ROW);

function resultCells(tariff: number): Cell[] {
  const c = tariffLetters(tariff);
  const name = `${c}$${T.name}`;
  const todays = absolute(SHEETS.tariffs, FIRST_TARIFF_LETTERS, T.todays).replace(/^.*!/, '');
  const names = `$${FIRST_TARIFF_LETTERS}$${T.name}:$${LAST_TARIFF_LETTERS}$${T.name}`;
  const totals = `$${FIRST_TARIFF_LETTERS}$${T.total}:$${LAST_TARIFF_LETTERS}$${T.total}`;
  const todaysPlace = `MATCH(${todays},${names},0)`;
  const ofToday = (row: number): string =>
    `INDEX($${FIRST_TARIFF_LETTERS}$${row}:$${LAST_TARIFF_LETTERS}$${row},1,${todaysPlace})`;
  const kwh = PERIOD(M.importKwh);
  const named = (text: string): string => `IF(${name}="","",${text})`;
  const withToday = (text: string): string => named(`IF(ISNUMBER(${todaysPlace}),${text},"")`);
  const value = (pick: (totals: TariffTotals) => CellValue) => (r: WorkbookResults) =>
    pick(r.tariffs[tariff]!.totals) ?? '';
  const cell = (
    row: number,
    text: string,
    pick: (totals: TariffTotals) => CellValue,
    style: StyleName,
    cellName?: string,
  ): Cell =>
    formula(`${c}${row}`, text, value(pick), style, cellName === undefined ? {} : { name: cellName });
  const offKwh = PERIOD(M.offPeakKwh(tariff));
  const offCost = PERIOD(M.offPeakCost(tariff));
  const energy = `${c}${T.energy}`;
  const peak = `(${energy}*100-${offCost})/(${kwh}-${offKwh})`;
  const spread = `(${peak}-${offCost}/${offKwh})`;
  const target = `(${ofToday(T.total)}-${c}${T.standing}+${c}${T.exportCredit})*100/${kwh}`;
  const earlier =
    tariff === 0
      ? ''
      : `+SUMPRODUCT(($${FIRST_TARIFF_LETTERS}$${T.name}:${tariffLetters(tariff - 1)}$${T.name}<>"")*($${FIRST_TARIFF_LETTERS}$${T.total}:${tariffLetters(tariff - 1)}$${T.total}=${c}${T.total}))`;
  return [
    cell(
      T.total,
      named(PERIOD(M.total(tariff))),
      (t) => t.totalPounds,
      'moneyStrong',
      `total_of_tariff_${tariff + 1}`,
    ),
    cell(
      T.difference,
      withToday(`ROUND(${c}${T.total}-${ofToday(T.total)},2)`),
      (t) => t.differencePounds,
      'moneySigned',
    ),
    cell(
      T.rank,
      named(`1+SUMPRODUCT((${names}<>"")*(${totals}<${c}${T.total}))${earlier}`),
      (t) => t.rank,
      'integer',
    ),
    cell(T.energy, named(PERIOD(M.energy(tariff))), (t) => t.energyPounds, 'money'),
    cell(T.standing, named(PERIOD(M.standing(tariff))), (t) => t.standingPounds, 'money'),
    cell(T.exportCredit, named(PERIOD(M.exportCredit(tariff))), (t) => t.exportCreditPounds, 'money'),
    cell(
      T.allIn,
      named(`IF(${kwh}>0,(${energy}+${c}${T.standing})*100/${kwh},"")`),
      (t) => t.allInPence,
      'rate',
    ),
    cell(T.offPeakShare, named(`IF(${kwh}>0,${offKwh}/${kwh},"")`), (t) => t.offPeakShare, 'percent'),
    cell(
      T.breakEvenShare,
      withToday(
        `IF(OR(${offKwh}<=0,${kwh}-${offKwh}<=0),"",IF(${spread}<=0,"",(${peak}-${target})/${spread}))`,
      ),
      (t) => t.breakEvenOffPeakShare,
      'percent',
    ),
    cell(
      T.headroom,
      withToday(`IF(${kwh}>0,(${ofToday(T.total)}-${c}${T.total})*100/${kwh},"")`),
      (t) => t.headroomPence,
      'rate',
    ),
    cell(
      T.differenceAfterExit,
      withToday(`ROUND(${c}${T.difference}+IF(${todaysPlace}=${tariff + 1},0,SUM(${ofToday(T.exitFee)})),2)`),
      (t) => t.differenceAfterExitPounds,
      'moneySigned',
    ),
    cell(
      T.coverage,
      named(`IF(${PERIOD(M.expected)}=0,0,${PERIOD(M.metered)}/${PERIOD(M.expected)})`),
      (t) => t.coverage,
      'percent',
    ),
    formula(
      `${c}${T.withBattery}`,
      named(absolute(SHEETS.batteryMonths, BATTERY_MONTH.totalPounds(tariff), PERIOD_ROW)),
      (r) => batteryAnswer(r, tariff).withPounds ?? '',
      'moneyStrong',
      { name: `total_with_battery_of_tariff_${tariff + 1}` },
    ),
    formula(
      `${c}${T.batterySaving}`,
      named(`ROUND(${c}${T.total}-${c}${T.withBattery},2)`),
      (r) => batteryAnswer(r, tariff).savingPounds ?? '',
      'money',
    ),
  ];
}

function inputCells(tariff: number, start: TariffCells): Cell[] {
  const c = tariffLetters(tariff);
  const at = (row: number): string => `${c}${row}`;
  const cells: Cell[] = [
    input(at(T.name), start.name, 'inputName', {
      kind: 'text',
      title: 'Name',
      message: 'Your own name for this tariff; leave blank where there is none.',
    }),
    input(at(T.clock), start.clock, 'inputChoice', {
      kind: 'list',
      choices: ['local', 'UTC'],
      title: 'Clock of the windows',
      message: 'local: by the home’s clock. UTC: a meter clock that does not move with summer time.',
    }),
    input(at(T.includesVat), start.includesVat, 'inputChoice', YES_NO, { comment: NOTE.includesVat }),
    input(at(T.halfHourlyPriced), start.halfHourlyPriced, 'inputChoice', YES_NO, {
      comment: NOTE.halfHourlyPriced,
    }),
    input(at(T.exitFee), start.exitFee, 'inputMoney', {
      kind: 'number',
      minimum: 0,
      maximum: 10_000,
      title: 'Exit fee',
      message: 'What leaving this tariff early costs, once.',
    }),
  ];
  start.windows.forEach((window, k) => {
    const rows = windowRows(k);
    cells.push(
      input(at(rows.from), window.from, 'inputTime', TIME),
      input(at(rows.to), window.to, 'inputTime', TIME, k === 0 ? { comment: NOTE.windowTo } : {}),
      input(at(rows.days), window.days, 'inputChoice', DAYS),
    );
  });
  start.periods.forEach((period, p) => {
    const rows = ratePeriodRows(p);
    if (p > 0) cells.push(input(at(rows.validFrom), period.validFrom, 'inputDate', DATE));
    cells.push(
      input(at(rows.standing), period.standing, 'inputRate', RATE, p === 0 ? { comment: NOTE.standing } : {}),
      input(at(rows.base), period.base, 'inputRate', RATE),
      ...rows.windowRates.map((row, k) => input(at(row), period.windowRates[k] ?? null, 'inputRate', RATE)),
      input(
        at(rows.exportRate),
        period.exportRate,
        'inputRate',
        RATE,
        p === 0 ? { comment: NOTE.exportRate } : {},
      ),
    );
  });
  return cells;
}

function labels(): Cell[] {
  const row = (at: number, text: string, unit: string, style: StyleName = 'label'): Cell[] => [
    label(`A${at}`, text, style),
    label(`B${at}`, unit, 'unit'),
  ];
  const cells: Cell[] = [
    ...row(T.name, 'Tariff', 'your name for it', 'labelStrong'),
    ...row(T.total, 'Total', '{major}', 'labelStrong'),
    ...row(T.difference, 'Difference from today’s', '{major}'),
    ...row(T.rank, 'Rank, 1 is cheapest', ''),
    ...row(T.energy, 'Energy', '{major}'),
    ...row(T.standing, 'Standing charge', '{major}'),
    ...row(T.exportCredit, 'Export credit', '{major}'),
    ...row(T.allIn, 'All-in unit cost: energy and standing charge', '{minor}/kWh'),
    ...row(T.offPeakShare, 'Off-peak share of import', 'at the lowest rate'),
    ...row(T.breakEvenShare, 'Off-peak share at which it ties with today’s', 'percent'),
    ...row(T.headroom, 'Every unit rate may rise by this before it ties', '{minor}/kWh'),
    ...row(T.differenceAfterExit, 'Difference with the exit fee of today’s', '{major}'),
    ...row(T.coverage, 'Half-hours metered', 'percent'),
    ...row(T.withBattery, 'Total with the battery', '{major}', 'labelStrong'),
    ...row(T.batterySaving, 'The battery saves', '{major}'),
    label(`A${T.chargesHeading}`, 'How it charges', 'section'),
    ...row(T.clock, 'Clock of the windows', 'local or UTC'),
    ...row(T.includesVat, 'Rates below include VAT', 'yes or no'),
    ...row(T.halfHourlyPriced, 'Follows the half-hourly price', 'yes: price + rate below'),
    ...row(T.exitFee, 'Exit fee', '{major}'),
    label(`A${T.windowsHeading}`, 'Windows with a rate of their own', 'section'),
  ];
  for (let k = 0; k < MAX_WINDOWS; k++) {
    const rows = windowRows(k);
    cells.push(
      ...row(rows.from, `Window ${k + 1} from`, 'time'),
      ...row(rows.to, `Window ${k + 1} to`, 'time'),
      ...row(rows.days, `Window ${k + 1} starts on`, 'days, blank: every day'),
    );
  }
  for (let p = 0; p < MAX_RATE_PERIODS; p++) {
    const rows = ratePeriodRows(p);
    cells.push(
      label(`A${rows.heading}`, p === 0 ? 'Rates from the beginning' : `Change ${p} of rates`, 'section'),
    );
    if (p > 0) cells.push(...row(rows.validFrom, 'Valid from', 'date'));
    cells.push(
      ...row(rows.standing, 'Standing charge', '{minor}/day'),
      ...row(rows.base, 'Base rate, outside the windows', '{minor}/kWh'),
      ...rows.windowRates.flatMap((at, k) => row(at, `Rate in window ${k + 1}`, '{minor}/kWh')),
      ...row(rows.exportRate, 'Export rate', '{minor}/kWh'),
    );
  }
  return cells;
}

/** The tariffs side by side, each with its totals at the top of its column. */
export function tariffsSheet(start: readonly TariffCells[], todaysTariff: CellValue): SheetModel {
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
  return {
    name: SHEETS.tariffs,
    tab: 'input',
    widths: { A: 42, B: 20, ...Object.fromEntries(tariffs.map((t) => [tariffLetters(t), 15])) },
    heights: { [T.sentence]: 24, [T.name]: 34 },
    freeze: { columns: 2, rows: T.rank },
    protected: true,
    landscape: true,
    printArea: `A1:${LAST_TARIFF_LETTERS}${LAST_TARIFF_ROW}`,
    printTitleRows: `${T.name}:${T.name}`,
    cells: [
      label('A1', 'Tariffs', 'title'),
      formula(`A${T.sentence}`, `${sheetPrefix(SHEETS.answer)}$A$2`, sentenceOf, 'textStrong'),
      label(`A${T.todays}`, 'Today’s tariff', 'labelStrong'),
      label(`B${T.todays}`, 'one of the names below', 'unit'),
      input(
        TODAYS_TARIFF_CELL,
        todaysTariff,
        'inputName',
        {
          kind: 'list',
          choices: absoluteRow(SHEETS.tariffs, FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, T.name),
          title: 'Today’s tariff',
          message: 'The tariff that you are on; the others are compared with it.',
        },
        { name: 'todays_tariff' },
      ),
      ...labels(),
      ...tariffs.flatMap((t) => [...resultCells(t), ...inputCells(t, start[t]!)]),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      {
        range: `${FIRST_TARIFF_LETTERS}${T.total}:${LAST_TARIFF_LETTERS}${T.rank}`,
        formula: `${FIRST_TARIFF_LETTERS}$${T.rank}=1`,
        style: 'best',
      },
      ...tariffs.map((t) => ({
        range: `${tariffLetters(t)}${T.firstWindow}:${tariffLetters(t)}${windowRows(MAX_WINDOWS - 1).days}`,
        formula: `COUNTIFS(${absoluteColumn(SHEETS.windows, coverCountLetters(t), WINDOWS.firstSlot, LAST_SLOT_ROW)},">1")>0`,
        style: 'bad' as const,
      })),
    ],
  };
}
