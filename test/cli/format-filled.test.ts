import { beforeAll, describe, expect, it } from 'vitest';
import { formatFilled } from '../../src/cli/format-filled.js';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { type FillResult, fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { READING } from '../../src/workbook/model/columns.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { emptyTemplate, filledMonth } from '../workbook/template.js';

const textOf = (result: FillResult): string =>
  formatFilled({ result, report: '', written: true }, 'home.xlsx');
const lineOfChecks = (text: string): string | undefined =>
  text.split('\n\n').find((part) => part.startsWith('Checks: '));

it('says which tariff it emptied, and compares nothing where there is none', async () => {
  const inOne = fillWorkbook(await filledMonth(), 'home.xlsx', undefined);
  const text = formatFilled(
    { result: inOne, report: '', written: true, clearedTariff: 'Moonlight' },
    'home.xlsx',
  );
  expect(text).toContain('The column of "Moonlight" was emptied.\n');
  const without = fillWorkbook(await emptyTemplate(), 'home.xlsx', undefined);
  expect(textOf(without)).toContain(String(without.values.calculated.named('answer_sentence')).slice(0, 40));
  expect(textOf(without)).not.toContain('Standing');
  expect(textOf(without)).not.toContain('today’s tariff\n');
});

it('says since when a battery’s readings are missing, and nothing where both are there', async () => {
  const whole = fillWorkbook(await filledMonth(), 'home.xlsx', undefined);
  expect(textOf(whole)).not.toContain('Battery:');
  const workbook = openWorkbookPackage(await filledMonth(), 'home.xlsx');
  const blank = Array.from({ length: 7 * 48 }, () => null);
  workbook.editSheet(SHEETS.readings, {
    inputs: ['batteryInKwh', 'batteryOutKwh'].map((channel) => ({
      column: columnNumber(READING[channel as 'batteryInKwh']),
      firstRow: FIRST_ROW + 10 * 48,
      values: blank,
    })),
  });
  const text = textOf(fillWorkbook(workbook.toBytes(), 'home.xlsx', undefined)).replaceAll('\n', ' ');
  expect(text).toContain(
    'Battery: 336 half-hours from 2026-10-11 on have import and lack what the battery took or gave. Their import already holds its shifting',
  );
});

describe('what a fill says about the checks', () => {
  let slip: FillResult;
  beforeAll(async () => {
    const workbook = openWorkbookPackage(await filledMonth(), 'home.xlsx');
    workbook.editSheet(SHEETS.readings, {
      inputs: [{ column: columnNumber(READING.exportKwh), firstRow: FIRST_ROW + 7, values: [-0.4] }],
    });
    slip = fillWorkbook(workbook.toBytes(), 'home.xlsx', undefined);
  });

  it('is the banner’s words where one of them is not well, after the comparison', () => {
    const text = textOf(slip);
    const verdict = String(slip.values.calculated.named('checks_verdict'));
    expect(verdict).toMatch(/^\d+ of \d+ checks ask for a look, first: .+\.$/);
    expect(lineOfChecks(text)?.replaceAll('\n', ' ')).toBe(`Checks: ${verdict}`);
    expect(text.indexOf('Checks: ')).toBeGreaterThan(text.indexOf('* today’s tariff'));
    expect(Math.max(...text.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(80);
  });

  it('is said too where the checks can’t be worked out', () => {
    expect(lineOfChecks(textOf(saying('The checks can’t be worked out: a formula was changed.')))).toBe(
      'Checks: The checks can’t be worked out: a formula was changed.',
    );
  });

  it('is nothing where all are well', () => {
    expect(lineOfChecks(textOf(saying('No problem found by 50 checks.')))).toBeUndefined();
  });

  /** The same fill with other words of the banner. */
  function saying(verdict: string): FillResult {
    const { values } = slip;
    const calculated = Object.assign(Object.create(values.calculated) as typeof values.calculated, {
      named: (name: string) => (name === 'checks_verdict' ? verdict : values.calculated.named(name)),
    });
    return { ...slip, values: { ...values, calculated } };
  }
});
