import { beforeAll, describe, expect, it } from 'vitest';
import { batteryAnswer, STATUS } from '../../../src/workbook/evaluate/battery/battery-answers.js';
import { evaluateWorkbook } from '../../../src/workbook/evaluate/evaluate-workbook.js';
import type { WorkbookResults } from '../../../src/workbook/evaluate/workbook-results.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { readInputs } from '../../../src/workbook/inputs/read-inputs.js';
import { TARIFF_COUNT } from '../../../src/workbook/layout.js';
import {
  BATTERY_INPUT_LETTERS,
  BATTERY_INPUT_ROW,
} from '../../../src/workbook/model/battery/battery-rows.js';
import { ratePeriodRows, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { withTyped } from '../sample-workbooks.js';
import { filledMonth } from '../template.js';

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
const resultsOf = (bytes: Uint8Array): WorkbookResults =>
  evaluateWorkbook(readInputs(openWorkbookPackage(bytes, 'home.xlsx')));
const statuses = (bytes: Uint8Array): (string | null)[] => {
  const results = resultsOf(bytes);
  return tariffs.map((t) => batteryAnswer(results, t).status);
};

describe('the battery in a filled month', () => {
  let month: Uint8Array;
  let results: WorkbookResults;
  beforeAll(async () => {
    month = await filledMonth();
    results = resultsOf(month);
  });

  it('keeps its level within its bounds and its power within its limits, on every tariff', () => {
    const { usableKwh, chargeKw, dischargeKw } = results.battery.figures.battery;
    for (const { halfHours } of results.battery.tariffs) {
      expect(Math.min(...halfHours.levelKwh)).toBeGreaterThanOrEqual(-1e-9);
      expect(Math.max(...halfHours.levelKwh)).toBeLessThanOrEqual(usableKwh + 1e-9);
      expect(Math.max(...halfHours.batteryKwh)).toBeLessThanOrEqual(chargeKw / 2 + 1e-9);
      expect(Math.min(...halfHours.batteryKwh)).toBeGreaterThanOrEqual(-dischargeKw / 2 - 1e-9);
    }
  });

  it('leaves something on the table or nothing, never less', () => {
    for (const t of tariffs) {
      const { status, leftPounds } = batteryAnswer(results, t);
      expect(status).toBe(STATUS.current);
      expect(leftPounds).toBeGreaterThanOrEqual(0);
    }
    const { period, tariffs: lines } = results.battery;
    expect(period.halfHours).toBe(1490);
    tariffs.forEach((t) => {
      const least = results.inputs.storedBattery.tariffs[t]!.leastCostPounds as number;
      expect(lines[t]!.totals.netCostPence / 100).toBeGreaterThanOrEqual(least - 1e-6);
    });
  });

  it('of 0 kWh gives every figure as it is without one, to the last digit', () => {
    const none = resultsOf(
      withTyped(month, [
        { sheet: 'Battery', cell: `${BATTERY_INPUT_LETTERS}${BATTERY_INPUT_ROW.usableKwh}`, value: 0 },
      ]),
    );
    for (const t of tariffs) {
      const { months, halfHours } = none.battery.tariffs[t]!;
      expect(batteryAnswer(none, t).withPounds).toBe(none.tariffs[t]!.totals.totalPounds);
      expect(months.totalPounds).toEqual(none.tariffs[t]!.months.totalPounds);
      expect(months.exportCreditPounds).toEqual(none.tariffs[t]!.months.exportCreditPounds);
      expect(halfHours.importKwh).toEqual(none.halfHours.importKwh);
      expect(halfHours.exportKwh).toEqual(none.halfHours.exportKwh);
    }
  });

  it('says which least cost has gone stale when a rate changes, and the next fill brings it up to date', () => {
    const changed = withTyped(month, [
      { sheet: 'Tariffs', cell: `${tariffLetters(1)}${ratePeriodRows(1).base}`, value: 30.01 },
    ]);
    expect(statuses(changed)).toEqual(tariffs.map((t) => (t === 1 ? STATUS.stale : STATUS.current)));
    expect(statuses(fillWorkbook(changed, 'home.xlsx', undefined).bytes)).toEqual(
      tariffs.map(() => STATUS.current),
    );
  });

  it('keeps the time of a least cost that still holds: a later fill changes nothing', () => {
    const later = fillWorkbook(month, 'home.xlsx', undefined, { now: new Date(Date.UTC(2030, 0, 1)) });
    expect(later.bytes).toBe(month);
  });
});
