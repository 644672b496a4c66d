import { expect, it } from 'vitest';
import { buildTemplate } from '../../../src/cli/build-template.js';
import { PATHS } from '../../../src/cli/paths.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { batteryInput } from '../../../src/workbook/fill/stored-battery-results.js';
import { imported, NOW, octoberCsv } from '../template.js';

const GAP = { first: 20 * 48, halfHours: 60 };

it('what was not metered is no time to charge in: the least cost is of the metered half-hours, days without one left out', async () => {
  const lines = octoberCsv().trimEnd().split('\n');
  lines.splice(1 + GAP.first, GAP.halfHours);
  const small = await buildTemplate(PATHS.sampleInputs, 40);
  const readings = imported({ 'october.csv': `${lines.join('\n')}\n` });
  const { values } = fillWorkbook(small, 'home.xlsx', readings, { now: NOW });
  const count = readings.readings.startUtcMs.length;
  values.inputs.tariffs.slice(0, 6).forEach((_, tariff) => {
    const { importKwh, dayIndex } = batteryInput(values, tariff, 1, 31);
    expect(importKwh.length).toBe(count);
    const steps = [...dayIndex].map((day, i) => day - (dayIndex[i - 1] ?? 0));
    expect(Math.max(...steps)).toBeLessThanOrEqual(1);
  });
});
