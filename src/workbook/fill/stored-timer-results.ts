import type { Calculated } from '../calculate.js';
import { calculateWorkbook } from '../calculate-inputs.js';
import {
  NO_STORED_TIMERS,
  type StoredTimerResult,
  type StoredTimerResults,
} from '../inputs/stored-timers.js';
import type { TimerCells } from '../inputs/timer-cells.js';
import type { WorkbookInputs } from '../inputs/workbook-inputs.js';
import { isCurrent } from '../model/battery/battery-status.js';
import type { Book } from '../model/book.js';
import { periodLine, tariffOf } from '../model/period-line.js';
import { pricedName } from '../model/tariff-rows.js';
import { timerMarkName } from '../model/timers/timer-battery.js';
import { TIMERS_ON_NAME, TOLD_NAMES } from '../model/timers/timer-places.js';
import { workbookModel } from '../model/workbook-model.js';

/** The bill with the battery on a tariff, and the mark of what it hangs on. */
interface World {
  totalPounds: number;
  mark: number;
}

/**
 * Works out what is not live, where an input has changed since it was stored: each tariff’s total over the chosen period with
 * the battery, with the timers off and with them on. The timers that are on are those told of; while none is, those whose
 * hours are typed. One of the two is the workbook as it stands, the other the same workbook with its timers switched.
 *
 * @param calculated what the formulas give as the workbook stands
 * @param book the lines they belong to
 * @param inputs as the cells hold them
 * @param now local date and time, serial, to mark what is worked out anew
 * @returns what to store; the very figures and times of before where nothing changed, blank where there is nothing to tell
 */
export function storedTimerResults(
  calculated: Calculated,
  book: Book,
  inputs: WorkbookInputs,
  now: number,
): StoredTimerResults {
  const number = (name: string): number => numberIn(calculated.named(name), name);
  const told = { car: number(TOLD_NAMES.car) === 1, hotWater: number(TOLD_NAMES.water) === 1 };
  const hasBattery = Number(calculated.of(book.workings.battery.usableKwh)) > 0;
  const isEmpty = Number(calculated.of(periodLine(book, book.workings.months.metered))) === 0;
  if (!(told.car || told.hotWater) || !hasBattery || isEmpty)
    return inputs.tariffs.map(() => NO_STORED_TIMERS);
  const isOn = number(TIMERS_ON_NAME) > 0;
  let other: Calculated | undefined;
  const otherWorld = (): Calculated => {
    other ??= switched(book, inputs, isOn ? { car: false, hotWater: false } : told);
    return other;
  };
  return inputs.tariffs.map((_, t): StoredTimerResult => {
    const asItStands = worldOf(calculated, book, t);
    if (asItStands === undefined) return NO_STORED_TIMERS;
    const before = inputs.storedTimers[t];
    if (
      before !== undefined &&
      isWhole(before) &&
      isCurrent(isOn ? before.onMark : before.offMark, asItStands.mark)
    ) {
      return before;
    }
    const switchedWorld = worldOf(otherWorld(), book, t);
    if (switchedWorld === undefined) return NO_STORED_TIMERS;
    const [off, on] = isOn ? [switchedWorld, asItStands] : [asItStands, switchedWorld];
    return {
      offPounds: off.totalPounds,
      onPounds: on.totalPounds,
      offMark: off.mark,
      onMark: on.mark,
      computedAt: now,
    };
  });
}

const isWhole = (stored: StoredTimerResult): boolean =>
  Object.values(stored).every((value) => typeof value === 'number');

function numberIn(value: unknown, name: string): number {
  if (typeof value === 'number') return value;
  throw new Error(`${name} is ${String(value)}, not a number`);
}

/** A tariff’s bill with the battery; undefined where it has no total. */
function worldOf(calculated: Calculated, book: Book, t: number): World | undefined {
  const priced = calculated.named(pricedName(t));
  if (priced !== 1) return undefined;
  const totalPounds = calculated.of(periodLine(book, tariffOf(book, t).batteryMonths.total));
  const name = timerMarkName(t);
  return { totalPounds: numberIn(totalPounds, 'a total'), mark: numberIn(calculated.named(name), name) };
}

/** The workbook with its timers switched, worked out on demand. */
function switched(book: Book, inputs: WorkbookInputs, isOn: Record<'car' | 'hotWater', boolean>): Calculated {
  const { car, hotWater } = inputs.timers;
  const said = (yes: boolean): string => (yes ? 'yes' : 'no');
  const timers: TimerCells = {
    ...inputs.timers,
    car: { ...car, isOn: said(isOn.car) },
    hotWater: { ...hotWater, isOn: said(isOn.hotWater) },
  };
  const changed = { ...inputs, timers };
  return calculateWorkbook(workbookModel(changed, book), book, changed);
}
