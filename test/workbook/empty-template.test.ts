import { describe, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { formatComparison } from '../../src/cli/format-comparison.js';
import { PATHS } from '../../src/cli/paths.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { readInputs, shapeOfWorkbook } from '../../src/workbook/inputs/read-inputs.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { CellError, openWorkbookPackage } from '../../src/workbook/package/index.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { numberCell, textCell, withCells } from './edit-package.js';
import { keptFile, sourceKey } from './kept-file.js';
import { NOW, october } from './template.js';
import { valuesOf } from './values-of.js';

const DAYS = 62;
const FILE = 'home.xlsx';

/** The template as it starts, of two months for speed. */
const empty = (): Promise<Uint8Array> =>
  keptFile('empty.xlsx', sourceKey(), () => buildTemplate(PATHS.startingInputs, DAYS));
const withReadings = (): Promise<Uint8Array> =>
  keptFile(
    'empty-filled.xlsx',
    sourceKey(),
    async () => fillWorkbook(await empty(), FILE, october(), { now: NOW }).bytes,
  );

/** Cells of the visible sheets, and of the workings but for the gaps of the charts, that show an error. */
function errorsOf({ inputs, book, calculated }: WorkbookValues): string[] {
  return workbookModel(inputs, book).flatMap(({ name, cells }) =>
    cells
      .filter(({ kind, at }) => {
        const value = kind === 'formula' ? calculated.at(name, at) : null;
        return value instanceof CellError && !(name === SHEETS.chartData && value.code === '#N/A');
      })
      .map(({ at }) => `${name}!${at}`),
  );
}

/** Names of the checks with this verdict. */
function checksThatSay({ inputs, book, calculated }: WorkbookValues, verdict: string): unknown[] {
  const { cells = [] } = workbookModel(inputs, book).find(({ name }) => name === SHEETS.checks) ?? {};
  return cells
    .filter(({ at }) => /^C\d+$/.test(at) && calculated.at(SHEETS.checks, at) === verdict)
    .map(({ at }) => calculated.at(SHEETS.checks, at.replace('C', 'A')));
}
const saidOf = ({ calculated }: WorkbookValues): string => String(calculated.named('answer_sentence'));

/** A tariff of one rate as it is typed into the first free column. */
const TYPED = {
  C5: textCell('C5', 'Mine'),
  C43: numberCell('C43', 50),
  C44: numberCell('C44', 25),
};
const TODAYS = { C3: textCell('C3', 'Mine') };

describe('the template as it starts', () => {
  it('invents nothing: no tariff, no battery, no gas, no rate, no weather', async () => {
    const workbook = openWorkbookPackage(await empty(), FILE);
    const inputs = readInputs(workbook, shapeOfWorkbook(workbook));
    const CHOICES = ['clock', 'includesVat', 'halfHourlyPriced', 'priceIncludesVat'];
    const typed = (value: unknown, key: string): string[] => {
      if (value === null || value === undefined || CHOICES.includes(key)) return [];
      if (typeof value !== 'object') return [`${key}: ${String(value)}`];
      return Object.entries(value).flatMap(([k, v]) => typed(v, k));
    };
    expect(typed(inputs.todaysTariff, 'todaysTariff')).toEqual([]);
    expect(typed(inputs.tariffs, 'tariffs')).toEqual([]);
    expect(typed(inputs.battery, 'battery')).toEqual([
      'chargeFromGrid: yes',
      'mayFeedCar: no',
      'mayExport: no',
    ]);
    expect(typed({ ...inputs.heating, settings: {}, sensitivity: [] }, 'heating')).toEqual([]);
    expect(inputs.readings.count).toBe(0);
    const pricesAndOwn = Object.entries(inputs.heating.settings).filter(([key]) =>
      /Pence|Pounds|Carbon|boilerEfficiency/.test(key),
    );
    expect(pricesAndOwn.length).toBeGreaterThan(7);
    expect(pricesAndOwn.filter(([, value]) => value !== null)).toEqual([]);
  });

  it('says what to do first, shows no error, and asks for nothing on Checks but readings', async () => {
    const values = valuesOf(await empty());
    expect(saidOf(values)).toBe(
      'Type today’s tariff on Tariffs, from column C on: a name, the standing charge and the rates; then choose it in cell C3. ' +
        'No readings in the period yet: paste half-hours into Readings, or run the fill.',
    );
    expect(String(values.calculated.named('heating_verdict'))).toContain(
      'First type on Heating: gas unit rate, gas standing charge, single rate, boiler efficiency.',
    );
    expect(errorsOf(values)).toEqual([]);
    expect(checksThatSay(values, 'look')).toEqual(['No readings in the chosen period']);
    expect(checksThatSay(values, 'note')).toEqual(['No tariff is typed yet']);
  });

  it('agrees with itself', async () => {
    expect(fillWorkbook(await empty(), FILE, undefined, { now: NOW }).altered).toEqual([]);
  });
});

describe('readings without a tariff', () => {
  it('go in, and the workbook says what is missing', async () => {
    const values = valuesOf(await withReadings());
    expect(values.inputs.readings.count).toBe(1490);
    expect(saidOf(values)).toBe(
      'Type today’s tariff on Tariffs, from column C on: a name, the standing charge and the rates; then choose it in cell C3.',
    );
    expect(errorsOf(values)).toEqual([]);
    expect(checksThatSay(values, 'look')).not.toContain('Today’s tariff not found');
    expect(formatComparison(values)).toContain('Type today’s tariff on Tariffs');
    expect(formatComparison(values)).not.toMatch(/NaN|undefined|null/);
  });

  it('a tariff typed and not chosen is asked for, and priced all the same', async () => {
    const values = valuesOf(withCells(await withReadings(), { [SHEETS.tariffs]: TYPED }));
    expect(saidOf(values)).toBe('Choose today’s tariff on Tariffs, cell C3.');
    expect(values.calculated.at(SHEETS.tariffs, 'C6')).toBeGreaterThan(0);
    expect(checksThatSay(values, 'look')).toContain('Today’s tariff not found');
  });

  it('a single tariff typed and chosen has its answer', async () => {
    const typed = withCells(await withReadings(), { [SHEETS.tariffs]: { ...TYPED, ...TODAYS } });
    const { values } = fillWorkbook(typed, FILE, undefined, { now: NOW });
    expect(saidOf(values)).toMatch(
      /^Oct 2026, rates as they were: Mine, today’s tariff, is the cheapest at £[\d,.]+\.$/,
    );
    expect(errorsOf(values)).toEqual([]);
    expect(checksThatSay(values, 'note')).not.toContain('No tariff is typed yet');
    const bought = values.calculated.numbers(values.book.workings.halfHours.importKwh);
    const expected = bought.reduce((kwh, value) => kwh + value, 0) * 0.25 + 31 * 0.5;
    expect(Math.abs((values.calculated.at(SHEETS.tariffs, 'C6') as number) - expected)).toBeLessThan(0.01);
  });

  it('today’s tariff that is none is refused, and what to do fits that there are none', async () => {
    const wrong = withCells(await withReadings(), { [SHEETS.tariffs]: TODAYS });
    expect(() => fillWorkbook(wrong, FILE, undefined)).toThrow(
      'home.xlsx, Tariffs!C3: today\'s tariff "Mine" is none of the tariffs. Type it into a column, or clear the cell.',
    );
  });
});
