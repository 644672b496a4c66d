import { describe, expect, it } from 'vitest';
import { blankStart } from '../../src/workbook/fill/blank-start.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { declareBook } from '../../src/workbook/model/book.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { formulasOf, reachedFrom } from './reached-from.js';

const DAYS = 35;
const book = declareBook(DAYS);
const formulas = formulasOf(workbookModel(blankStart(), book));
const rateOf = (tariff: number) => book.inputs.tariffs[tariff - 1]!.periods[0]!.base.place;

describe.each([1, 2, 8])('what is worked out anew where a unit rate of tariff %i changes', (tariff) => {
  const reached = reachedFrom(formulas, rateOf(tariff));
  const on = (sheet: string) => reached.filter((formula) => formula.sheet === sheet);

  it('has, of half-hours, the battery’s level on the tariff alone, and what it changes on the one looked at', () => {
    const half = on(SHEETS.halfHours).filter(({ rows }) => rows > DAYS);
    expect(half.map(({ label }) => label)).toEqual([
      `Level, tariff ${tariff}`,
      'Battery changes import, tariff looked at',
    ]);
  });

  it('has of each day the lines of that tariff and of no other', () => {
    const others = on(SHEETS.days).filter(
      ({ label }) => /tariff \d/.test(label) && !label.endsWith(`tariff ${tariff}`),
    );
    expect(on(SHEETS.days).map(({ label }) => label)).toContain(`Energy without battery, tariff ${tariff}`);
    expect(others).toEqual([]);
  });

  it('has no count of readings or days in it', () => {
    expect(on(SHEETS.when)).toEqual([]);
    const labels = reached.map(({ label }) => label);
    for (const of of [
      'Import, month 1',
      'Days that begin here, looked at',
      'Half-hours marked as estimated',
    ]) {
      expect(formulas.map(({ label }) => label)).toContain(of);
      expect(labels).not.toContain(of);
    }
  });
});
