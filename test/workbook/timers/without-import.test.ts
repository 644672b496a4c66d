import { beforeAll, describe, expect, it } from 'vitest';
import { CHANNELS } from '../../../src/readings/index.js';
import type { ReadingRows, WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { shownFormulas } from '../shown-by-sheet.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

type Gaps = readonly (readonly [from: number, to: number])[];
const days = (of: readonly number[], from: number, to: number): Gaps =>
  of.map((day) => [day * 48 + from, day * 48 + to] as const);

/** Rows of October without import: an evening to a night, and now from 01:00 to 03:00, now from 18:00 to 20:00. */
const NIGHTS_AND_EVENINGS: Gaps = [
  [3 * 48 + 36, 4 * 48 + 5],
  ...days([6, 8, 10, 12, 14], 2, 6),
  ...days([15, 17, 19, 21, 23], 36, 40),
];
/** From 02:00 to 04:00, when the car charges as things are: outside the hours of its timer. */
const CHARGING: Gaps = days([5, 9, 13, 16, 20, 24, 27], 4, 8);

/** The car's hours, parts of a day. */
type Hours = readonly [from: number, to: number];
const NIGHT: Hours = [1.5 / 24, 7 / 24];
const AFTERNOON: Hours = [12 / 24, 16 / 24];
const ACROSS_NOON: Hours = [10 / 24, 15 / 24];

/** Both loads with a timer. */
function timed(inputs: WorkbookInputs, [from, to]: Hours): WorkbookInputs {
  const { car, hotWater, tank } = inputs.timers;
  return {
    ...inputs,
    timers: {
      ...inputs.timers,
      car: { ...car, isOn: 'yes', from, to },
      hotWater: { ...hotWater, isOn: 'yes', from: 1 / 24, to: 4 / 24, powerKw: 3 },
      tank: { ...tank, kwhPerDay: 4, from: 17 / 24, to: 21 / 24 },
    },
  };
}

let month: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  month = inputsOf(await smallMonth());
});

/** The month with these channels blank in the gaps; with `rows`, without the rows themselves. */
function without(
  gaps: Gaps,
  channels: readonly (keyof ReadingRows['values'])[],
  hours: Hours,
  rows = false,
): WorkbookValues {
  const isGap = (row: number): boolean => gaps.some(([from, to]) => row >= from && row < to);
  const blank = (column: Float64Array): Float64Array =>
    column.map((value, row) => (isGap(row) ? Number.NaN : value));
  return workedOut(month, (inputs) => {
    const values = { ...inputs.readings.values };
    for (const channel of channels) values[channel] = blank(values[channel]);
    const startSerial = rows ? blank(inputs.readings.startSerial) : inputs.readings.startSerial;
    return timed({ ...inputs, readings: { ...inputs.readings, values, startSerial } }, hours);
  });
}

/** Marks of stored figures hang on every reading, and on nothing but readings: no figure is as large. */
const isMark = (value: unknown): boolean => typeof value === 'number' && value > 100_000;

const shown = (values: WorkbookValues, sheet: string): [string, unknown][] =>
  shownFormulas(values, sheet).filter(([, value]) => !isMark(value));

/** What the two loads take more or less in each half-hour, and which of them are in a gap. */
function changes(values: WorkbookValues, gaps: Gaps) {
  const { halfHours } = values.book.workings;
  const [reading = [], car = [], water = []] = [
    halfHours.readingRow,
    halfHours.carChangeKwh,
    halfHours.waterChangeKwh,
  ].map((column) => [...values.calculated.numbers(column)]);
  const inGap = [...reading.keys()].filter((i) =>
    gaps.some(([from, to]) => reading[i]! > from && reading[i]! <= to),
  );
  return { car, water, inGap };
}

const total = (kwh: readonly number[]): number => kwh.reduce((sum, more) => sum + more, 0);

describe.each([
  ['in the hours of the timer', NIGHTS_AND_EVENINGS, NIGHT],
  ['while the car charged, outside the hours of its timer', CHARGING, AFTERNOON],
  ['while the car charged, with hours across noon', CHARGING, ACROSS_NOON],
])('half-hours without import %s', (_, gaps, hours) => {
  it('count nowhere, as if their rows were missing', () => {
    const blank = without(gaps, ['importKwh', 'pricePence'], hours);
    const missing = without(gaps, CHANNELS, hours, true);
    for (const sheet of [SHEETS.answer, SHEETS.tariffs, SHEETS.battery, SHEETS.timers]) {
      const expected = shown(missing, sheet);
      expect(expected.filter(([, value]) => typeof value === 'number').length).toBeGreaterThan(3);
      expect(shown(blank, sheet), sheet).toEqual(expected);
    }
  });

  it('take no kWh and give none', () => {
    const { car, water, inGap } = changes(without(gaps, ['importKwh', 'pricePence'], hours), gaps);
    expect(inGap.length).toBe(gaps.reduce((sum, [from, to]) => sum + to - from, 0));
    for (const change of [car, water]) {
      expect(change.some((kwh) => kwh > 0.1)).toBe(true);
      expect(inGap.map((i) => change[i])).toEqual(inGap.map(() => 0));
      expect(total(change)).toBeCloseTo(0, 9);
    }
  });
});

it('a half-hour that stands twice, once without import, keeps its session as it was metered', () => {
  const doubled = workedOut(month, (inputs) => {
    const { readings } = inputs;
    const extra = days([...Array(29).keys()], 3, 4).map(([row]) => row);
    const of = (column: Float64Array, added: (row: number) => number): Float64Array => {
      const longer = column.slice();
      extra.forEach((row, i) => {
        longer[readings.count + i] = added(row);
      });
      return longer;
    };
    const values = { ...readings.values };
    for (const channel of CHANNELS) values[channel] = of(values[channel], (row) => values[channel][row]!);
    values.importKwh = values.importKwh.map((kwh, row) => (extra.includes(row) ? Number.NaN : kwh));
    const startSerial = of(readings.startSerial, (row) => readings.startSerial[row]!);
    return timed(
      { ...inputs, readings: { ...readings, count: readings.count + extra.length, values, startSerial } },
      NIGHT,
    );
  });
  const { car, water } = changes(doubled, []);
  for (const change of [car, water]) {
    expect(change.some((kwh) => kwh > 0.1)).toBe(true);
    expect(total(change)).toBeCloseTo(0, 9);
  }
});
