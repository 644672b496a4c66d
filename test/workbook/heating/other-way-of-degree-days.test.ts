import { beforeAll, describe, expect, it } from 'vitest';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { filledYear } from '../sample-workbooks.js';
import { checkCounts } from '../shown-by-sheet.js';
import { inputsOf } from './heated-year.js';
import { workedOut } from './heating-values.js';

const CHECK = 'Temperatures: days whose degree days are found in another way than those of the readings';

let inputs: WorkbookInputs;
let gasDays: number;
beforeAll(async () => {
  inputs = inputsOf(await filledYear());
  gasDays = inputs.heating.gas.reduce(
    (days, { firstDay, lastDay }) =>
      days + (typeof firstDay === 'number' && typeof lastDay === 'number' ? lastDay - firstDay + 1 : 0),
    0,
  );
}, 180_000);

type Kind = 'mean' | 'maximum and minimum';
interface Home {
  table: Kind;
  method: 'daily mean' | 'half-hours';
  /** First half-hour of the readings that has no temperature; from there on none has. */
  coldUntil?: number;
}

/** What the check counts; the temperatures by day are those of the gas year and of the readings' year. */
function counted({ table, method, coldUntil }: Home): unknown {
  const { heating, readings } = inputs;
  const [first, last] = [
    Math.min(...heating.gas.flatMap(({ firstDay }) => (typeof firstDay === 'number' ? [firstDay] : []))),
    Math.max(...heating.gas.flatMap(({ lastDay }) => (typeof lastDay === 'number' ? [lastDay] : []))),
  ];
  const days = last - first + 1 + 366;
  const temperatures = Array.from({ length: days }, (_, d) => {
    const isMean = table === 'mean';
    return {
      date: first + d,
      meanC: isMean ? 8 : null,
      maxC: isMean ? null : 12,
      minC: isMean ? null : 4,
    };
  });
  const outdoorC = readings.values.outdoorC.map((value, i) =>
    i < (coldUntil ?? Infinity) ? value : Number.NaN,
  );
  const settings = { ...heating.settings, degreeDayMethod: method };
  return checkCounts(
    workedOut({
      ...inputs,
      heating: { ...heating, settings, temperatures } as never,
      readings: { ...readings, values: { ...readings.values, outdoorC } },
    }),
  )[CHECK];
}

describe('days whose degree days are found in another way than those of the readings', () => {
  it('are none where the readings have no temperatures: both years come from one file', () => {
    const home = { table: 'maximum and minimum', coldUntil: 0 } as const;
    expect(counted({ ...home, method: 'daily mean' })).toBe(0);
    expect(counted({ ...home, method: 'half-hours' })).toBe(0);
    expect(counted({ ...home, table: 'mean', method: 'half-hours' })).toBe(0);
  });

  it('are those of the gas year alone where the readings have all of theirs', () => {
    expect(gasDays).toBeGreaterThan(300);
    expect(counted({ table: 'maximum and minimum', method: 'daily mean' })).toBe(gasDays);
    expect(counted({ table: 'mean', method: 'daily mean' })).toBe(0);
    expect(counted({ table: 'mean', method: 'half-hours' })).toBe(gasDays);
    expect(counted({ table: 'maximum and minimum', method: 'half-hours' })).toBe(0);
  });

  it('are those beside them too where the readings have theirs for a part', () => {
    const days = inputs.readings.values.outdoorC.length;
    expect(days).toBeGreaterThan(365 * 48);
    // Ten days of them, in a year of 365.
    expect(counted({ table: 'maximum and minimum', method: 'daily mean', coldUntil: 480 })).toBe(
      gasDays + 355,
    );
  });
});
