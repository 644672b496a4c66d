import { beforeAll, describe, expect, it } from 'vitest';
import type { Channel } from '../../src/readings/index.js';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { REAL_COST } from '../../src/workbook/model/battery/battery-rows.js';
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

  it('is told on Battery as what it imports: what it used of its sun is in no figure', () => {
    const unmetered = withChannels(({ solarKwh }) => ({ solarKwh: blank(solarKwh) }));
    const neither = withChannels(({ solarKwh, exportKwh }) => ({
      solarKwh: blank(solarKwh),
      exportKwh: blank(exportKwh),
    }));
    const words = ({ calculated }: WorkbookValues): unknown =>
      calculated.at(SHEETS.battery, `B${REAL_COST.tariff}`);
    const start =
      'On Two-rate night: grid energy at its rate, stored energy at the day’s average cost and wear (in no bill)';
    expect(words(unmetered)).toBe(`${start}; its sun has no meter: the whole home is import alone.`);
    for (const values of [neither, withChannels(() => ({}))])
      expect(words(values)).toBe(`${start}, the roof’s at the export rate forgone.`);
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
