import { expect, it } from 'vitest';
import { importFiles } from '../../../src/readings/index.js';
import { readingRowsOf } from '../../../src/workbook/fill/workbook-readings.js';
import { shapeOf } from '../../../src/workbook/sheets/shape.js';

it('as many days as the workbook holds fit where two autumns and one spring are among them', () => {
  const days = 400;
  const [first, end] = [Date.UTC(2025, 9, 19, 23), Date.UTC(2026, 10, 24)];
  const lines = ['start,import kWh'];
  for (let at = first; at < end; at += 1_800_000) {
    lines.push(`${new Date(at).toISOString().slice(0, 16)}Z,0.1`);
  }
  const { readings } = importFiles([{ name: 'long.csv', bytes: Buffer.from(`${lines.join('\n')}\n`) }], {
    timeZone: 'Europe/London',
  });
  expect(readings.startUtcMs.length).toBe(days * 48 + 2);
  expect(readingRowsOf(readings, 'home.xlsx', shapeOf(days)).count).toBe(days * 48 + 2);
});
