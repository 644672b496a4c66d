import { beforeAll, describe, expect, it } from 'vitest';
import { degreeDaysFromDailyMean } from '../../../src/heating/degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMin } from '../../../src/heating/degree-days-from-max-min.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { FIRST_ROW, SHEETS } from '../../../src/workbook/layout.js';
import { GAS_HELP, GAS_LINE_LETTERS, TEMPERATURE } from '../../../src/workbook/model/heating/heating-rows.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { filledYear } from '../sample-workbooks.js';
import { shownFormulas } from '../shown-by-sheet.js';
import { inputsOf } from './heated-year.js';
import { workedOut } from './heating-values.js';

const BASE_C = 15.5;
/** A month about the base: highest and lowest of its days, °C. */
const DAYS = Array.from({ length: 30 }, (_, d) => ({ maxC: 15 + (d % 7), minC: 8 + (d % 4) }));

let inputs: WorkbookInputs;
let firstDay: number;
beforeAll(async () => {
  inputs = inputsOf(await filledYear());
  firstDay = inputs.heating.gas[0]?.firstDay as number;
}, 180_000);

/** A workbook whose first stretch of gas is that month, with maxima and minima or with their means. */
function withMonth(by: 'mean' | 'maximum and minimum'): WorkbookValues {
  const { heating } = inputs;
  const temperatures = DAYS.map(({ maxC, minC }, d) => ({
    date: firstDay + d,
    meanC: by === 'mean' ? (maxC + minC) / 2 : null,
    maxC: by === 'mean' ? null : maxC,
    minC: by === 'mean' ? null : minC,
  }));
  const gas = heating.gas.map((row, i) => (i === 0 ? { ...row, lastDay: firstDay + DAYS.length - 1 } : row));
  const settings = {
    ...heating.settings,
    degreeDayBaseC: BASE_C,
    baseEitherWayC: 1,
    degreeDayMethod: 'daily mean',
  };
  return workedOut({ ...inputs, heating: { ...heating, settings, gas, temperatures } as never });
}
const atFirst = ({ calculated }: WorkbookValues, letters: string): unknown =>
  calculated.at(SHEETS.gas, `${letters}${FIRST_ROW}`);
const taken = GAS_LINE_LETTERS.gasDegreeDays ?? '';
const sum = (of: (day: (typeof DAYS)[number]) => number): number =>
  DAYS.reduce((all, day) => all + of(day), 0);
const byMaxMin = (baseC: number) => sum(({ maxC, minC }) => degreeDaysFromMaxMin(maxC, minC, baseC));
const byMean = (baseC: number) => sum(({ maxC, minC }) => degreeDaysFromDailyMean((maxC + minC) / 2, baseC));
const shown = (values: WorkbookValues): unknown[] =>
  shownFormulas(values, SHEETS.heating).map(([, value]) => value);
const said = (sheet: string): string[] =>
  workbookModel(inputs)
    .filter(({ name }) => name === sheet)
    .flatMap(({ cells }) => cells)
    .flatMap((cell) => (cell.kind === 'label' ? [String(cell.value)] : []));

describe('days of which maximum and minimum are known', () => {
  it('go by their four cases, also under “daily mean”, and the sheet says by which', () => {
    const values = withMonth('maximum and minimum');
    expect(atFirst(values, taken)).toBeCloseTo(byMaxMin(BASE_C), 9);
    expect(byMaxMin(BASE_C)).not.toBeCloseTo(byMean(BASE_C), 0);
    expect(atFirst(withMonth('mean'), taken)).toBeCloseTo(byMean(BASE_C), 9);
    expect(atFirst(values, TEMPERATURE.degreeDays)).toBe(atFirst(values, TEMPERATURE.fromMaxMin));
    const cell = `${TEMPERATURE.degreeDays}1`;
    expect(values.calculated.at(SHEETS.temperatures, cell)).toBe(
      'Days with maximum and minimum go by the four cases of the Met Office equations as given in CIBSE TM41, from memory, also under “daily mean”.',
    );
    expect(said(SHEETS.heatingInputs).join()).toContain(
      'Days with maximum and minimum go by these either way.',
    );
  });

  it('are approximate at the lower base, which is exact for days by their mean, and the sheets say so', () => {
    const lower = GAS_HELP.lowerBaseDegreeDays;
    expect(atFirst(withMonth('mean'), lower)).toBeCloseTo(byMean(BASE_C - 1), 9);
    expect(atFirst(withMonth('maximum and minimum'), lower)).not.toBeCloseTo(byMaxMin(BASE_C - 1), 0);
    const [means, maxMin] = [withMonth('mean'), withMonth('maximum and minimum')];
    const at = `${GAS_HELP.tableLower}${FIRST_ROW - 4}`;
    expect(maxMin.calculated.at(SHEETS.gas, at)).toBe(
      'At the lower base: exact for days by their mean, approximate for days by maximum and minimum or by half-hours.',
    );
    expect(shown(maxMin)).toContain(
      'Approximate for days by maximum and minimum or by half-hours: theirs are lowered as those of daily means are.',
    );
    // Nothing where all days go by their mean.
    expect(means.calculated.at(SHEETS.gas, at)).toBe('');
    expect(shown(means).join()).not.toContain('Approximate');
    expect(means.calculated.at(SHEETS.temperatures, `${TEMPERATURE.degreeDays}1`)).toBe('');
  });
});
