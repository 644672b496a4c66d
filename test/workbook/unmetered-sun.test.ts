import { beforeAll, describe, expect, it } from 'vitest';
import type { Channel } from '../../src/readings/index.js';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
import { VERDICT_NAME } from '../../src/workbook/model/checks-sheet.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { checkCounts } from './shown-by-sheet.js';
import { inputsOf, smallMonth, workedOut } from './small-month.js';

let month: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  month = inputsOf(await smallMonth());
});

/** The month with other readings of some channels. */
function withChannels(
  change: (old: Record<Channel, Float64Array>) => Partial<Record<Channel, Float64Array>>,
) {
  return workedOut(month, (inputs): WorkbookInputs => {
    const { values } = inputs.readings;
    return { ...inputs, readings: { ...inputs.readings, values: { ...values, ...change(values) } } };
  });
}

const blank = (channel: Float64Array): Float64Array => channel.slice().fill(Number.NaN);
const found = (values: WorkbookValues, name: string): unknown => checkCounts(values)[name];
const TOO_LITTLE = 'Half-hours of demand below zero by more than noise (0.05 kWh)';
const NO_FAULT = 'Half-hours of demand below zero that are no fault: noise, or sun that no channel meters';

describe('a home whose sun no channel meters', () => {
  it('exports without a fault: its half-hours are a note', () => {
    const unmetered = withChannels(({ solarKwh }) => ({ solarKwh: blank(solarKwh) }));
    expect(found(unmetered, TOO_LITTLE)).toBe(0);
    expect(found(unmetered, NO_FAULT)).toBeGreaterThan(20);
    expect(String(unmetered.calculated.named(VERDICT_NAME))).toMatch(/^No problem found by \d+ checks\.$/);
  });
});

describe('a home without sun', () => {
  it.each([
    ['nothing', 0],
    ['next to nothing', 0.01],
  ])('has a fault where the channels of its battery are swapped, and %s is exported', (_, once) => {
    const swapped = withChannels(({ exportKwh, solarKwh, batteryInKwh, batteryOutKwh }) => ({
      exportKwh: blank(exportKwh).fill(once, 100, 101),
      solarKwh: blank(solarKwh),
      batteryInKwh: batteryOutKwh,
      batteryOutKwh: batteryInKwh,
    }));
    expect(found(swapped, TOO_LITTLE)).toBeGreaterThan(20);
  });
});

describe('a home whose sun is metered', () => {
  it('has neither', () => {
    const metered = withChannels(() => ({}));
    expect([found(metered, TOO_LITTLE), found(metered, NO_FAULT)]).toEqual([0, 0]);
  });

  it('has a fault where more leaves than comes in', () => {
    const half = withChannels(({ solarKwh }) => ({ solarKwh: solarKwh.map((kwh) => kwh / 2) }));
    expect(found(half, TOO_LITTLE)).toBeGreaterThan(20);
  });
});
