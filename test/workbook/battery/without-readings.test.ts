import { beforeAll, describe, expect, it } from 'vitest';
import type { Channel } from '../../../src/readings/index.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { checkCounts } from '../shown-by-sheet.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

const NAME = 'A battery ran, half-hours lack its readings';
const ROWS = 31 * 48 + 2;
const BOTH: readonly Channel[] = ['batteryInKwh', 'batteryOutKwh'];

let month: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  month = inputsOf(await smallMonth());
});

/** What the check found with channels blank in the rows from one to before another, and this typed of whether one ran. */
function found(channels: readonly Channel[], from: number, to: number, ran: string): unknown {
  const change = (inputs: WorkbookInputs): WorkbookInputs => {
    const values = { ...inputs.readings.values };
    for (const channel of channels) values[channel] = values[channel].slice().fill(Number.NaN, from, to);
    return {
      ...inputs,
      readings: { ...inputs.readings, values },
      home: { ...inputs.home, batteryRan: ran },
    };
  };
  return checkCounts(workedOut(month, change))[NAME];
}

describe('half-hours that lack readings of the battery which ran', () => {
  it.each([
    ['none, where both channels are there', BOTH, 0, 0, 0],
    ['a week in the middle', BOTH, 480, 816, 336],
    ['a week without what it took', ['batteryInKwh'], 480, 816, 336],
    ['a week without what it gave', ['batteryOutKwh'], 480, 816, 336],
    ['the last day, of which no file of the battery came yet', BOTH, ROWS - 48, ROWS, 48],
    ['none before its first reading: it may not have been there yet', BOTH, 0, 480, 0],
    ['none on the day of its first reading', BOTH, 0, 500, 0],
    ['none where nothing was bought', [...BOTH, 'importKwh'], 480, 816, 0],
  ] satisfies [string, readonly Channel[], number, number, number][])(
    'are counted, whether or not it was said that one ran: %s',
    (_, channels, from, to, count) => {
      expect(found(channels, from, to, 'no')).toBe(count);
      expect(found(channels, from, to, 'yes')).toBe(count);
    },
  );

  it('are all where one ran and a channel has none, and none where it did not', () => {
    for (const channels of [BOTH, BOTH.slice(0, 1), BOTH.slice(1)]) {
      expect(found(channels, 0, ROWS, 'yes')).toBe(ROWS);
      expect(found(channels, 0, ROWS, 'no')).toBe(0);
    }
  });
});
