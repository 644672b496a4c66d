import { beforeAll, describe, expect, it } from 'vitest';
import { formatTimers } from '../../../src/cli/format-timers.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { storedTimerResults } from '../../../src/workbook/fill/stored-timer-results.js';
import { blankReadings } from '../../../src/workbook/inputs/blank-readings.js';
import { NO_STORED_TIMERS, type StoredTimerResults } from '../../../src/workbook/inputs/stored-timers.js';
import { blankTimerCells, type TimerCells } from '../../../src/workbook/inputs/timer-cells.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { STATUS } from '../../../src/workbook/model/battery/battery-status.js';
import { periodLine, tariffOf } from '../../../src/workbook/model/period-line.js';
import {
  TIMER_WORDS_NAME,
  type TimerColumn,
  timerCell,
} from '../../../src/workbook/model/timers/timer-places.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { checkCounts } from '../shown-by-sheet.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';
import { NOW } from '../template.js';

const FILE = 'home.xlsx';
/** A local date and time, serial. */
const COMPUTED_AT = 46_357.5;

const timers = (car: string, water: string): TimerCells => ({
  ...blankTimerCells(),
  car: { isOn: car, from: 0.5 / 24, to: 5 / 24, powerKw: 7.2 },
  hotWater: { isOn: water, from: 1 / 24, to: 6 / 24, powerKw: 3 },
  tank: { kwhPerDay: 3, from: 16 / 24, to: 20 / 24 },
});
const carAlone = (isOn: string): TimerCells => ({ ...blankTimerCells(), car: timers(isOn, 'no').car });

let bytes: Uint8Array;
let small: ReturnType<typeof inputsOf>;
/** Both timers typed and none on, and what is stored of them. */
let off: WorkbookValues;
let storedOff: StoredTimerResults;
beforeAll(async () => {
  bytes = await smallMonth();
  small = inputsOf(bytes);
  off = withInputs({ timers: timers('no', 'no') });
  storedOff = storedOf(off);
}, 240_000);

const withInputs = (also: Partial<WorkbookInputs>): WorkbookValues =>
  workedOut(small, (inputs) => ({ ...inputs, ...also }));
const storedOf = ({ calculated, book, inputs }: WorkbookValues): StoredTimerResults =>
  storedTimerResults(
    calculated,
    book,
    { ...inputs, storedTimers: inputs.tariffs.map(() => NO_STORED_TIMERS) },
    COMPUTED_AT,
  );
/** Readings with other values of a channel (NaN: blank), where something was metered. */
const withChannel = (
  readings: WorkbookInputs['readings'],
  channel: 'carKwh' | 'solarKwh',
  change: (kwh: number, importKwh: number) => number,
): WorkbookInputs['readings'] => ({
  ...readings,
  values: {
    ...readings.values,
    [channel]: readings.values[channel].map((kwh, i) => {
      const importKwh = readings.values.importKwh[i] ?? Number.NaN;
      return Number.isNaN(importKwh) ? kwh : change(kwh, importKwh);
    }),
  },
});
const named = (): number[] => small.inputs.tariffs.flatMap(({ name }, t) => (name === null ? [] : [t]));
const totals = ({ calculated, book }: WorkbookValues): unknown[] =>
  named().map((t) => calculated.of(periodLine(book, tariffOf(book, t).batteryMonths.total)));
const at = ({ calculated }: WorkbookValues, key: TimerColumn, t: number): unknown =>
  calculated.at(SHEETS.timers, timerCell(key, t));
const statuses = (values: WorkbookValues): unknown[] => named().map((t) => at(values, 'batteryStatus', t));
const words = ({ calculated }: WorkbookValues): string => String(calculated.named(TIMER_WORDS_NAME));

/** What the sheet of checks counts as outdated. */
const outdatedOnChecks = (values: WorkbookValues): unknown =>
  checkCounts(values)['Savings by timers with the battery that an input has outdated'];

describe('what the timers save beside the battery', () => {
  it.each([
    ['both typed and none on: both', timers('no', 'no'), timers('yes', 'yes')],
    ['both on', timers('yes', 'yes'), timers('yes', 'yes')],
    ['the car’s alone on', timers('yes', 'no'), timers('yes', 'no')],
    ['the car’s alone typed', carAlone('no'), carAlone('yes')],
  ])('is stored as the live workbook has it with its timers switched, %s', (_, typed, on) => {
    const stored = storedOf(withInputs({ timers: typed }));
    const [offLive, onLive] = [off, withInputs({ timers: on })];
    expect(named().map((t) => stored[t]?.offPounds)).toEqual(totals(offLive));
    expect(named().map((t) => stored[t]?.onPounds)).toEqual(totals(onLive));
    expect(totals(onLive)).not.toEqual(totals(offLive));
    const values = withInputs({ timers: typed, storedTimers: stored });
    const isOn = typed.car.isOn === 'yes';
    for (const t of named()) {
      expect(at(values, 'batteryStatus', t)).toBe(STATUS.current);
      // What is live is one of the two that are stored.
      expect(at(values, 'withBattery', t)).toBe(isOn ? stored[t]?.onPounds : stored[t]?.offPounds);
      expect(at(values, 'batterySaved', t)).toBeCloseTo(
        Number(stored[t]?.offPounds) - Number(stored[t]?.onPounds),
        9,
      );
    }
  });

  it('stays current when the timers that it tells of are switched on or off, and is not worked out again', () => {
    const on = withInputs({ timers: timers('yes', 'yes'), storedTimers: storedOff });
    expect(new Set(statuses(on))).toEqual(new Set([STATUS.current]));
    expect(outdatedOnChecks(on)).toBe(0);
    expect(storedTimerResults(on.calculated, on.book, on.inputs, COMPUTED_AT + 1)).toEqual(storedOff);
  });

  it.each<[string, (inputs: WorkbookInputs) => Partial<WorkbookInputs>]>([
    ['a unit rate', ({ tariffs }) => ({ tariffs: changedPeriods(tariffs, 'base') })],
    ['a standing charge', ({ tariffs }) => ({ tariffs: changedPeriods(tariffs, 'standing') })],
    ['an export rate', ({ tariffs }) => ({ tariffs: changedPeriods(tariffs, 'exportRate') })],
    ['the battery', ({ battery }) => ({ battery: { ...battery, usableKwh: 7.5 } })],
    [
      'a timer’s hours',
      ({ timers: typed }) => ({ timers: { ...typed, car: { ...typed.car, to: 5.5 / 24 } } }),
    ],
    ['its power', ({ timers: typed }) => ({ timers: { ...typed, car: { ...typed.car, powerKw: 7.3 } } })],
    [
      'what the hot water takes',
      ({ timers: typed }) => ({ timers: { ...typed, tank: { ...typed.tank, kwhPerDay: 3.1 } } }),
    ],
    [
      'what the car took where nothing was bought',
      ({ readings }) => ({
        readings: withChannel(readings, 'carKwh', (kwh, importKwh) => (importKwh === 0 ? kwh + 2 : kwh)),
      }),
    ],
    [
      'the sun that hot water may have taken',
      ({ readings }) => ({ readings: withChannel(readings, 'solarKwh', (kwh) => kwh + 0.4) }),
    ],
    [
      'a timer to be on alone',
      ({ timers: typed }) => ({ timers: { ...typed, car: { ...typed.car, isOn: 'yes' } } }),
    ],
  ])('is out of date after a change of %s, and says so', (_, change) => {
    const kept = { ...off.inputs, storedTimers: storedOff };
    const after = withInputs({ ...kept, ...change(kept) });
    expect(new Set(statuses(after))).toEqual(new Set([STATUS.stale]));
    for (const t of named()) expect(at(after, 'batterySaved', t)).toBe('');
    expect(words(after)).toContain(`What they save with the battery is ${STATUS.stale}.`);
    expect(outdatedOnChecks(after)).toBe(named().length);
  });

  it('is out of date after a change of hours while the timers are on, and is then worked out anew', () => {
    const changed = timers('yes', 'yes');
    const after = withInputs({
      timers: { ...changed, hotWater: { ...changed.hotWater, from: 0 } },
      storedTimers: storedOff,
    });
    expect(new Set(statuses(after))).toEqual(new Set([STATUS.stale]));
    const anew = storedTimerResults(after.calculated, after.book, after.inputs, COMPUTED_AT + 1);
    expect(named().map((t) => anew[t]?.computedAt)).toEqual(named().map(() => COMPUTED_AT + 1));
    expect(named().map((t) => anew[t]?.offPounds)).toEqual(named().map((t) => storedOff[t]?.offPounds));
  });

  it('is told in the sentence and in the terminal, as what would be while no timer is on', () => {
    const today = small.inputs.tariffs.findIndex(({ name }) => name === off.inputs.todaysTariff);
    const told = (typed: TimerCells, storedTimers: StoredTimerResults) => {
      const values = withInputs({ timers: typed, storedTimers });
      const said = /With the battery the timers ([a-z ]+) £([\d.]+)( more)?\./.exec(words(values));
      expect(formatTimers(values).replaceAll(/\s+/g, ' ')).toContain(said?.[0]);
      expect(Number(said?.[2])).toBe(Math.abs(Number(at(values, 'batterySaved', today))));
      return [said?.[1], Number(at(values, 'batterySaved', today)) > 0];
    };
    // The car’s hours begin an hour before the cheap ones of today’s tariff.
    expect(told(timers('no', 'no'), storedOff)).toEqual(['as typed would cost', false]);
    expect(told(timers('yes', 'yes'), storedOff)).toEqual(['cost', false]);
    const waterAlone = (isOn: string): TimerCells => ({ ...timers('no', isOn), car: blankTimerCells().car });
    const stored = storedOf(withInputs({ timers: waterAlone('no') }));
    expect(told(waterAlone('no'), stored)).toEqual(['as typed would save', true]);
    expect(told(waterAlone('yes'), stored)).toEqual(['save', true]);
  });

  it('is blank without a battery, and without a timer that is typed', () => {
    const { battery } = small.inputs;
    for (const also of [
      { timers: timers('yes', 'yes'), battery: { ...battery, usableKwh: 0 } },
      { timers: blankTimerCells() },
    ]) {
      const values = withInputs(also);
      expect(storedOf(values)).toEqual(values.inputs.tariffs.map(() => NO_STORED_TIMERS));
      expect(new Set(statuses(values))).toEqual(new Set(['']));
      expect(words(values)).not.toContain('ith the battery');
    }
  });

  it('is blank without readings, which no fill could work it out of', () => {
    const readings = blankReadings(small.book.shape.readingRows);
    const values = withInputs({ timers: timers('no', 'no'), readings });
    expect(new Set(statuses(values))).toEqual(new Set(['']));
  });

  it('is not current where one of its totals was cleared', () => {
    const [first = 0] = named();
    const cleared = storedOff.map((stored, t) => (t === first ? { ...stored, onPounds: null } : stored));
    const values = withInputs({ timers: timers('no', 'no'), storedTimers: cleared });
    expect(at(values, 'batteryStatus', first)).toBe(STATUS.missing);
    expect(at(values, 'batterySaved', first)).toBe('');
  });

  it('is written by a fill, which then has nothing left to change', () => {
    const filled = fillWorkbook(bytes, FILE, undefined, { now: NOW });
    expect(filled.bytes).toBe(bytes);
    const { inputs, calculated } = filled.values;
    for (const t of named()) {
      expect(Object.values(inputs.storedTimers[t] ?? {}).map((value) => typeof value)).toEqual(
        Object.keys(NO_STORED_TIMERS).map(() => 'number'),
      );
      expect(calculated.at(SHEETS.timers, timerCell('batteryStatus', t))).toBe(STATUS.current);
    }
  });
});

/** A little more in every set of rates that is typed. */
function changedPeriods(
  tariffs: WorkbookInputs['tariffs'],
  key: 'base' | 'standing' | 'exportRate',
): WorkbookInputs['tariffs'] {
  return tariffs.map((tariff) => ({
    ...tariff,
    periods: tariff.periods.map((period) =>
      typeof period[key] === 'number' ? { ...period, [key]: period[key] + 0.1 } : period,
    ),
  }));
}
