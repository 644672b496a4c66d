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

describe('what a fill says about the battery’s readings', () => {
  /** October with these cells of the battery’s columns blank, and whether a battery ran, as typed. */
  async function saidWithout(fromDay: number, days: number, ran: string): Promise<string> {
    const workbook = openWorkbookPackage(await filledMonth(), 'home.xlsx');
    workbook.editSheet(SHEETS.readings, {
      inputs: [
        ...(['batteryInKwh', 'batteryOutKwh'] as const).map((channel) => ({
          column: columnNumber(READING[channel]),
          firstRow: FIRST_ROW + fromDay * 48,
          values: Array.from({ length: days * 48 }, () => null),
        })),
        { column: 6, firstRow: 5, values: [ran] },
      ],
    });
    return textOf(fillWorkbook(workbook.toBytes(), 'home.xlsx', undefined)).replaceAll('\n', ' ');
  }

  it('is how many lack, and since when, whether or not it was said that one ran', async () => {
    expect(await saidWithout(10, 7, 'no')).toContain(
      'Battery: 336 half-hours have import but lack a reading of the battery, the first on 2026-10-11. Their import already holds',
    );
  });

  it('is how many lie before the first, where a battery ran', async () => {
    expect(await saidWithout(0, 2, 'yes')).toContain(
      'Battery: 96 half-hours from 2026-10-01 on lie before its first reading: if it ran then,',
    );
  });

  it('is nothing where all are there, or where it may not have been there yet', async () => {
    expect(await saidWithout(0, 0, 'yes')).not.toContain('Battery:');
    expect(await saidWithout(0, 2, 'no')).not.toContain('Battery:');
  });
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
