import { beforeAll, describe, expect, it } from 'vitest';
import { formatMeasured } from '../../scripts/lib/bench/format-measured.js';
import { atMost, compareTimes, type Measured, median, timeText } from '../../scripts/lib/bench/measure.js';
import { formatComparison } from '../../src/cli/format-comparison.js';
import { Progress } from '../../src/cli/progress.js';
import { hasName } from '../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { TARIFF_ROW } from '../../src/workbook/model/tariff-rows.js';
import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { filledMonth } from '../workbook/template.js';

const widest = (text: string): number => Math.max(...text.split('\n').map((line) => [...line].length));

describe('the comparison', () => {
  let values: WorkbookValues;
  beforeAll(async () => {
    ({ values } = verifyWorkbook(await filledMonth(), 'home.xlsx'));
  });

  it('ranks the tariffs, cheapest first, with today’s marked', () => {
    const rows = formatComparison(values)
      .split('\n')
      .filter((line) => /%$/.test(line));
    expect(rows).toHaveLength(values.inputs.tariffs.filter(({ name }) => hasName(name)).length);
    // Energy, standing charge, export, total, …: the off-peak share may be blank.
    const totals = rows.map((row) => Number(row.match(/[+-]?\d+\.\d\d/g)?.[3]));
    expect(totals.every(Number.isFinite)).toBe(true);
    expect(totals).toEqual([...totals].sort((a, b) => a - b));
    expect(rows.filter((row) => row.startsWith('*'))).toHaveLength(1);
    expect(rows.find((row) => row.startsWith('*'))).toContain(String(values.inputs.todaysTariff));
  });

  it('fits 80 columns, whatever the names and sums', () => {
    expect(widest(formatComparison(values))).toBeLessThanOrEqual(80);
    const { calculated } = values;
    const largest: Record<string, number> = {
      [TARIFF_ROW.energy]: 31_234.56,
      [TARIFF_ROW.total]: 33_456.78,
      [TARIFF_ROW.difference]: 12_345.67,
    };
    const large: WorkbookValues = {
      ...values,
      inputs: {
        ...values.inputs,
        tariffs: values.inputs.tariffs.map((tariff, t) => ({
          ...tariff,
          name: `A tariff with a long name, ${t}`,
        })),
      },
      calculated: Object.assign(Object.create(calculated) as typeof calculated, {
        at: (sheet: string, address: string) =>
          (sheet === SHEETS.tariffs ? largest[address.replace(/^[A-Z]+/, '')] : undefined) ??
          calculated.at(sheet, address),
      }),
    };
    expect(widest(formatComparison(large))).toBeLessThanOrEqual(80);
    expect(formatComparison(large)).toContain('+12345.67');
  });
});

describe('progress', () => {
  const written = (isTTY: boolean): string => {
    let text = '';
    let clock = 0;
    const stream = {
      isTTY,
      write: (more: string) => {
        text += more;
      },
    };
    const progress = new Progress(stream, () => {
      clock += 600;
      return clock;
    });
    progress.begin('reading');
    progress.begin('writing');
    progress.end();
    return text;
  };

  it('is a line a step with its time where the error stream goes to a file', () => {
    expect(written(false)).toBe('  reading: 0.6 s\n  writing: 0.6 s\n');
  });

  it('announces the step on a terminal, and writes the time over it', () => {
    expect(written(true)).toBe(
      '  reading …\r\u001b[2K  reading: 0.6 s\n  writing …\r\u001b[2K  writing: 0.6 s\n',
    );
  });
});

describe('the benchmark’s table', () => {
  const lines: Measured[] = [
    compareTimes('Price a year × 100 tariffs / bare loop', 123, 45.6, 5),
    compareTimes('Least cost of a battery year / solver', 12, 2200, 0.01),
    { ...atMost('Memory of a fill / exceljs', 331, 700, (value) => `${value} MB`), baseline: '1130 MB' },
    atMost('A file that is too large', 21, 20, (value) => `${value} MB`),
    { what: 'LibreOffice', figure: '', baseline: '', aim: '', met: 'skipped', why: 'it is not installed' },
  ];

  it('fits 80 columns and says what is met, what is not, and what was skipped', () => {
    const text = formatMeasured(lines);
    expect(widest(text)).toBeLessThanOrEqual(80);
    expect(text).toMatch(/Price a year .* 123 ms +46 ms +2\.70× ≤ 5× +met/);
    expect(text).toMatch(/A file that is too large +21 MB +≤ 20 MB +NOT MET/);
    expect(text).toContain('LibreOffice: skipped: it is not installed');
  });

  it('takes the middle of the times, and writes three digits', () => {
    expect(median([5, 1, 9])).toBe(5);
    expect([1.234, 12.34, 123.4, 1234, 12_340].map(timeText)).toEqual([
      '1.23 ms',
      '12 ms',
      '123 ms',
      '1.23 s',
      '12.3 s',
    ]);
  });
});
