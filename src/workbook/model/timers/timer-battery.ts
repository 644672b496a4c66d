import { printFormula } from '../../../formula/print.js';
import type { StoredTimerResult, StoredTimerResults } from '../../inputs/stored-timers.js';
import { SHEETS } from '../../layout.js';
import { batterySpan } from '../battery/battery-span.js';
import { STATUS, statusFormula } from '../battery/battery-status.js';
import { weighedByTime } from '../battery/weighed-by-time.js';
import type { Book } from '../book.js';
import { formula, input, label } from '../cells.js';
import { periodRef, tariffOf } from '../period-line.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { hasTotalName } from '../tariff-rows.js';
import { TIMER_TABLE, TIMERS_ON_NAME, TOLD_NAMES, timerCell, timerHeader } from './timer-places.js';

/** How much each figure weighs in the mark: no two changes cancel by chance. */
const WEIGHTS = {
  /** Of what each load was metered at, or may have been: what the battery sees is less, and hangs on what is shared. */
  metered: { car: 7, water: 11 },
  car: { told: 8009, stepKwh: 8101, firstSlot: 8209, length: 8311 },
  water: { told: 8419, stepKwh: 8513, firstSlot: 8609, length: 8707 },
  tank: { kwhPerDay: 8803, heatedFirst: 8923, heatedLength: 9001 },
  standing: 211,
} as const;

/** Defined name of what the timers that are told of weigh in the mark of every tariff. */
const WEIGHT_NAME = 'timers_told_weight';
/** Defined name of the mark of a tariff, from 0. */
export const timerMarkName = (tariff: number): string => `timer_mark_${tariff + 1}`;

/** The lines that all tariffs share: which timers are told of, and what these weigh. Below them the sentence has its own. */
export function toldTimerLines(book: Book) {
  const { timers, halfHours, readings, calendar } = book.workings;
  const [car, water] = [timers.car.figures, halfHours.hotWater.figures];
  // While none is on, those that are typed are told of: what they would save.
  const told = ({ isOn, isKnown }: typeof car): string =>
    `IF(${TIMERS_ON_NAME}=0,${ref(isKnown)},${ref(isOn)})`;
  const weighed = ({ stepKwh, firstSlot, length }: typeof car, key: 'car' | 'water'): string => {
    const of = WEIGHTS[key];
    return `${of.told}+${of.stepKwh}*${ref(stepKwh)}+${of.firstSlot}*${ref(firstSlot)}+${of.length}*${ref(length)}`;
  };
  const { kwhPerDay, heatedFirst, heatedLength } = timers.tank;
  const tank = `${WEIGHTS.tank.kwhPerDay}*${ref(kwhPerDay)}+${WEIGHTS.tank.heatedFirst}*${ref(heatedFirst)}+${WEIGHTS.tank.heatedLength}*${ref(heatedLength)}`;
  const [channel, start] = [ref(readings.channels.carKwh), ref(readings.start)];
  return [
    { name: TIMERS_ON_NAME, formula: `${ref(car.isOn)}+${ref(water.isOn)}`, style: 'integer' },
    { name: TOLD_NAMES.car, formula: told(car), style: 'integer' },
    { name: TOLD_NAMES.water, formula: told(water), style: 'integer' },
    {
      // By time, for rows of readings stand in any order.
      name: 'timers_car_weighed',
      formula: `48*(SUMPRODUCT(${channel},${start})-SUM(${ref(calendar.firstDay)})*SUM(${channel}))+SUM(${channel})`,
      style: 'rate',
    },
    {
      name: 'timers_water_weighed',
      formula: printFormula(weighedByTime(book, halfHours.couldBeWaterKwh), {
        sheet: SHEETS.timers,
        row: 1,
        column: 1,
      }),
      style: 'rate',
    },
    {
      name: WEIGHT_NAME,
      formula: `${TOLD_NAMES.car}*(${weighed(car, 'car')}+${WEIGHTS.metered.car}*timers_car_weighed)+${TOLD_NAMES.water}*(${weighed(water, 'water')}+${tank}+${WEIGHTS.metered.water}*timers_water_weighed)`,
      style: 'rate',
    },
  ] as const;
}

const HEADERS = [
  ['withBattery', 'With battery, as things stand, {major}', 'header'],
  ['batterySaved', 'With battery, timers save, {major}', 'header'],
  ['batteryStatus', 'That figure is', 'header'],
  ['offTotal', 'With battery, timers off, {major}', 'header'],
  ['onTotal', 'With battery and timers, {major}', 'header'],
  ['offMark', 'Mark of its inputs, timers off', 'header'],
  ['onMark', 'Mark of its inputs, timers on', 'header'],
  ['computedAt', 'Worked out at', 'header'],
  ['mark', 'Mark as things stand', 'header'],
] as const;

/** What the words about a figure are merged to: the last column of the table. */
const statusEnd = (at: string): string => at.replace(/^[A-Z]+/, TIMER_TABLE.lastLetters);

function tariffCells(book: Book, t: number, mark: string, stored: StoredTimerResult): Cell[] {
  const { battery } = book.workings;
  const lines = tariffOf(book, t);
  const at = (key: Parameters<typeof timerCell>[0]): string => timerCell(key, t);
  const where = (condition: string, text: string): string =>
    `IF(OR(${hasTotalName(t)}=0,${ref(battery.usableKwh)}=0,${condition}),"",${text})`;
  const none = `${TOLD_NAMES.car}+${TOLD_NAMES.water}=0`;
  const figures = `${at('offTotal')}:${at('onMark')}`;
  const storedMark = `IF(${TIMERS_ON_NAME}=0,${at('offMark')},${at('onMark')})`;
  return [
    formula(at('withBattery'), where('FALSE', periodRef(book, lines.batteryMonths.total)), 'money'),
    formula(
      at('batterySaved'),
      where(
        `${at('batteryStatus')}<>"${STATUS.current}"`,
        `ROUND(SUM(${at('offTotal')})-SUM(${at('onTotal')}),2)`,
      ),
      'moneyStrong',
    ),
    formula(
      at('batteryStatus'),
      where(none, statusFormula(storedMark, at('mark'), `COUNT(${figures})<4`)),
      'textCentre',
      { mergeTo: statusEnd(at('batteryStatus')) },
    ),
    input(at('offTotal'), stored.offPounds, 'storedMoney'),
    input(at('onTotal'), stored.onPounds, 'storedMoney'),
    input(at('offMark'), stored.offMark, 'storedNumber'),
    input(at('onMark'), stored.onMark, 'storedNumber'),
    input(at('computedAt'), stored.computedAt, 'storedTime'),
    formula(
      at('mark'),
      `${mark}+${WEIGHTS.standing}*SUM(${periodRef(book, lines.months.standing)})+${WEIGHT_NAME}`,
      'rate',
      { name: timerMarkName(t) },
    ),
  ];
}

/**
 * What the timers save beside the battery. The battery runs once on each tariff, with the timers as they stand: the bill of
 * the other world is stored by the fill, beside the marks of all that both hang on.
 */
export function timerBatteryCells(book: Book, stored: StoredTimerResults): Cell[] {
  const { tariffs } = batterySpan(book);
  return [
    ...HEADERS.map(([key, text, style]) =>
      label(
        timerHeader(key),
        text,
        style,
        key === 'batteryStatus' ? { mergeTo: statusEnd(timerHeader(key)) } : {},
      ),
    ),
    ...tariffs.flatMap(({ fingerprint }, t) => {
      const of = stored[t];
      if (of === undefined) throw new RangeError(`nothing is stored of tariff ${t + 1}`);
      return tariffCells(book, t, ref(fingerprint), of);
    }),
  ];
}
