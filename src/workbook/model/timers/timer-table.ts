import type { Line } from '../../book/terms.js';
import { SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { CheapestHoursOfTariff } from '../../sheets/timer-hours.js';
import type { BeyondLeast } from '../../sheets/timer-least.js';
import { HALF_HOURS_A_YEAR } from '../battery/battery-status.js';
import { isYearFormula } from '../battery/year-figures.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { periodRef, tariffOf } from '../period-line.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { hasTotalName, TARIFF_ROW, tariffLetters } from '../tariff-rows.js';
import {
  KWH_TABLE,
  TIMER_LAST_LETTERS,
  TIMER_TABLE,
  type TimerColumn,
  timerCell,
  timerHeader,
} from './timer-places.js';
import { periodCriteria } from './timer-words.js';

const HEADERS: readonly (readonly [TimerColumn, string])[] = [
  ['name', 'Tariff'],
  ['asMetered', 'Total without the timers, {major}'],
  ['withTimers', 'Total with the timers, {major}'],
  ['saved', 'Timers save, {major}'],
  ['savedYear', 'Timers save a year, {major}'],
  ['kwhName', 'Tariff, without battery'],
  ['carPaid', 'Car as metered, {minor}/kWh'],
  ['carPays', 'Car with its timer, {minor}/kWh'],
  ['carLeast', 'Car at its cheapest, {minor}/kWh'],
  ['carCould', 'Cheapest saves more, {major}'],
  ['carHours', 'Cheapest hours of the car'],
  ['carTooLong', 'Sessions too long for them, all readings'],
  ['waterPaid', 'Hot water as metered, {minor}/kWh'],
  ['waterPays', 'Hot water with its timer, {minor}/kWh'],
  ['waterLeast', 'Hot water at its cheapest, {minor}/kWh'],
  ['waterCould', 'Cheapest saves more, {major}'],
  ['waterHours', 'Cheapest hours of hot water'],
];

/** Half-hours after midnight as a clock shows them, `00:30`. */
function clockText(halfHours: string): string {
  return `RIGHT("0"&INT((${halfHours})/2),2)&IF(MOD(${halfHours},2)=1,":30",":00")`;
}

/** The cheapest hours as a clock says them, from and to; nothing where none are known. */
function hoursCells(
  [whole, from, to]: readonly [TimerColumn, TimerColumn, TimerColumn],
  t: number,
  { fromNoon, length }: CheapestHoursOfTariff,
  whereKnown: (text: string) => string,
): Cell[] {
  const [noon, count] = [ref(fromNoon), ref(length)];
  const clock = (key: TimerColumn, halfHours: string): Cell =>
    formula(timerCell(key, t), `IF(${count}=0,"",${clockText(halfHours)})`, 'textCentre');
  return [
    clock(from, `MOD(${noon}+24,48)`),
    clock(to, `MOD(${noon}+23+${count},48)+1`),
    maker(t)(
      whole,
      whereKnown(`IF(${count}=0,"",${timerCell(from, t)}&" to "&${timerCell(to, t)})`),
      'textCentre',
    ),
  ];
}

type Maker = (key: TimerColumn, text: string, style: StyleName) => Cell;

/** A figure of a tariff that has a total, else nothing. */
const maker =
  (t: number): Maker =>
  (key, text, style) =>
    formula(timerCell(key, t), `IF(${hasTotalName(t)}=0,"",${text})`, style);

function nameCell(key: 'name' | 'kwhName', t: number): Cell {
  const name = `${SHEETS.tariffs}!$${tariffLetters(t)}$${TARIFF_ROW.name}`;
  return formula(timerCell(key, t), `IF(${name}="","",${name})`, 'tariffName');
}

function hoursOf(hours: readonly CheapestHoursOfTariff[], t: number): CheapestHoursOfTariff {
  const found = hours[t];
  if (found === undefined) throw new RangeError(`there are no hours of tariff ${t + 1}`);
  return found;
}

/** What moving changes in the bill of a tariff. */
function billCells(book: Book, t: number): Cell[] {
  const lines = tariffOf(book, t);
  const cell = maker(t);
  const [asMetered, withTimers] = (['asMetered', 'withTimers'] as const).map((key) => timerCell(key, t));
  const saved = timerCell('saved', t);
  const metered = periodRef(book, book.workings.months.metered);
  return [
    nameCell('name', t),
    cell('asMetered', periodRef(book, lines.timerMonths.totalAsMetered), 'money'),
    cell('withTimers', periodRef(book, lines.months.total), 'moneyStrong'),
    cell('saved', `ROUND(${asMetered}-${withTimers},2)`, 'moneyStrong'),
    cell('savedYear', `IF(${isYearFormula(metered)},${saved}*${HALF_HOURS_A_YEAR}/${metered},"")`, 'money'),
  ];
}

/** How many sessions of the chosen period begin on a day whose least is told. */
function toldCell(book: Book, key: TimerColumn, t: number, { lastRate }: BeyondLeast, none: string): Cell {
  const { calendar, months } = book.workings;
  const inPeriod = periodCriteria(ref(calendar.date), ref(months.periodFrom), ref(months.periodTo));
  return formula(
    timerCell(key, t),
    `IF(OR(${hasTotalName(t)}=0,${none}),0,COUNTIFS(${ref(lastRate)},">-1E+300",${inPeriod}))`,
    'integer',
  );
}

/** Figures of a load at its least: p/kWh, and what that saves; nothing where no session’s least is told. */
function leastCells(
  cell: Maker,
  [least, could]: readonly [TimerColumn, TimerColumn],
  { none, told, pence, beyond, kwh }: Record<'none' | 'told' | 'pence' | 'kwh', string> & { beyond: Line },
): Cell[] {
  const whereTold = (text: string): string => `IF(${none},"",IF(${told}=0,"",${text}))`;
  return [
    cell(least, whereTold(`(${pence}-${ref(beyond)})/${kwh}`), 'rate'),
    cell(could, whereTold(`ROUND(${ref(beyond)}/100,2)`), 'money'),
  ];
}

function carCells(book: Book, t: number): Cell[] {
  const { timers, timerPeriod, timerHours } = book.workings;
  const { figures, sessions } = timers.car;
  const lines = tariffOf(book, t);
  const cell = maker(t);
  const cost = lines.timerMonths.car;
  const [kwh, changeKwh] = [ref(timerPeriod.car.kwh), ref(timerPeriod.car.changeKwh)];
  const pence = ref(cost.pence);
  const hours = hoursOf(timerHours.car, t);
  const none = `${ref(figures.isKnown)}*(${kwh}>0)=0`;
  const whereKnown = (text: string): string => `IF(${none},"",${text})`;
  const room = `${ref(hours.length)}*${ref(figures.stepKwh)}`;
  return [
    cell(
      'carPaid',
      `IF(${kwh}-${changeKwh}>0,(${pence}-${ref(cost.changePence)})/(${kwh}-${changeKwh}),"")`,
      'rate',
    ),
    cell('carPays', `IF(${kwh}>0,${pence}/${kwh},"")`, 'rate'),
    ...leastCells(cell, ['carLeast', 'carCould'], {
      none,
      told: timerCell('carTold', t),
      pence,
      beyond: cost.beyondLeast,
      kwh,
    }),
    ...hoursCells(['carHours', 'carFrom', 'carTo'], t, hours, whereKnown),
    cell('carTooLong', whereKnown(`COUNTIFS(${ref(sessions.fitsKwh)},">"&(${room}+0.000001))`), 'count'),
    toldCell(book, 'carTold', t, lines.timerDays.car, none),
  ];
}

function waterCells(book: Book, t: number): Cell[] {
  const { timerPeriod, timerHours } = book.workings;
  const lines = tariffOf(book, t);
  const cell = maker(t);
  const { asMeteredPence, changePence, beyondLeast } = lines.timerMonths.water;
  const [kwh, changeKwh] = [ref(timerPeriod.water.kwh), ref(timerPeriod.water.changeKwh)];
  const none = `SUM(${kwh})<=0`;
  const whereKnown = (text: string): string => `IF(${none},"",${text})`;
  const pence = `(${ref(asMeteredPence)}+${ref(changePence)})`;
  const moved = `(${kwh}+${changeKwh})`;
  return [
    cell('waterPaid', whereKnown(`${ref(asMeteredPence)}/${kwh}`), 'rate'),
    cell('waterPays', whereKnown(`${pence}/${moved}`), 'rate'),
    ...leastCells(cell, ['waterLeast', 'waterCould'], {
      none,
      told: timerCell('waterTold', t),
      pence,
      beyond: beyondLeast,
      kwh: moved,
    }),
    ...hoursCells(['waterHours', 'waterFrom', 'waterTo'], t, hoursOf(timerHours.water, t), whereKnown),
    toldCell(book, 'waterTold', t, lines.timerDays.water, none),
  ];
}

/** What moving use changes on every tariff, and what a kWh of the loads costs: two tables, a row a tariff. */
export function timerTableCells(book: Book): Cell[] {
  const heading = (row: number, text: string): Cell =>
    label(`B${row}`, text, 'section', { mergeTo: `${TIMER_LAST_LETTERS}${row}` });
  const isName = (key: TimerColumn): boolean => key === 'name' || key === 'kwhName';
  return [
    heading(TIMER_TABLE.heading, 'What moving changes on every tariff, in the chosen period'),
    heading(
      KWH_TABLE.heading,
      'What a kWh of car and hot water costs on every tariff, and when it is cheapest',
    ),
    ...HEADERS.map(([key, text]) => label(timerHeader(key), text, isName(key) ? 'headerLeft' : 'header')),
    label(timerHeader('carTold'), 'Sessions of the car whose least is told', 'hint'),
    label(timerHeader('waterTold'), 'Of hot water', 'hint'),
    label(timerHeader('carFrom'), 'Cheapest hours from and to: car, hot water', 'hint'),
    ...book.workings.tariffs.flatMap((_, t) => [
      ...billCells(book, t),
      nameCell('kwhName', t),
      ...carCells(book, t),
      ...waterCells(book, t),
    ]),
  ];
}
