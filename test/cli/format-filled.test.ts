import { beforeAll, describe, expect, it } from 'vitest';
import { formatFilled } from '../../src/cli/format-filled.js';
import type { OnConflict } from '../../src/readings/index.js';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { type FillResult, fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { READING } from '../../src/workbook/model/columns.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { emptyTemplate, filledMonth, imported, template } from '../workbook/template.js';

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
    expect(verdict).toMatch(/^\d+ of \d+ checks asks? for a look, first: .+\.$/);
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

describe('what a fill says that it did', () => {
  const start = 'interval start';
  const DAY = 48;
  const told = (bytes: Uint8Array, csv: string, onConflict: OnConflict = 'refuse'): string[] =>
    textOf(
      fillWorkbook(bytes, 'home.xlsx', imported({ 'more.csv': csv }), { onConflict, keepLeastCost: true }),
    )
      .trimEnd()
      .split('\n')
      .slice(-5, -1);
  /** Half-hours from the midnight with which October begins in London. */
  const csvOf = (channel: string, count: number, kwhOf: (i: number) => number, from = 0): string =>
    [
      `${start},${channel}`,
      ...Array.from({ length: count }, (_, i) => {
        const at = new Date(Date.UTC(2026, 8, 30, 23) + (from + i) * 1_800_000).toISOString();
        return `${at},${kwhOf(i)}`;
      }),
    ].join('\n');
  /** October with its import alone. */
  let importAlone: Uint8Array;
  beforeAll(async () => {
    importAlone = fillWorkbook(
      await template(),
      'home.xlsx',
      imported({ 'import.csv': csvOf('import kWh', 3 * DAY, (i) => (i % 7) / 100) }),
      { keepLeastCost: true },
    ).bytes;
  });

  it('names each channel that half-hours got which were there, and adds none', () => {
    const lines = told(
      importAlone,
      csvOf('export kWh', 2 * DAY, () => 0.5),
    );
    expect(lines).toContain('export: 96 half-hours added to readings that were there.');
    expect(lines.join('\n')).not.toContain('0 half-hours added');
  });

  it('counts new half-hours apart from those that were there', () => {
    const lines = told(
      importAlone,
      csvOf('export kWh', 2 * DAY, () => 0.5, 2 * DAY),
    );
    expect(lines.slice(-2)).toEqual([
      '48 half-hours added',
      'export: 48 half-hours added to readings that were there.',
    ]);
  });

  it('counts values that are the same, and those that it replaced by others', () => {
    const csv = csvOf('import kWh', DAY, (i) => (i < 3 ? 9 : (i % 7) / 100));
    expect(told(importAlone, csv, 'replace').slice(-2)).toEqual([
      '45 values were there already, the same',
      '3 values replaced by a different one.',
    ]);
  });

  it('is that values were worked out anew, where nothing was to be filled in', () => {
    const text = textOf(fillWorkbook(importAlone, 'home.xlsx', undefined, { keepLeastCost: true }));
    expect(text).toContain('The stored values were worked out anew.\nhome.xlsx\n');
  });
});
