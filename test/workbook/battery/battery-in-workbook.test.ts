import { beforeAll, describe, expect, it } from 'vitest';
import type { Column, Line } from '../../../src/workbook/book/terms.js';
import { BATTERY_FIELDS } from '../../../src/workbook/fields/battery-fields.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { hasName } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS, TARIFF_COUNT } from '../../../src/workbook/layout.js';
import { batteryResultRow, REACHED } from '../../../src/workbook/model/battery/battery-rows.js';
import { batterySpan } from '../../../src/workbook/model/battery/battery-span.js';
import { STATUS } from '../../../src/workbook/model/battery/battery-status.js';
import { tariffOf } from '../../../src/workbook/model/period-line.js';
import type { FormulaValue } from '../../../src/workbook/model/sheet-model.js';
import { ratePeriodRows, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { withTyped } from '../sample-workbooks.js';
import { filledMonth } from '../template.js';
import { valuesOf } from '../values-of.js';

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);

/** A cell of a tariff's row on the battery sheet. */
const result = ({ calculated }: WorkbookValues, letters: string, t: number): FormulaValue =>
  calculated.at(SHEETS.battery, `${letters}${batteryResultRow(t)}`);
const [WITHOUT, WITH, SAVES, LEFT] = ['C', 'D', 'H', 'M'];
const { share: SHARE, status: IS_CURRENT } = REACHED;
const number = ({ calculated }: WorkbookValues, line: Line): number => calculated.of(line) as number;
const statuses = (bytes: Uint8Array): FormulaValue[] => {
  const values = valuesOf(bytes);
  return named(values).map((t) => result(values, IS_CURRENT, t));
};
/** Tariffs that are filled in. */
const named = ({ inputs }: WorkbookValues): number[] =>
  tariffs.filter((t) => hasName(inputs.tariffs[t]?.name ?? null));

describe('the battery in a filled month', () => {
  let month: Uint8Array;
  let values: WorkbookValues;
  beforeAll(async () => {
    month = await filledMonth();
    values = valuesOf(month);
  });

  it('keeps its level within its bounds and its power within its limits, on every tariff', () => {
    const { calculated, book } = values;
    const { battery } = book.workings;
    const figure = (line: Line): number => number(values, line);
    const [usableKwh, chargeKw, dischargeKw] = [battery.usableKwh, battery.chargeKw, battery.dischargeKw].map(
      figure,
    );
    for (const t of tariffs) {
      const { level } = tariffOf(book, t);
      const levelKwh = calculated.numbers(level);
      const before = [calculated.value(level.cell(-1)) as number, ...levelKwh];
      const rises = levelKwh.map((kwh, i) => kwh - (before[i] ?? Number.NaN));
      expect(Math.min(...levelKwh)).toBeGreaterThanOrEqual(-1e-9);
      expect(Math.max(...levelKwh)).toBeLessThanOrEqual((usableKwh ?? 0) + 1e-9);
      expect(Math.max(...rises) / figure(battery.chargeEfficiency)).toBeLessThanOrEqual(
        (chargeKw ?? 0) / 2 + 1e-9,
      );
      expect(Math.min(...rises) * figure(battery.dischargeEfficiency)).toBeGreaterThanOrEqual(
        -(dischargeKw ?? 0) / 2 - 1e-9,
      );
    }
    for (const t of named(values)) {
      expect(Math.max(...calculated.numbers(tariffOf(book, t).level))).toBeGreaterThan(1);
    }
  });

  it('leaves something on the table or nothing, never less', () => {
    const span = batterySpan(values.book);
    expect(named(values).length).toBeGreaterThanOrEqual(6);
    for (const t of named(values)) {
      expect(result(values, IS_CURRENT, t)).toBe(STATUS.current);
      expect(result(values, LEFT, t)).toBeGreaterThanOrEqual(0);
    }
    for (const t of named(values)) {
      const [saves, left] = [SAVES, LEFT].map((letters) => result(values, letters, t) as number);
      expect(result(values, SHARE, t)).toBeCloseTo(saves! / (saves! + left!), 9);
      expect(result(values, SHARE, t)).toBeGreaterThan(0.5);
    }
    expect(number(values, span.halfHours)).toBe(1490);
    for (const t of named(values)) {
      const least = values.inputs.storedBattery.tariffs[t]!.leastCostPounds as number;
      const { netCostPence } = span.tariffs[t]!;
      expect(number(values, netCostPence) / 100).toBeGreaterThanOrEqual(least - 1e-6);
    }
  });

  it('of 0 kWh gives every figure as it is without one, to the last digit', () => {
    const none = valuesOf(
      withTyped(month, [{ sheet: 'Battery', cell: BATTERY_FIELDS.usableKwh.at, value: 0 }]),
    );
    const { calculated, book } = none;
    const column = (of: Column): FormulaValue[] => calculated.column(of);
    for (const t of tariffs) {
      const { months, batteryMonths, battery, level, energy } = tariffOf(book, t);
      expect(result(none, WITH, t)).toBe(result(none, WITHOUT, t));
      expect(result(none, SHARE, t)).toBe('');
      expect(column(batteryMonths.energy)).toEqual(column(months.energy));
      expect(column(batteryMonths.exportCredit)).toEqual(column(months.exportCredit));
      expect(column(batteryMonths.total)).toEqual(column(months.total));
      const energyPence = calculated.numbers(energy.energyPence).reduce((a, b) => a + b, 0);
      expect(calculated.numbers(batteryMonths.energyPence).reduce((a, b) => a + b, 0)).toBe(energyPence);
      for (const of of [...Object.values(battery), level]) {
        expect(calculated.numbers(of).every((value) => value === 0)).toBe(true);
      }
    }
    const { importChangeKwh } = book.workings.realCost;
    expect(calculated.numbers(importChangeKwh).every((kwh) => kwh === 0)).toBe(true);
  });

  it('says which least cost has gone stale when a rate changes, and the next fill brings it up to date', () => {
    const changed = withTyped(month, [
      { sheet: 'Tariffs', cell: `${tariffLetters(1)}${ratePeriodRows(1).base}`, value: 30.01 },
    ]);
    expect(statuses(changed)).toEqual(named(values).map((t) => (t === 1 ? STATUS.stale : STATUS.current)));
    expect(statuses(fillWorkbook(changed, 'home.xlsx', undefined).bytes)).toEqual(
      named(values).map(() => STATUS.current),
    );
  });

  it('keeps the time of a least cost that still holds: a later fill changes nothing', () => {
    const later = fillWorkbook(month, 'home.xlsx', undefined, { now: new Date(Date.UTC(2030, 0, 1)) });
    expect(later.bytes).toBe(month);
  });
});
