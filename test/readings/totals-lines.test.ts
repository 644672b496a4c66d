import { describe, expect, test } from 'vitest';
import { addFileOption } from '../../src/cli/file-option.js';
import { formatImportReport, importGasFiles } from '../../src/readings/index.js';
import { importText, messageOf } from './import-text.js';

const LINES = [
  'Start,Import kWh',
  ...Array.from({ length: 4 }, (_, i) => `2026-01-25 0${i >> 1}:${i % 2 === 0 ? '00' : '30'},0.${i + 1}`),
];

describe('a line of totals below the readings', () => {
  test.each<[string, string, string]>([
    ['Total,1.0', 'line 6: "Total" is not a date.', '--pass-over Total.'],
    [',Total 1.0', 'line 6: the date is missing.', '--pass-over Total.'],
    ['Grand total,1.0', 'line 6: "Grand total" is not a date.', '--pass-over "Grand total".'],
  ])('%s is asked about', (line, found, way) => {
    const message = messageOf(() => importText([...LINES, line]));
    expect(message).toContain(found);
    expect(message).toContain(`Where such a line stands in every file: ${way}`);
  });

  test('is passed over once told, counted and told', () => {
    const lines = [...LINES, 'TOTAL,1.0', 'Average per day,0.25'];
    const { readings, report } = importText(lines, { passOver: ['Total', 'average'] });
    expect(Array.from(readings.channels.importKwh!)).toEqual([0.1, 0.2, 0.3, 0.4]);
    expect(formatImportReport(report)).toContain(
      '  of        7 lines: 4 with readings, 1 of the header, 2 passed over as told,\n            not read (lines 6, 7)\n',
    );
  });

  test('a file without one is read as before, and a reading is never passed over', () => {
    const told = importText(LINES, { passOver: ['Total', '2026'] });
    expect(told.readings).toEqual(importText(LINES).readings);
    expect(told.report).toEqual(importText(LINES).report);
  });

  test('another line is told as ever', () => {
    expect(messageOf(() => importText([...LINES, 'Tot up,1.0'], { passOver: ['Total'] }))).toMatch(
      /line 6: "Tot up" is not a date/,
    );
  });

  test('in a file of gas, and for one file alone', () => {
    const bytes = Buffer.from('Date,Gas m3\n2026-01-01,2\n2026-01-02,3\n2026-01-03,2\nTotal,7\n');
    const perFile = addFileOption('gas.csv:pass-over=Total', addFileOption('gas.csv:pass-over=Sum'));
    expect(perFile).toEqual({ 'gas.csv': { passOver: ['Sum', 'Total'] } });
    const { periods } = importGasFiles([{ name: 'gas.csv', bytes }], { timeZone: 'Europe/London', perFile });
    expect(periods.length).toBe(3);
  });
});
