import { beforeAll, expect, it } from 'vitest';
import { runBatteryRule } from '../../../src/battery/battery-rule.js';
import { buildTemplate } from '../../../src/cli/build-template.js';
import { PATHS } from '../../../src/cli/paths.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { batteryInput, spanOf } from '../../../src/workbook/fill/stored-battery-results.js';
import { batterySpan } from '../../../src/workbook/model/battery/battery-span.js';
import { tariffOf } from '../../../src/workbook/model/period-line.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { imported, NOW, octoberCsv } from '../template.js';

const GAP = { first: 20 * 48, halfHours: 60 };

let values: WorkbookValues;
let metered: number;

beforeAll(async () => {
  const lines = octoberCsv().trimEnd().split('\n');
  lines.splice(1 + GAP.first, GAP.halfHours);
  const small = await buildTemplate(PATHS.sampleInputs, 40);
  const readings = imported({ 'october.csv': `${lines.join('\n')}\n` });
  metered = readings.readings.startUtcMs.length;
  values = fillWorkbook(small, 'home.xlsx', readings, { now: NOW }).values;
});

it('what was not metered is no time to charge in: the least cost is of the metered half-hours, days without one left out', () => {
  values.inputs.tariffs.slice(0, 6).forEach((_, tariff) => {
    const { importKwh, dayIndex } = batteryInput(values, tariff, 1, 31);
    expect(importKwh.length).toBe(metered);
    const steps = [...dayIndex].map((day, i) => day - (dayIndex[i - 1] ?? 0));
    expect(Math.max(...steps)).toBeLessThanOrEqual(1);
  });
});

it('what the fill hands to the library is what the workbook works with: the same level in every half-hour, the same cost', () => {
  const { calculated, book } = values;
  const span = batterySpan(book);
  const readingRow = calculated.numbers(book.workings.halfHours.readingRow);
  values.inputs.tariffs.slice(0, 6).forEach((_, tariff) => {
    const { input, battery, endValuePence } = spanOf({ ...values, span }, tariff);
    const run = runBatteryRule(input, battery, endValuePence);
    const levels = calculated
      .numbers(tariffOf(book, tariff).level)
      .filter((_kwh, row) => readingRow[row]! > 0);
    expect(levels.length).toBe(metered);
    levels.forEach((kwh, i) => {
      expect(kwh).toBeCloseTo(run.levelKwh[i]!, 8);
    });
    expect(calculated.of(span.tariffs[tariff]!.netCostPence)).toBeCloseTo(run.totals.netCostPence, 4);
  });
});
