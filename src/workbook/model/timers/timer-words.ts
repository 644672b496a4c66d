import { cellOf, stretch } from '../../book/terms.js';
import { SHEETS } from '../../layout.js';
import { STATUS } from '../battery/battery-status.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { ref } from '../references.js';
import { tariffRow } from '../sentences.js';
import type { Cell } from '../sheet-model.js';
import { TARIFF_ROW, TODAYS_IS_PRICED_NAME, TODAYS_PLACE_NAME } from '../tariff-rows.js';
import { toldTimerLines } from './timer-battery.js';
import { LIMITS_HEADING, largestImportLine } from './timer-limits.js';
import {
  TIMER_LAST_LETTERS,
  TIMER_PLACE_NAME,
  TIMER_WORDS_LETTERS,
  TIMER_WORDS_NAME,
  TIMERS_ON_NAME,
  type TimerColumn,
  TOLD_NAMES,
  timerRange,
} from './timer-places.js';

/** Row of the first line that the sentence is made of. */
const FIRST = 6;
const amount = (text: string): string => `currency_symbol&FIXED(${text},2)`;
const rate = (text: string): string => `FIXED(${text},1)&" "&minor_unit&"/kWh"`;

/** Money below this is none. */
const LEAST_SAVING = 0.005;
/** Sentences that follow the first, where there is something to say: of the car, then the others. */
const OF_CAR = ['timer_could_words', 'timer_hours_words', 'timer_battery_words'] as const;
const OTHERS = ['water_could_words', 'timer_with_battery_words'] as const;
const followedBy = (first: string, others: readonly string[]): string =>
  `${first}${others.map((name) => `&IF(${name}="",""," "&${name})`).join('')}`;

interface Line {
  name: string;
  formula: string;
  style: 'text' | 'integer' | 'money' | 'rate' | 'dateTime';
}

function lines(book: Book): Line[] {
  const { timers, timerPeriod, timerLeast, battery, tariffs } = book.workings;
  const { car } = timers;
  const { figures: water } = book.workings.halfHours.hotWater;
  const place = TIMER_PLACE_NAME;
  const ofRow = (key: TimerColumn): string => `INDEX(${timerRange(key)},MAX(1,${place}))`;
  const lowest = `CHOOSE(MAX(1,${place}),${tariffs.map((_, t) => `average_lowest_rate_${t + 1}`).join(',')})`;
  const kwh = `SUM(${ref(timerPeriod.car.kwh)})`;
  const waterKwh = `SUM(${ref(timerPeriod.water.kwh)})`;
  const [status, batterySaves] = [ofRow('batteryStatus'), 'timer_battery_saves'];
  return [
    ...toldTimerLines(book),
    largestImportLine(book),
    {
      name: place,
      formula: `IF(${TODAYS_IS_PRICED_NAME}=1,${TODAYS_PLACE_NAME},0)`,
      style: 'integer',
    },
    {
      name: 'car_can_be_told',
      formula: `IF(AND(${kwh}>0,${ref(car.figures.isKnown)}=1),1,0)`,
      style: 'integer',
    },
    {
      name: 'timer_no_tariff_words',
      formula: `IF(${place}>0,"",IF(${TODAYS_PLACE_NAME}=0,"Choose today’s tariff to see what a timer saves.",todays_name&", today’s tariff, has no total, so that nothing is told of timers: see ${SHEETS.tariffs}."))`,
      style: 'text',
    },
    {
      name: 'timer_missing_words',
      formula: `IF(no_readings_words<>"",no_readings_words,IF(AND(car_can_be_told=0,${waterKwh}<=0),timer_nothing_yet_words,timer_no_tariff_words))`,
      style: 'text',
    },
    { name: 'timer_saves', formula: `IF(${place}=0,0,SUM(${ofRow('saved')}))`, style: 'money' },
    { name: 'timer_could_save', formula: `IF(${place}=0,0,SUM(${ofRow('carCould')}))`, style: 'money' },
    {
      name: 'timer_change_words',
      formula: `IF(ABS(timer_saves)<${LEAST_SAVING},"the timers change nothing.","the timers make the period "&${amount('ABS(timer_saves)')}&IF(timer_saves<0," dearer."," cheaper."))`,
      style: 'text',
    },
    {
      name: 'timer_paid_words',
      formula: `IF(car_can_be_told=1,"the car took its energy at "&${rate(`SUM(${ofRow('carPaid')})`)},"hot water took its energy at "&${rate(`SUM(${ofRow('waterPaid')})`)})&", as metered."`,
      style: 'text',
    },
    {
      name: 'timer_saves_words',
      formula: `"On "&todays_name&", without battery, "&IF(${TIMERS_ON_NAME}=0,timer_paid_words,timer_change_words)`,
      style: 'text',
    },
    {
      name: batterySaves,
      formula: `IF(${place}=0,0,SUM(${ofRow('batterySaved')}))`,
      style: 'money',
    },
    {
      name: 'timer_battery_change_words',
      formula: `IF(ABS(${batterySaves})<${LEAST_SAVING},"change nothing.",IF(${batterySaves}>0,"save ","cost ")&${amount(`ABS(${batterySaves})`)}&IF(${batterySaves}>0,"."," more."))`,
      style: 'text',
    },
    {
      name: 'timer_with_battery_words',
      formula: `IF(OR(${TOLD_NAMES.car}+${TOLD_NAMES.water}=0,${ref(battery.usableKwh)}=0),"",IF(${status}="${STATUS.current}","With the battery the timers "&IF(${TIMERS_ON_NAME}=0,"as typed would ","")&timer_battery_change_words,"What they save with the battery is "&${status}&"."))`,
      style: 'text',
    },
    { name: 'car_sessions_in_period', formula: sessionsFormula(book), style: 'integer' },
    {
      name: 'car_sessions_not_told',
      formula: `IF(${place}=0,0,car_sessions_in_period-SUM(${ofRow('carTold')}))`,
      style: 'integer',
    },
    {
      name: 'timer_afterwards_words',
      formula: `IF(${place}=0,"",IF(INDEX(${tariffRow(TARIFF_ROW.halfHourlyPriced)},1,MAX(1,${place}))="yes",", known only afterwards",""))`,
      style: 'text',
    },
    {
      name: 'timer_no_session_words',
      formula: `IF(AND(timer_afterwards_words<>"",SUM(${ref(timerLeast.car.counts)})>0),"Where a tariff’s windows add to a half-hourly price the least is not told.","The least is told of none of the car’s sessions: ${LIMITS_HEADING} says why.")`,
      style: 'text',
    },
    {
      name: 'timer_untold_words',
      formula: `IF(${ref(car.figures.spansNoon)}=1,"Of hours that take in noon the least is not told: let them begin or end at noon to see it.",timer_no_session_words)`,
      style: 'text',
    },
    {
      name: 'timer_nothing_words',
      formula: `IF(car_sessions_not_told>=car_sessions_in_period,timer_untold_words,IF(car_sessions_not_told>0,"None of the sessions that can be told would cost less in its hours; "&car_sessions_not_told&" of "&car_sessions_in_period&" can’t be told.","Nothing cheaper is to be had in its hours."))`,
      style: 'text',
    },
    {
      name: 'timer_rest_words',
      formula: `IF(car_sessions_not_told=0,".","; "&car_sessions_not_told&" of "&car_sessions_in_period&" sessions can’t be told and count"&IF(car_sessions_not_told=1,"s as it is."," as they are."))`,
      style: 'text',
    },
    {
      name: 'timer_least_words',
      formula: `"The least that its hours allow is "&IF(${ref(car.figures.isOn)}=1,"a further ","")&${amount('timer_could_save')}&" less, "&${rate(`SUM(${ofRow('carLeast')})`)}&", night by night"&timer_afterwards_words&timer_rest_words`,
      style: 'text',
    },
    {
      name: 'timer_could_words',
      formula: `IF(car_can_be_told=0,"",IF(timer_could_save>=${LEAST_SAVING},timer_least_words,timer_nothing_words))`,
      style: 'text',
    },
    {
      name: 'timer_hours_words',
      formula: `IF(OR(timer_could_save<${LEAST_SAVING},${ofRow('carHours')}=""),"",IF(timer_afterwards_words="","Its longest cheap stretch: ","Its cheapest stretch by mean price: ")&${ofRow('carHours')}&".")`,
      style: 'text',
    },
    { name: 'water_could_save', formula: `IF(${place}=0,0,SUM(${ofRow('waterCould')}))`, style: 'money' },
    {
      name: 'water_hours_words',
      formula: `IF(OR(water_could_save<${LEAST_SAVING},${ofRow('waterHours')}=""),"",IF(timer_afterwards_words="","; its longest cheap stretch: ","; its cheapest stretch by mean price: ")&${ofRow('waterHours')})`,
      style: 'text',
    },
    {
      name: 'water_could_words',
      formula: `IF(water_could_save<${LEAST_SAVING},"","For hot water the least is "&IF(${ref(water.isOn)}=1,"a further ","")&${amount('water_could_save')}&" less, "&${rate(`SUM(${ofRow('waterLeast')})`)}&timer_afterwards_words&water_hours_words&".")`,
      style: 'text',
    },
    {
      name: 'through_battery_pence',
      formula: `IF(OR(${ref(battery.usableKwh)}=0,${place}=0),0,${lowest}/${ref(battery.roundTrip)}+${ref(battery.wearPencePerKwh)})`,
      style: 'rate',
    },
    {
      name: 'timer_battery_words',
      formula: `IF(OR(car_can_be_told=0,timer_could_save<${LEAST_SAVING},through_battery_pence=0,SUM(${ofRow('carLeast')})>=through_battery_pence),"","At that least a kWh costs less than through the battery ("&${rate('through_battery_pence')}&").")`,
      style: 'text',
    },
    {
      name: 'timer_car_words',
      formula: followedBy('timer_saves_words', OF_CAR),
      style: 'text',
    },
    {
      name: 'timer_nothing_yet_words',
      formula: `IF(${kwh}>0,"Type when the car may run, and its power, to see what a timer saves.","Nothing to move yet: fill in the car’s kWh on ${SHEETS.readings}, or what the hot water takes.")`,
      style: 'text',
    },
  ];
}

/** Sessions of the car that begin in the chosen period, the night before the first day among them. */
function sessionsFormula({ workings: { timers, calendar, months } }: Book): string {
  const { kwh } = timers.car.sessions;
  const first = ref(cellOf(kwh, 0));
  const inPeriod = periodCriteria(ref(calendar.date), ref(months.periodFrom), ref(months.periodTo));
  return `IF(car_can_be_told=0,0,COUNTIFS(${ref(stretch(kwh, 1, kwh.rows - 1))},">0",${inPeriod})+IF(AND(${ref(calendar.firstDay)}>=${ref(months.periodFrom)},${first}>0),1,0))`;
}

/**
 * Days of the chosen period as criteria.
 *
 * @param days their dates
 * @param from its first month
 * @param to its last month
 */
export function periodCriteria(days: string, from: string, to: string): string {
  return `${days},">="&${from},${days},"<"&DATE(YEAR(${to}),MONTH(${to})+1,1)`;
}

/** The sentence of the sheet, and the lines that it is made of. */
export function timerWordCells(book: Book): Cell[] {
  const W = TIMER_WORDS_LETTERS;
  return [
    label(`${W}${FIRST - 1}`, 'Lines that the sentence is made of', 'hint'),
    ...lines(book).map(({ name, formula: text, style }, i) =>
      formula(`${W}${FIRST + i}`, text, style, { name }),
    ),
    formula(
      'A2',
      `IF(timer_missing_words<>"",timer_missing_words,${followedBy('timer_car_words', OTHERS)})`,
      'sentence',
      { name: TIMER_WORDS_NAME, mergeTo: `${TIMER_LAST_LETTERS}2` },
    ),
  ];
}
