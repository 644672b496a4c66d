import type { Reference } from '../../formula/nodes.js';
import { areaReference, f, type Line, type Term } from '../book/terms.js';
import { SHEETS } from '../layout.js';
import { choiceField, type Field, fieldsDown, numberField, timeField } from './field.js';
import { limitRule, type Rule } from './rule.js';

/** Row of the first input on the sheet of timers. */
export const FIRST_TIMER_ROW = 6;
/** Columns of the two loads. */
export const TIMER_COLUMN = { car: 3, hotWater: 4 } as const;
export type TimedLoad = keyof typeof TIMER_COLUMN;
export const TIMED_LOADS = Object.keys(TIMER_COLUMN) as TimedLoad[];

/** How a load is called in labels, refusals and defined names. */
export const LOAD_WORDS: Readonly<Record<TimedLoad, { text: string; name: string }>> = {
  car: { text: 'car', name: 'car' },
  hotWater: { text: 'hot water', name: 'water' },
};

function timerFields(load: TimedLoad) {
  const { text, name } = LOAD_WORDS[load];
  return fieldsDown(
    { sheet: SHEETS.timers, row: FIRST_TIMER_ROW, column: TIMER_COLUMN[load] },
    {
      isOn: choiceField({
        choices: ['yes', 'no'],
        mayBeBlank: true,
        label: 'Timer on',
        unit: 'yes or no, blank: no',
        style: 'inputChoice',
        hint: 'yes: all totals are those with the load moved into these hours. no: as it was metered.',
        what: `whether the timer of the ${text} is on`,
        name: `${name}_timer`,
      }),
      from: timeField({
        mayBeMidnightAfter: false,
        mayBeBlank: true,
        label: 'May run from',
        unit: 'time',
        style: 'inputTime',
        hint: 'On the half-hour, by the home’s clock.',
        what: `the start of the hours of the ${text}`,
        name: `${name}_runs_from`,
      }),
      to: timeField({
        mayBeMidnightAfter: true,
        mayBeBlank: true,
        label: 'May run to',
        unit: 'time, across midnight is fine',
        style: 'inputTime',
        hint: 'On the half-hour, midnight is 24:00. An end before the start is on the next day.',
        what: `the end of the hours of the ${text}`,
        name: `${name}_runs_to`,
      }),
      powerKw: numberField({
        above: 0,
        to: 100,
        mayBeBlank: true,
        label: 'Power',
        unit: 'kW while it runs',
        style: 'inputNumber',
        hint: 'The most that it draws while it runs, kW: never more than its circuit may carry.',
        what: `the power of the ${text}`,
        name: `${name}_power_kw`,
      }),
    },
  );
}

const BELOW = FIRST_TIMER_ROW + 4;

/** The timers' inputs. */
export const TIMER_FIELDS = {
  car: timerFields('car'),
  hotWater: timerFields('hotWater'),
  /** What a tank takes today, where no meter of its own says it. */
  tank: fieldsDown(
    { sheet: SHEETS.timers, row: BELOW, column: TIMER_COLUMN.hotWater },
    {
      kwhPerDay: numberField({
        from: 0,
        to: 1000,
        mayBeBlank: true,
        label: 'Takes, an assumption',
        unit: 'kWh a day',
        style: 'inputNumber',
        hint: 'From noon to noon. Never more than was metered in the hours below, beside the car.',
        what: 'what the hot water takes a day',
        name: 'water_kwh_a_day',
      }),
      from: timeField({
        mayBeMidnightAfter: false,
        mayBeBlank: true,
        label: 'Is heated today from',
        unit: 'time',
        style: 'inputTime',
        hint: 'When it is heated as things are: on the half-hour, by the home’s clock.',
        what: 'the start of the hours at which the hot water is heated today',
        name: 'water_heated_from',
      }),
      to: timeField({
        mayBeMidnightAfter: true,
        mayBeBlank: true,
        label: 'Is heated today to',
        unit: 'time',
        style: 'inputTime',
        hint: 'On the half-hour, midnight is 24:00. An end before the start is on the next day.',
        what: 'the end of the hours at which the hot water is heated today',
        name: 'water_heated_to',
      }),
    },
  ),
  supply: fieldsDown(
    { sheet: SHEETS.timers, row: BELOW + 3, column: TIMER_COLUMN.car },
    {
      limitKw: numberField({
        above: 0,
        to: 1000,
        mayBeBlank: true,
        label: 'The supply carries',
        unit: 'kW, blank: not checked',
        style: 'inputNumber',
        hint: 'What the grid connection may carry, kW; your network operator or a licensed electrician knows it.',
        what: 'what the supply carries',
        name: 'supply_limit_kw',
      }),
    },
  ),
} as const;
/** Last row of the inputs. */
export const LAST_TIMER_ROW = BELOW + 3;

/** Column of the flags, right of everything that is printed: of the car, of the hot water, of the supply. */
export const TIMER_FLAG_COLUMN = 21;

const rule = (field: Field, is: ReturnType<typeof f>, found: string, whatToDo: string): Rule => ({
  at: field.cell.place,
  is: f`IF(${is},1,0)`,
  refusal: () => ({ found, whatToDo }),
});
const halfHours = (cell: Term) => f`ROUND(SUM(${cell})*48,0)`;
const bothSame = (from: Line, to: Line) =>
  f`IF(COUNT(${from},${to})=2,${halfHours(from)}=${halfHours(to)},FALSE)`;
const WHOLE_DAY = 'Give the hours a length; the whole day is 00:00 to 24:00.';

function loadRules(load: TimedLoad): Rule[] {
  const { isOn, from, to, powerKw } = TIMER_FIELDS[load];
  const { text } = LOAD_WORDS[load];
  const needed = (field: Field, whatToDo: string): Rule =>
    rule(
      field,
      f`AND(${isOn.cell}="yes",ISBLANK(${field.cell}))`,
      `the timer of the ${text} is on, but ${field.spec.what} is missing`,
      whatToDo,
    );
  return [
    ...[isOn, from, to, powerKw].map((field) => limitRule(field)),
    needed(from, 'Type it, or switch the timer off.'),
    needed(to, 'Type it, or switch the timer off.'),
    needed(powerKw, 'Type the kW that it draws while it runs, or switch the timer off.'),
    rule(to, bothSame(from.cell, to.cell), `the hours of the ${text} end as they start`, WHOLE_DAY),
  ];
}

function tankRules(): Rule[] {
  const { kwhPerDay, from, to } = TIMER_FIELDS.tank;
  const needed = (field: Field): Rule =>
    rule(
      field,
      f`AND(SUM(${kwhPerDay.cell})>0,ISBLANK(${field.cell}))`,
      `${field.spec.what} is missing`,
      'Type it, or clear the kWh a day.',
    );
  return [
    ...[kwhPerDay, from, to].map((field) => limitRule(field)),
    needed(from),
    needed(to),
    rule(
      to,
      bothSame(from.cell, to.cell),
      'the hours at which the hot water is heated today end as they start',
      WHOLE_DAY,
    ),
    rule(
      kwhPerDay,
      f`AND(${TIMER_FIELDS.hotWater.isOn.cell}="yes",SUM(${kwhPerDay.cell})=0)`,
      'the timer of the hot water is on, but what it takes a day is missing',
      'Type the kWh a day, or switch the timer off.',
    ),
  ];
}

/** Rules of the timers, by what their flags are about. */
export const TIMER_RULES = {
  car: loadRules('car'),
  hotWater: [...loadRules('hotWater'), ...tankRules()],
  supply: [limitRule(TIMER_FIELDS.supply.limitKw)],
} as const;
export const ALL_TIMER_RULES: readonly Rule[] = Object.values(TIMER_RULES).flat();

/** Rows of the flags, one a rule; below the last rule of a load they are blank. */
const FLAG_ROWS = Math.max(...Object.values(TIMER_RULES).map(({ length }) => length));

/** The flags of a load or of the supply, one below the other: 1 where a rule is broken. */
export function timerFlags(of: keyof typeof TIMER_RULES): Reference {
  const column = TIMER_FLAG_COLUMN + Object.keys(TIMER_RULES).indexOf(of);
  return areaReference(
    {
      sheet: SHEETS.timers,
      firstRow: FIRST_TIMER_ROW,
      lastRow: FIRST_TIMER_ROW + FLAG_ROWS - 1,
      firstColumn: column,
      lastColumn: column,
    },
    `${of === 'supply' ? of : LOAD_WORDS[of].name}_timer_flags`,
  );
}
