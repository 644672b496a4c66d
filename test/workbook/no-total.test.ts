import { describe, expect, it } from 'vitest';
import { formatComparison } from '../../src/cli/format-comparison.js';
import { isoDateToSerial } from '../../src/time/serial.js';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { HOME_FIELDS } from '../../src/workbook/fields/home-fields.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { WORDS } from '../../src/workbook/model/answer-sheet.js';
import { BATTERY_RESULTS, REAL_COST } from '../../src/workbook/model/battery/battery-rows.js';
import { CHART_MONTHS, chartDataRows } from '../../src/workbook/model/chart-data-sheet.js';
import {
  TARIFF_ROW,
  tariffInputRanges,
  tariffLetters,
  windowRows,
} from '../../src/workbook/model/tariff-rows.js';
import { KWH_TABLE, TIMER_TABLE } from '../../src/workbook/model/timers/timer-places.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { numberCell, textCell, withCells } from './edit-package.js';
import { shownFormulas } from './shown-by-sheet.js';
import { inputsOf, smallMonth, smallTemplate, workedOut } from './small-month.js';
import { imported, NOW, octoberCsv } from './template.js';
import { valuesOf } from './values-of.js';

const FILE = 'home.xlsx';
const UNPRICED_DAYS = 10;

/** October, its last days without a price. */
function withoutPrices(): string {
  const lines = octoberCsv().trimEnd().split('\n');
  const price = lines[0]!.split(',').findIndex((head) => /price/i.test(head));
  return `${lines
    .map((line, i) => {
      const cells = line.split(',');
      if (i > lines.length - 1 - UNPRICED_DAYS * 48) cells[price] = '';
      return cells.join(',');
    })
    .join('\n')}\n`;
}

const places = Array.from({ length: 6 }, (_, tariff) => tariff);
const figure = ({ calculated }: WorkbookValues, tariff: number, row: number): unknown =>
  calculated.at(SHEETS.tariffs, `${tariffLetters(tariff)}${row}`);
const nameOf = (values: WorkbookValues, tariff: number): string =>
  String(figure(values, tariff, TARIFF_ROW.name));
const ranks = (values: WorkbookValues): unknown[] =>
  places.map((tariff) => figure(values, tariff, TARIFF_ROW.rank));
const followsPrice = (values: WorkbookValues): number =>
  places.findIndex((tariff) => figure(values, tariff, TARIFF_ROW.halfHourlyPriced) === 'yes');
const said = ({ calculated }: WorkbookValues): string => String(calculated.named('answer_sentence'));

/** That the tariff has no total, no rank, no place in the sentence, and the others theirs. */
function expectNoTotal(values: WorkbookValues, tariff: number, why: string, rank: string): void {
  for (const row of [TARIFF_ROW.total, TARIFF_ROW.withoutBattery, TARIFF_ROW.allIn, TARIFF_ROW.difference]) {
    expect(figure(values, tariff, row)).toBe('');
  }
  expect(figure(values, tariff, TARIFF_ROW.rank)).toBe(rank);
  const others = ranks(values).filter((_, t) => t !== tariff);
  expect([...others].sort()).toEqual(others.map((_, i) => i + 1));
  const name = nameOf(values, tariff);
  expect(said(values)).not.toContain(`${name} would have cost`);
  expect(said(values)).not.toContain(`${name} at`);
  expect(values.calculated.named('no_total_words')).toBe(`No total: ${name} (${why}).`);
  expect(String(values.calculated.at(SHEETS.answer, WORDS.periodHolds))).toContain(
    `No total: ${name} (${why}).`,
  );
  expect(formatComparison(values).replace(/\s+/g, ' ')).toContain(`No total: ${name} (${why}).`);
}

describe('a tariff that lacks something', () => {
  it('has no total where half-hours lack their price, and a coverage of its own', async () => {
    const { values } = fillWorkbook(
      await smallTemplate(),
      FILE,
      imported({ 'october.csv': withoutPrices() }),
      {
        now: NOW,
      },
    );
    const tariff = followsPrice(values);
    expectNoTotal(values, tariff, `${UNPRICED_DAYS * 48} half-hours without a price`, 'lacks prices');
    const coverage = places.map((t) => figure(values, t, TARIFF_ROW.coverage));
    expect(coverage[tariff]).toBeCloseTo(1 - (UNPRICED_DAYS * 48) / (31 * 48 + 2), 9);
    expect(coverage.filter((_, t) => t !== tariff)).toEqual([1, 1, 1, 1, 1]);
  });

  const base = `${tariffLetters(1)}44`;
  it.each([
    ['a rate that is text', base, textCell(base, '8.5p')],
    ['a rate with a comma', base, textCell(base, '8,5')],
    ['no standing charge', `${tariffLetters(1)}43`, textCell(`${tariffLetters(1)}43`, '')],
  ])('has no total with %s', async (_, at, cell) => {
    const values = valuesOf(withCells(await smallMonth(), { [SHEETS.tariffs]: { [at]: cell } }));
    expectNoTotal(values, 1, 'inputs that can’t be used, see its flags', 'see flags');
  });

  it('has no total with VAT to add that is no share', async () => {
    const before = valuesOf(await smallMonth());
    const tariff = places.findIndex((t) => figure(before, t, TARIFF_ROW.includesVat) === 'no');
    const vat = HOME_FIELDS.vatShare.at;
    const values = valuesOf(
      withCells(await smallMonth(), { [SHEETS.tariffs]: { [vat]: numberCell(vat, 20) } }),
    );
    expectNoTotal(values, tariff, 'inputs that can’t be used, see its flags', 'see flags');
  });

  it('has a total with days typed beside a window without times: they are of no window', async () => {
    const at = `${tariffLetters(0)}${windowRows(1).days}`;
    const values = valuesOf(
      withCells(await smallMonth(), { [SHEETS.tariffs]: { [at]: textCell(at, 'any') } }),
    );
    expect(figure(values, 0, TARIFF_ROW.total)).toBe(
      figure(valuesOf(await smallMonth()), 0, TARIFF_ROW.total),
    );
  });

  it('is said where it is today’s: nothing is compared with it', async () => {
    const before = valuesOf(await smallMonth());
    const todays = places.findIndex((t) => nameOf(before, t) === String(before.inputs.todaysTariff));
    const at = `${tariffLetters(todays)}44`;
    const values = valuesOf(
      withCells(await smallMonth(), { [SHEETS.tariffs]: { [at]: textCell(at, 'dear') } }),
    );
    expect(said(values)).toContain(
      `${nameOf(values, todays)}, today’s tariff, has no total, so that nothing is compared with it.`,
    );
    expect(places.map((t) => figure(values, t, TARIFF_ROW.difference))).toEqual(places.map(() => ''));
  });

  it('is said on Battery where it is the one to look at, and why: a tariff is chosen', async () => {
    const battery = (values: WorkbookValues): unknown[] => [
      values.calculated.named('battery_sentence'),
      values.calculated.at(SHEETS.battery, `B${REAL_COST.tariff}`),
    ];
    const before = valuesOf(await smallMonth());
    const todays = places.findIndex((t) => nameOf(before, t) === String(before.inputs.todaysTariff));
    const rate = `${tariffLetters(todays)}44`;
    const dear = valuesOf(
      withCells(await smallMonth(), { [SHEETS.tariffs]: { [rate]: textCell(rate, 'dear') } }),
    );
    const lacks = `${nameOf(before, todays)} has no total (inputs that can’t be used, see its flags on Tariffs)`;
    expect(battery(dear)).toEqual([`${lacks}.`, `${lacks}.`]);

    const followed = nameOf(before, followsPrice(before));
    const looksAtIt = (inputs: WorkbookInputs): WorkbookInputs => ({
      ...inputs,
      battery: { ...inputs.battery, tariff: followed },
    });
    for (const [missing, words] of [
      [1, '1 half-hour without a price'],
      [1440, '1,440 half-hours without a price'],
    ] as const) {
      const values = workedOut(inputsOf(await smallMonth()), (inputs) => {
        const pricePence = inputs.readings.values.pricePence.slice().fill(Number.NaN, 0, missing);
        const readings = { ...inputs.readings, values: { ...inputs.readings.values, pricePence } };
        return looksAtIt({ ...inputs, readings });
      });
      const why = `${followed} has no total (${words})`;
      expect(battery(values)).toEqual([`${why}.`, `${why}.`]);
    }

    const none = workedOut(inputsOf(await smallMonth()), (inputs) => ({ ...inputs, todaysTariff: null }));
    expect(battery(none)).toEqual([
      'Choose a tariff to see what the battery changes.',
      'Choose a tariff above.',
    ]);
  });
});

describe('a period without readings', () => {
  /** Every formula of some columns that shows a figure, by its cell. */
  const figures = (values: WorkbookValues, sheet: string, columns: RegExp, [first, last]: [number, number]) =>
    shownFormulas(values, sheet).filter(([at, value]) => {
      const [, letters = '', row] = /^([A-Z]+)(\d+)$/.exec(at) ?? [];
      return (
        columns.test(letters) && first <= Number(row) && Number(row) <= last && typeof value === 'number'
      );
    });
  const chosen = (inputs: WorkbookInputs): WorkbookInputs => ({
    ...inputs,
    fromMonth: isoDateToSerial('2026-03-01'),
    toMonth: isoDateToSerial('2026-04-01'),
  });

  it.each([
    ['where the months chosen have none', async () => workedOut(inputsOf(await smallMonth()), chosen)],
    ['where there are none at all', async () => workedOut(inputsOf(await smallTemplate()))],
  ])('has no ranking, no totals, no bars and no dots %s', async (_, make) => {
    const values = await make();
    const { calculated } = values;
    expect(ranks(values)).toEqual(places.map(() => ''));
    expect(figures(values, SHEETS.answer, /^[A-H]$/, [8, 30])).toEqual([]);
    // All rows of results but the share of half-hours metered.
    expect(figures(values, SHEETS.tariffs, /^[C-J]$/, [TARIFF_ROW.total, TARIFF_ROW.coverage - 1])).toEqual(
      [],
    );
    expect(figures(values, SHEETS.tariffs, /^[C-J]$/, [TARIFF_ROW.coverage + 1, 20])).toEqual([]);
    const { first, last } = BATTERY_RESULTS;
    expect(figures(values, SHEETS.battery, /^[B-O]$/, [first, last])).toEqual([]);
    expect(figures(values, SHEETS.timers, /^[B-M]$/, [TIMER_TABLE.first, TIMER_TABLE.last])).toEqual([]);
    expect(figures(values, SHEETS.timers, /^[B-M]$/, [KWH_TABLE.first, KWH_TABLE.last])).toEqual([]);
    const bars = chartDataRows(values.book);
    expect(figures(values, SHEETS.chartData, /^[ABC]$/, [bars.first, bars.last])).toEqual([]);
    const dots = columnNumber(CHART_MONTHS.against(1));
    expect(
      calculated
        .column({
          sheet: SHEETS.chartData,
          column: dots,
          firstRow: FIRST_ROW,
          rows: values.book.shape.monthRows,
        })
        .filter((value) => typeof value === 'number'),
    ).toEqual([]);
    // No tariff lacks anything: it is told once that readings do.
    expect(calculated.named('no_total_words')).toBe('');
    expect(said(values)).toMatch(/readings/);
    const words = shownFormulas(values, SHEETS.chartData).filter(([at]) => /^B\d+$/.test(at));
    expect(
      words.filter(([at, value]) => typeof value === 'object' && Number(at.slice(1)) > bars.last),
    ).toEqual([]);
  });

  it('leaves what is told of other months: what energy really cost, month by month', async () => {
    const values = workedOut(inputsOf(await smallMonth()), chosen);
    const cost = (of: WorkbookValues): unknown => of.calculated.at(SHEETS.battery, `J${REAL_COST.first}`);
    expect(cost(values)).toBe(cost(workedOut(inputsOf(await smallMonth()))));
    expect(cost(values)).toBeGreaterThan(0);
  });
});

describe('two tariffs that cost the same', () => {
  it('tie, whichever stands first', async () => {
    const before = valuesOf(await smallMonth());
    const todays = places.findIndex((t) => nameOf(before, t) === String(before.inputs.todaysTariff));
    const others = places.filter((t) => t !== todays);
    // One of them has the inputs of today's, and so its cost; the rest are dear.
    const inputRows = tariffInputRanges(todays)
      .flatMap((range) => {
        const [first, last = first] = range.match(/\d+/g)!.map(Number);
        return Array.from({ length: last! - first! + 1 }, (_, i) => first! + i);
      })
      .filter((row) => row !== TARIFF_ROW.name);
    const copyOfToday = (row: number, at: string): string => {
      const value = before.calculated.at(SHEETS.tariffs, `${tariffLetters(todays)}${row}`);
      if (typeof value === 'number') return numberCell(at, value);
      return typeof value === 'string' && value !== '' ? textCell(at, value) : `<c r="${at}"/>`;
    };
    const cells = others.flatMap((t, i) => {
      const at = (row: number): string => `${tariffLetters(t)}${row}`;
      if (i > 0) return [[at(43), numberCell(at(43), 900)]];
      return inputRows.map((row) => [at(row), copyOfToday(row, at(row))]);
    });
    const values = valuesOf(withCells(await smallMonth(), { [SHEETS.tariffs]: Object.fromEntries(cells) }));
    const totals = others.map((t) => figure(values, t, TARIFF_ROW.total));
    expect(totals[0]).toBe(figure(values, todays, TARIFF_ROW.total));
    expect(said(values)).toContain(`is the cheapest at £`);
    expect(said(values)).toContain(`, as is ${nameOf(values, others[0]!)}.`);
    expect(said(values)).not.toContain('£0.00 less');
  });
});
