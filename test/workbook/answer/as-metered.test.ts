import { beforeAll, describe, expect, it } from 'vitest';
import { formatComparison } from '../../../src/cli/format-comparison.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { TARIFF_ROW, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

let home: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  home = inputsOf(await smallMonth());
});

const noBattery = (inputs: WorkbookInputs): WorkbookInputs => ({
  ...inputs,
  battery: { ...inputs.battery, usableKwh: 0 },
});
const noBatteryRead = (inputs: WorkbookInputs): WorkbookInputs => {
  const { values } = inputs.readings;
  const blank = values.importKwh.map(() => Number.NaN);
  return {
    ...inputs,
    readings: { ...inputs.readings, values: { ...values, batteryInKwh: blank, batteryOutKwh: blank } },
  };
};
const row = ({ calculated }: WorkbookValues): unknown[] =>
  [...'BCDEFGH'].map((letters) => calculated.at(SHEETS.answer, `${letters}6`));
const sum = (values: Float64Array): number => values.reduce((kwh, value) => kwh + (value || 0), 0);

describe('the first row of Answer: the bill as metered, on today’s tariff', () => {
  it('is made of the channels as they were read', () => {
    const values = workedOut(home);
    const { importKwh, exportKwh } = home.inputs.readings.values;
    const [name, total, energy, standing, credit, allIn, bought] = row(values);
    expect(name).toBe(home.inputs.todaysTariff);
    expect(bought).toBeCloseTo(sum(importKwh), 6);
    expect(total).toBeCloseTo(Number(energy) + Number(standing) - Number(credit), 6);
    expect(allIn).toBeCloseTo(((Number(energy) + Number(standing)) * 100) / sum(importKwh), 6);
    const said = formatComparison(values).replace(/\s+/g, ' ');
    expect(said).toContain(
      `As metered, on today’s tariff ${String(name)}: £${Number(total).toFixed(2)} for ${Math.round(sum(importKwh))} kWh bought and ${Math.round(sum(exportKwh))} kWh exported.`,
    );
  });

  it('does not change with a battery that is typed: what was metered stays', () => {
    const bigger = workedOut(home, (inputs) => ({
      ...inputs,
      battery: { ...inputs.battery, usableKwh: 20 },
    }));
    expect(row(bigger)).toEqual(row(workedOut(home)));
    expect(row(workedOut(home, noBattery))).toEqual(row(workedOut(home)));
  });

  it('is said once where the comparison has it: no battery read, none entered', () => {
    const values = workedOut(home, (inputs) => noBatteryRead(noBattery(inputs)));
    expect(row(values)).toEqual(['as today’s tariff below', '', '', '', '', '', '']);
    expect(values.calculated.named('as_metered_words')).toBe('');
    const today = home.inputs.tariffs.findIndex(({ name }) => name === home.inputs.todaysTariff);
    const { asMetered, months } = values.book.workings;
    const total = months.period.get(asMetered.months.total);
    if (total === undefined) throw new Error('no total');
    expect(values.calculated.of(total)).toBe(
      values.calculated.at(SHEETS.tariffs, `${tariffLetters(today)}${TARIFF_ROW.total}`),
    );
  });

  it('says what is compared in its place where storage ran and none is entered', () => {
    const words = (values: WorkbookValues): unknown => values.calculated.named('period_holds_words');
    const { importKwh, exportKwh } = home.inputs.readings.values;
    const metered = `metered: ${Math.round(sum(importKwh))} kWh bought, ${Math.round(sum(exportKwh))} kWh exported`;
    expect(words(workedOut(home))).toBe(`31 days, ${metered}; import metered in 100.0 % of half-hours.`);
    expect(words(workedOut(home, noBattery))).toMatch(
      new RegExp(
        `^31 days, ${metered}; import metered in 100.0 % of half-hours. Compared is what storage would not have moved: \\d+ kWh bought, \\d+ kWh exported.$`,
      ),
    );
  });

  it('is blank where today’s tariff lacks something, and says so', () => {
    const values = workedOut(home, (inputs) => ({
      ...inputs,
      tariffs: inputs.tariffs.map((tariff) =>
        tariff.name !== inputs.todaysTariff
          ? tariff
          : { ...tariff, periods: tariff.periods.map((period) => ({ ...period, standing: 'dear' })) },
      ),
    }));
    expect(row(values)).toEqual(['no total: see Tariffs', '', '', '', '', '', '']);
    expect(values.calculated.named('as_metered_words')).toBe('');
  });
});
