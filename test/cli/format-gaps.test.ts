import { beforeAll, describe, expect, it } from 'vitest';
import { formatFilled } from '../../src/cli/format-filled.js';
import { formatGaps } from '../../src/cli/format-gaps.js';
import type { Channel } from '../../src/readings/index.js';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { READING } from '../../src/workbook/model/columns.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { inputsOf, smallMonth } from '../workbook/small-month.js';

const DAY = 48;
const EXPORT =
  'Export: 336 half-hours have import but lack its reading, the first on 2026-10-11. They count as 0 kWh exported. ' +
  'Look for a gap in the file; where it leaves zeros out, nothing is missing.';
const CAR =
  'Car: 336 half-hours have import but lack its reading, the first on 2026-10-11. They count as 0 kWh charged, for its ' +
  'share, its timer and a battery that may not feed it. Look for a gap in the file; where it leaves zeros out, nothing is missing.';
const HEAT_PUMP =
  'Heat pump: 336 half-hours have import but lack its reading, the first on 2026-10-11. They count as 0 kWh used by it, ' +
  'save in months that Heating leaves out. Look for a gap in the file; where it leaves zeros out, nothing is missing.';

/** Text of paragraphs, each in one line. */
const paragraphs = (text: string): string[] => text.split('\n\n').map((part) => part.replaceAll('\n', ' '));

describe('what a fill says of channels whose gaps count as nothing', () => {
  let month: ReturnType<typeof inputsOf>;
  beforeAll(async () => {
    month = inputsOf(await smallMonth());
  });

  /** What is said of October without these days of some channels. */
  function saidWithout(channels: readonly Channel[], fromDay: number, days: number): string {
    const { inputs, book } = month;
    const values = { ...inputs.readings.values };
    for (const channel of channels) {
      values[channel] = values[channel].slice().fill(Number.NaN, fromDay * DAY, (fromDay + days) * DAY);
    }
    const readings = { ...inputs.readings, values };
    return formatGaps({ inputs: { ...inputs, readings }, book }).join('\n');
  }

  it('speaks of a single half-hour as of one', () => {
    const { inputs, book } = month;
    const exportKwh = inputs.readings.values.exportKwh.slice().fill(Number.NaN, 10 * DAY, 10 * DAY + 1);
    const values = { ...inputs.readings.values, exportKwh };
    const said = formatGaps({ inputs: { ...inputs, readings: { ...inputs.readings, values } }, book });
    expect(said.join(' ')).toMatch(
      /^Export: 1 half-hour has import but lacks its reading, the first on 2026-10-11\./,
    );
  });

  it.each([
    [['exportKwh'], [EXPORT]],
    [['carKwh'], [CAR]],
    [['heatPumpKwh'], [HEAT_PUMP]],
    [
      ['carKwh', 'exportKwh'],
      [EXPORT, CAR],
    ],
  ] satisfies [Channel[], string[]][])(
    'is how many half-hours lack it, since when, and what they count as: %s',
    (channels, said) => {
      const text = saidWithout(channels, 10, 7);
      expect(paragraphs(text.trimEnd())).toEqual(said);
      expect(Math.max(...text.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(80);
    },
  );

  it.each([
    ['all are there', 0, 0],
    ['they lie before the first', 0, 2],
    ['there is none at all', 0, 32],
  ])('is nothing where %s', (_, fromDay, days) => {
    expect(saidWithout(['exportKwh', 'heatPumpKwh', 'carKwh'], fromDay, days)).toBe('');
  });

  it('stands in its report, each in a paragraph of its own', async () => {
    const workbook = openWorkbookPackage(await smallMonth(), 'home.xlsx');
    workbook.editSheet(SHEETS.readings, {
      inputs: (['exportKwh', 'carKwh'] as const).map((channel) => ({
        column: columnNumber(READING[channel]),
        firstRow: FIRST_ROW + 10 * DAY,
        values: Array.from({ length: 7 * DAY }, () => null),
      })),
    });
    const result = fillWorkbook(workbook.toBytes(), 'home.xlsx', undefined);
    const text = formatFilled({ result, report: '', written: true }, 'home.xlsx');
    expect(paragraphs(text)).toEqual(expect.arrayContaining([EXPORT, CAR]));
  });
});
