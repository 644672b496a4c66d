import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { formatComparison } from '../../../src/cli/format-comparison.js';
import type { Column, Line } from '../../../src/workbook/book/terms.js';
import {
  hasName,
  type TariffCells,
  type WorkbookInputs,
} from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { batterySpan } from '../../../src/workbook/model/battery/battery-span.js';
import { TARIFF_ROW as T, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

let home: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  home = inputsOf(await smallMonth());
});

/** What is drawn: how dear each tariff is, which is today's, what leaving it costs, how large the battery is. */
const stateArbitrary = fc.record({
  dearer: fc.array(fc.constantFrom(0.5, 0.8, 0.9, 1, 1.1, 1.5), { minLength: 6, maxLength: 6 }),
  today: fc.integer({ min: 0, max: 5 }),
  // The third has the second's prices: they tie.
  alike: fc.boolean(),
  exitFee: fc.constantFrom<number | null>(null, 0, 5, 60, 500),
  usableKwh: fc.constantFrom<number | null>(null, 0, 3, 9.5, -1),
});
type State = typeof stateArbitrary extends fc.Arbitrary<infer Of> ? Of : never;

const scaled = (tariff: TariffCells, by: number): TariffCells => ({
  ...tariff,
  periods: tariff.periods.map((period) => ({
    ...period,
    standing: typeof period.standing === 'number' ? period.standing * by : period.standing,
    base: typeof period.base === 'number' ? period.base * by : period.base,
    windowRates: period.windowRates.map((rate) => (typeof rate === 'number' ? rate * by : rate)),
  })),
});

const changed =
  ({ dearer, today, alike, exitFee, usableKwh }: State) =>
  (inputs: WorkbookInputs): WorkbookInputs => {
    const own = inputs.tariffs.map((tariff, t) => ({
      ...scaled(tariff, dearer[t] ?? 1),
      exitFee,
    }));
    const [, second] = own;
    if (second === undefined) throw new Error('no tariff');
    const tariffs = own.map((tariff, t) => (alike && t === 2 ? { ...second, name: tariff.name } : tariff));
    return {
      ...inputs,
      tariffs,
      todaysTariff: tariffs[today]?.name ?? null,
      battery: { ...inputs.battery, usableKwh },
    };
  };

const pounds = (text: string | undefined): number => Number(text?.replace(/[£,]/g, ''));
const said = ({ calculated }: WorkbookValues): string => String(calculated.named('answer_sentence'));
const isOdd = 'which the sentence does not have';

/** What the sentence says, word for word. */
function readSentence(sentence: string) {
  const [, period, world, rest = ''] =
    /^(Oct 2026, rates as they were)(, with the battery)?: (.+)$/.exec(sentence) ?? [];
  if (period === undefined) throw new Error(`no period: ${sentence}`);
  const stays =
    /^(.+), today’s tariff, is the cheapest at (£[\d,.]+)(?:, as is (.+)|, (£[\d,.]+) less than (.+))?\.$/.exec(
      rest,
    );
  if (stays !== null) {
    const [, cheapest, total, tie, lead, second] = stays;
    return { world, kind: 'stay' as const, cheapest, total: pounds(total), tie, lead: pounds(lead), second };
  }
  const leaves =
    /^(.+) would have cost (£[\d,.]+), (£[\d,.]+) less than today’s tariff (.+) \((£[\d,.]+)\)(?:; with the exit fee of (£[\d,.]+), (?:(£[\d,.]+) (less|more)|(the same)) over these 31 days)?\.$/.exec(
      rest,
    );
  if (leaves === null) throw new Error(`${isOdd}: ${rest}`);
  const [, cheapest, total, saves, today, todays, fee, after, direction, same] = leaves;
  return {
    world,
    kind: 'leave' as const,
    cheapest,
    total: pounds(total),
    saves: pounds(saves),
    today,
    todays: pounds(todays),
    fee: fee === undefined ? 0 : pounds(fee),
    after:
      fee === undefined
        ? pounds(saves)
        : same === undefined
          ? pounds(after) * (direction === 'less' ? 1 : -1)
          : 0,
  };
}

/** The totals of one world, from the months. */
function totalsOf({ inputs, book, calculated }: WorkbookValues, withBattery: boolean): Map<string, number> {
  const { tariffs, months } = book.workings;
  const period = (column: Column): number => {
    const line = months.period.get(column) as Line;
    return Number(calculated.of(line));
  };
  return new Map(
    inputs.tariffs.flatMap(({ name }, t): [string, number][] => {
      const of = tariffs[t];
      if (!hasName(name) || of === undefined) return [];
      return [[String(name), period(withBattery ? of.batteryMonths.total : of.months.total)]];
    }),
  );
}

describe('the headline', () => {
  it('tells one world, in any state: sentence, ranking and differences say the same', () => {
    const kinds = new Set<string>();
    fc.assert(
      fc.property(stateArbitrary, (state) => {
        const values = workedOut(home, changed(state));
        const { calculated } = values;
        const read = readSentence(said(values));
        const withBattery = (state.usableKwh ?? 0) > 0;
        kinds.add(`${read.kind} ${withBattery}`);
        expect(read.world !== undefined).toBe(withBattery);
        const totals = totalsOf(values, withBattery);
        const today = String(values.inputs.todaysTariff);
        const [lowest, next = Number.NaN] = [...totals.values()].sort((a, b) => a - b);
        expect(read.total).toBeCloseTo(lowest ?? Number.NaN, 6);
        expect(totals.get(String(read.cheapest))).toBeCloseTo(read.total, 6);
        const answer = (at: string): unknown => calculated.at(SHEETS.answer, at);
        if (read.kind === 'stay') {
          expect(read.cheapest).toBe(today);
          if (read.tie !== undefined) expect(totals.get(read.tie)).toBeCloseTo(read.total, 6);
          else {
            expect(read.total + read.lead).toBeCloseTo(next, 6);
            expect(totals.get(String(read.second))).toBeCloseTo(next, 6);
          }
        } else {
          expect(read.today).toBe(today);
          expect(totals.get(today)).toBeCloseTo(read.todays, 6);
          expect(read.todays - read.saves).toBeCloseTo(read.total, 6);
          // The exit fee is told where there is one, and is part of what the switch saves.
          expect(read.fee).toBe(state.exitFee ?? 0);
          expect(read.after).toBeCloseTo(read.saves - read.fee, 6);
          // The sheet ranks the same first, and has the same differences.
          expect(answer('B8')).toBe(read.cheapest);
          expect(answer('D8')).toBeCloseTo(-read.saves, 6);
          expect(answer('H19')).toBeCloseTo(-read.after, 6);
        }
        expect(answer('C8')).toBeCloseTo(read.total, 6);
        values.inputs.tariffs.forEach(({ name }, t) => {
          if (!hasName(name)) return;
          const cell = (row: number): unknown => calculated.at(SHEETS.tariffs, `${tariffLetters(t)}${row}`);
          expect(cell(T.total)).toBeCloseTo(totals.get(String(name)) ?? Number.NaN, 6);
          // What a total is made of is of the same world.
          const parts = [T.energy, T.standing, T.exportCredit].map((row) => Number(cell(row)));
          expect((parts[0] ?? 0) + (parts[1] ?? 0) - (parts[2] ?? 0)).toBeCloseTo(Number(cell(T.total)), 6);
          // The other world stands beside, where there is one.
          if (withBattery) {
            expect(cell(T.withoutBattery)).toBeCloseTo(
              totalsOf(values, false).get(String(name)) ?? Number.NaN,
              6,
            );
          } else expect([cell(T.withoutBattery), cell(T.batterySaving)]).toEqual(['', '']);
        });
      }),
      {
        seed: 31,
        numRuns: 16,
        examples: [
          [{ dearer: [1, 1, 1, 1, 1, 1], today: 5, alike: true, exitFee: 60, usableKwh: 9.5 }],
          [{ dearer: [1, 0.5, 1, 1, 1, 1], today: 1, alike: true, exitFee: 60, usableKwh: 0 }],
          [{ dearer: [1, 0.5, 1, 1, 1, 1], today: 2, alike: true, exitFee: 60, usableKwh: 3 }],
        ],
      },
    );
    expect([...kinds].sort()).toEqual(['leave false', 'leave true', 'stay false', 'stay true']);
  });

  it('speaks of no battery where none is entered, although one was metered', () => {
    for (const usableKwh of [0, null]) {
      const values = workedOut(home, (inputs) => ({ ...inputs, battery: { ...inputs.battery, usableKwh } }));
      const sheets = workbookModel(values.inputs, values.book).filter(({ name }) => name === SHEETS.answer);
      const texts = sheets.flatMap(({ name, cells }) =>
        cells
          // The link to the sheet of that name stays.
          .filter(({ style }) => style !== 'link')
          .map((cell) =>
            String((cell.kind === 'formula' ? values.calculated.at(name, cell.at) : cell.value) ?? ''),
          )
          // So do the cautions for all homes.
          .filter((text) => !text.startsWith('Work on wiring, ')),
      );
      expect(texts.length).toBeGreaterThan(150);
      expect(texts.filter((text) => /batter/i.test(text))).toEqual([]);
      expect(formatComparison(values)).not.toMatch(/batter/i);
      const chart = values.calculated.column({ sheet: SHEETS.chartData, column: 1, firstRow: 1, rows: 40 });
      expect(chart.filter((text) => /batter/i.test(String(text)))).toEqual([]);
    }
  });

  it('counts what is bought with the battery for the all-in cost', () => {
    const values = workedOut(home);
    const { calculated, book } = values;
    const { realCost, looked, tariffs, halfHours } = book.workings;
    const place = Number(calculated.of(looked)) - 1;
    const bought = [halfHours.importKwh, realCost.importChangeKwh]
      .flatMap((column) => [...calculated.numbers(column)])
      .reduce((sum, kwh) => sum + kwh, 0);
    const span = batterySpan(book).tariffs[place];
    if (span === undefined || tariffs[place] === undefined) throw new Error('no tariff is looked at');
    expect(calculated.of(span.importKwh)).toBeCloseTo(bought, 6);
    const cell = (row: number): number =>
      Number(calculated.at(SHEETS.tariffs, `${tariffLetters(place)}${row}`));
    expect(cell(T.allIn)).toBeCloseTo(((cell(T.energy) + cell(T.standing)) * 100) / bought, 6);
  });

  it.each([
    [31, 'over these 31 days'],
    [363, 'over these 363 days'],
    [364, 'in the first year'],
    [366, 'in the first year'],
    [367, 'over these 367 days'],
  ])('sets the exit fee against %s days: %s', (days, words) => {
    const state = { dearer: [1.5, 1, 1, 1, 1, 1], today: 0, alike: false, exitFee: 60, usableKwh: 0 };
    const values = workedOut(home, changed(state as State));
    const line = values.book.workings.months.period.get(values.book.workings.months.days);
    if (line === undefined) throw new Error('no days');
    values.calculated.type(line.place, days);
    expect(said(values)).toContain('with the exit fee of £60.00, ');
    expect(said(values)).toContain(` ${words}.`);
  });
});
