import { beforeAll, describe, expect, it } from 'vitest';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { figureName } from '../../../src/workbook/model/heating/heating-figures-rows.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

let home: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  home = inputsOf(await smallMonth());
});

const said = ({ calculated }: WorkbookValues, name: string): string => String(calculated.named(name));
const withBattery =
  (battery: Partial<WorkbookInputs['battery']>) =>
  (inputs: WorkbookInputs): WorkbookInputs => ({ ...inputs, battery: { ...inputs.battery, ...battery } });

describe('what the heat pump cost is told in the world of the headline', () => {
  it('through the battery where one is entered: less than half-hour by half-hour', () => {
    const values = workedOut(home);
    const today = String(home.inputs.todaysTariff);
    expect(home.inputs.heating.settings.costBasis).toBe('half-hourly');
    expect(said(values, 'heat_pump_is_priced')).toBe(`through the battery on ${today}`);
    const without = workedOut(home, withBattery({ usableKwh: 0 }));
    expect(said(without, 'heat_pump_is_priced')).toBe(`half-hour by half-hour on ${today}`);
    const cost = (of: WorkbookValues): number =>
      Number(of.calculated.named(figureName('totalDifferenceBestPounds')));
    expect(cost(values)).toBeLessThan(cost(without));
  });

  it('at the single rate where that was chosen', () => {
    const values = workedOut(home, (inputs) => ({
      ...inputs,
      heating: { ...inputs.heating, settings: { ...inputs.heating.settings, costBasis: 'single rate' } },
    }));
    expect(said(values, 'heat_pump_is_priced')).toBe('at the single rate');
  });

  it('not at all where the battery’s sheets look at another tariff: then it says what to choose', () => {
    const other = home.inputs.tariffs.find(({ name }) => name !== home.inputs.todaysTariff)?.name ?? null;
    const values = workedOut(home, withBattery({ tariff: other }));
    const today = String(home.inputs.todaysTariff);
    expect(values.calculated.named(figureName('totalLowPounds'))).toBe('');
    expect(said(values, 'heating_verdict')).toContain(
      `The heat pump can’t be priced through the battery on ${today}: on Battery, choose that tariff to look at.`,
    );
    expect(said(workedOut(home), 'heating_verdict')).not.toContain('choose');
  });
});
