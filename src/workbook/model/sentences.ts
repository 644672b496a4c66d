import { absoluteRow } from '../cell-address.js';
import { batteryAnswer } from '../evaluate/battery/battery-answers.js';
import { MONTH_NAMES, monthText } from '../evaluate/calendar-parts.js';
import { spreadsheetRound } from '../evaluate/spreadsheet-round.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { SHEETS } from '../layout.js';
import { fact } from './battery/battery-columns.js';
import { quoted } from './cells.js';
import { CELL, MONTH as M, monthColumn, PERIOD_ROW } from './columns.js';
import {
  FIRST_TARIFF_LETTERS,
  LAST_TARIFF_LETTERS,
  TARIFF_ROW as T,
  TODAYS_TARIFF_CELL,
} from './tariff-rows.js';

/** A row of the tariffs sheet, across all tariffs. */
export function tariffRow(row: number): string {
  return absoluteRow(SHEETS.tariffs, FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, row);
}

const TODAYS = `${SHEETS.tariffs}!$${TODAYS_TARIFF_CELL.replace(/(\d+)/, '$$$1')}`;
const MONTH_LIST = MONTH_NAMES.map(quoted).join(',');

/** `Oct 2025` as a formula that does not depend on the language of the program. */
export function monthTextFormula(cell: string): string {
  return `CHOOSE(MONTH(${cell}),${MONTH_LIST})&" "&YEAR(${cell})`;
}

/** Pounds in a sentence, `1,234.50`: FIXED rounds and sets separators as the program does. */
const amount = (text: string): string => `${CELL.currency}&FIXED(${text},2)`;

export function amountText(results: WorkbookResults, pounds: number): string {
  const text = spreadsheetRound(Math.abs(pounds), 2).toLocaleString('en-GB', {
    minimumFractionDigits: 2,
    maximumFractionDigits: 2,
  });
  return `${results.inputs.home.currency ?? ''}${pounds < 0 ? '-' : ''}${text}`;
}

const NO_READINGS = `No readings in the period yet: paste half-hours into ${SHEETS.readings}, or run the fill.`;
const NO_TODAYS = `Choose today’s tariff on ${SHEETS.tariffs}, cell ${TODAYS_TARIFF_CELL}.`;

/** First and last chosen month, as cells of the months sheet. */
export const FIRST_CHOSEN = `INDEX(${monthColumn(M.start)},MATCH(1,${monthColumn(M.selected)},0))`;
export const LAST_CHOSEN = `INDEX(${monthColumn(M.start)},MATCH(1,${monthColumn(M.selected)},0)+SUM(${monthColumn(M.selected)})-1)`;

/** What the battery makes of it, where there is one: a sentence to follow the other. */
function withBatteryFormula(): string {
  const totals = tariffRow(T.withBattery);
  const lowest = `MIN(${totals})`;
  const second = `SMALL(${totals},2)`;
  const lead =
    `IF(COUNT(${totals})>1,IF(${second}>${lowest},", "&${amount(`${second}-${lowest}`)}&" less than "` +
    `&INDEX(${tariffRow(T.name)},1,MATCH(${second},${totals},0)),""),"")`;
  return (
    `&IF(${fact('usableKwh')}>0," With the battery the cheapest is "` +
    `&INDEX(${tariffRow(T.name)},1,MATCH(${lowest},${totals},0))&" at "&${amount(lowest)}&${lead}&".","")`
  );
}

function withBatteryText(results: WorkbookResults): string {
  if (results.battery.figures.battery.usableKwh <= 0) return '';
  const totals = results.tariffs.map(
    (_, t) => batteryAnswer(results, t).withPounds ?? Number.POSITIVE_INFINITY,
  );
  const lowest = Math.min(...totals);
  const name = String(results.inputs.tariffs[totals.indexOf(lowest)]!.name);
  const second = totals.toSorted((a, b) => a - b)[1] ?? lowest;
  const lead =
    Number.isFinite(second) && second > lowest
      ? `, ${amountText(results, second - lowest)} less than ${String(results.inputs.tariffs[totals.indexOf(second)]!.name)}`
      : '';
  return ` With the battery the cheapest is ${name} at ${amountText(results, lowest)}${lead}.`;
}

/** The result in one sentence. */
export function sentenceFormula(): string {
  const byRank = (rank: number, row: number): string =>
    `INDEX(${tariffRow(row)},1,MATCH(${rank},${tariffRow(T.rank)},0))`;
  const ofToday = (row: number): string =>
    `INDEX(${tariffRow(row)},1,MATCH(${TODAYS},${tariffRow(T.name)},0))`;
  const period = `IF(${FIRST_CHOSEN}=${LAST_CHOSEN},${monthTextFormula(FIRST_CHOSEN)},${monthTextFormula(FIRST_CHOSEN)}&" to "&${monthTextFormula(LAST_CHOSEN)})`;
  const best = byRank(1, T.name);
  const todayIsBest =
    `${ofToday(T.name)}&", today’s tariff, is the cheapest at "&${amount(ofToday(T.total))}` +
    `&IF(SUMPRODUCT((${tariffRow(T.name)}<>"")*1)>1,", "&${amount(`${byRank(2, T.total)}-${ofToday(T.total)}`)}&" less than "&${byRank(2, T.name)},"")&"."`;
  const otherIsBest =
    `${best}&" would have cost "&${amount(byRank(1, T.total))}&", "` +
    `&${amount(`${ofToday(T.total)}-${byRank(1, T.total)}`)}&" less than today’s tariff "&${ofToday(T.name)}&" ("&${amount(ofToday(T.total))}&")."`;
  return (
    `IF(${SHEETS.months}!$${M.metered}$${PERIOD_ROW}=0,${quoted(NO_READINGS)},` +
    `IF(ISERROR(MATCH(${TODAYS},${tariffRow(T.name)},0)),${quoted(NO_TODAYS)},` +
    `${period}&": "&IF(${ofToday(T.rank)}=1,${todayIsBest},${otherIsBest})${withBatteryFormula()}))`
  );
}

/** What {@link sentenceFormula} gives. */
export function sentenceOf(results: WorkbookResults): string {
  const { period, tariffs, todays } = results;
  if (period.metered === 0) return NO_READINGS;
  if (todays < 0) return NO_TODAYS;
  const nameOf = (t: number): string => String(results.inputs.tariffs[t]!.name);
  const totalOf = (t: number): number => tariffs[t]!.totals.totalPounds!;
  const ranked = (rank: number): number => tariffs.findIndex((tariff) => tariff.totals.rank === rank);
  const span =
    period.firstMonth === period.lastMonth
      ? monthText(period.firstMonth)
      : `${monthText(period.firstMonth)} to ${monthText(period.lastMonth)}`;
  const best = ranked(1);
  if (best === todays) {
    const second = ranked(2);
    const lead =
      second < 0
        ? ''
        : `, ${amountText(results, totalOf(second) - totalOf(todays))} less than ${nameOf(second)}`;
    return `${span}: ${nameOf(todays)}, today’s tariff, is the cheapest at ${amountText(results, totalOf(todays))}${lead}.${withBatteryText(results)}`;
  }
  const saving = amountText(results, totalOf(todays) - totalOf(best));
  return `${span}: ${nameOf(best)} would have cost ${amountText(results, totalOf(best))}, ${saving} less than today’s tariff ${nameOf(todays)} (${amountText(results, totalOf(todays))}).${withBatteryText(results)}`;
}

/** What the period holds, in one line. */
export function periodFormula(): string {
  const month = (letters: string): string => `${SHEETS.months}!$${letters}$${PERIOD_ROW}`;
  return (
    `IF(${month(M.expected)}=0,"",FIXED(${month(M.days)},0)&" days, "&FIXED(${month(M.importKwh)},0)&" kWh bought (without a battery), "` +
    `&FIXED(${month(M.exportKwh)},0)&" kWh exported; "&FIXED(100*${month(M.metered)}/${month(M.expected)},1)&" % of half-hours metered.")`
  );
}

export function periodText(results: WorkbookResults): string {
  const { period } = results;
  if (period.expected === 0) return '';
  const whole = (value: number, digits: number): string =>
    spreadsheetRound(value, digits).toLocaleString('en-GB', {
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
    });
  return (
    `${whole(period.days, 0)} days, ${whole(period.importKwh, 0)} kWh bought (without a battery), ` +
    `${whole(period.exportKwh, 0)} kWh exported; ${whole((100 * period.metered) / period.expected, 1)} % of half-hours metered.`
  );
}
