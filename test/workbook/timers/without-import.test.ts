import { beforeAll, expect, it } from 'vitest';
import { CHANNELS } from '../../../src/readings/index.js';
import type { ReadingRows, WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

/** Rows of October without import: an evening to a night, and now from 01:00 to 03:00, now from 18:00 to 20:00. */
const GAPS: readonly (readonly [from: number, to: number])[] = [
  [3 * 48 + 36, 4 * 48 + 5],
  ...[6, 8, 10, 12, 14].map((day) => [day * 48 + 2, day * 48 + 6] as const),
  ...[15, 17, 19, 21, 23].map((day) => [day * 48 + 36, day * 48 + 40] as const),
];
const isGap = (row: number): boolean => GAPS.some(([from, to]) => row >= from && row < to);

/** Both loads with a timer. */
function timed(inputs: WorkbookInputs): WorkbookInputs {
  const { car, hotWater, tank } = inputs.timers;
  return {
    ...inputs,
    timers: {
      ...inputs.timers,
      car: { ...car, isOn: 'yes' },
      hotWater: { ...hotWater, isOn: 'yes', from: 1 / 24, to: 4 / 24, powerKw: 3 },
      tank: { ...tank, kwhPerDay: 4, from: 17 / 24, to: 21 / 24 },
    },
  };
}

/** Marks of stored figures hang on every reading, and on nothing but readings: no figure is as large. */
const isMark = (value: unknown): boolean => typeof value === 'number' && value > 100_000;

function without(readings: ReadingRows, blank: readonly (keyof ReadingRows['values'])[]): ReadingRows {
  const values = { ...readings.values };
  for (const channel of blank)
    values[channel] = values[channel].map((kwh, row) => (isGap(row) ? Number.NaN : kwh));
  return { ...readings, values };
}

let blank: WorkbookValues;
let missing: WorkbookValues;
beforeAll(async () => {
  const month = inputsOf(await smallMonth());
  blank = workedOut(month, (inputs) =>
    timed({ ...inputs, readings: without(inputs.readings, ['importKwh', 'pricePence']) }),
  );
  missing = workedOut(month, (inputs) => {
    const gone = without(inputs.readings, CHANNELS);
    const startSerial = gone.startSerial.map((start, row) => (isGap(row) ? Number.NaN : start));
    return timed({ ...inputs, readings: { ...gone, startSerial } });
  });
});

it.each([SHEETS.answer, SHEETS.tariffs, SHEETS.battery, SHEETS.timers])(
  'with timers, a half-hour without import counts nowhere on %s: as if its row were missing',
  (sheet) => {
    const shown = ({ inputs, book, calculated }: WorkbookValues): [string, unknown][] =>
      workbookModel(inputs, book)
        .filter(({ name }) => name === sheet)
        .flatMap(({ cells }) => cells)
        .flatMap((cell): [string, unknown][] =>
          cell.kind === 'formula' ? [[cell.at, calculated.at(sheet, cell.at)]] : [],
        )
        .filter(([, value]) => !isMark(value));
    const expected = shown(missing);
    expect(expected.filter(([, value]) => typeof value === 'number').length).toBeGreaterThan(3);
    expect(shown(blank)).toEqual(expected);
  },
);

it('no kWh goes into such a half-hour, nor out of one', () => {
  const { halfHours } = blank.book.workings;
  const [reading, car, water] = [halfHours.readingRow, halfHours.carChangeKwh, halfHours.waterChangeKwh].map(
    (column) => blank.calculated.numbers(column),
  );
  const ofGap = [...reading!.keys()].filter((i) => reading![i]! > 0 && isGap(reading![i]! - 1));
  expect(ofGap.length).toBe(GAPS.reduce((sum, [from, to]) => sum + to - from, 0));
  for (const change of [car!, water!]) {
    expect(change.some((kwh) => kwh > 0.1)).toBe(true);
    expect(ofGap.map((i) => change[i])).toEqual(ofGap.map(() => 0));
    expect(change.reduce((sum, kwh) => sum + kwh, 0)).toBeCloseTo(0, 9);
  }
});
