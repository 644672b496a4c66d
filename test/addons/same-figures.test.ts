import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { createContext, runInContext } from 'node:vm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { calcAddonFiles } from '../../src/addons/calc/calc-addon-files.js';
import { excelFunctionId } from '../../src/addons/excel/functions-metadata.js';
import { excelFunctionsScript } from '../../src/addons/excel/functions-script.js';
import { callFunction } from '../../src/addons/shared/call-function.js';
import { SHEETS_SCRIPT, sheetsAddonFiles } from '../../src/addons/sheets/sheets-addon-files.js';
import { roundMoney } from '../../src/charges/round-money.js';
import type { CellArgument, CellScalar } from '../../src/functions/described-function.js';
import type { Tariff } from '../../src/tariffs/tariff.js';
import { tariffToTable } from '../../src/tariffs/tariff-table.js';
import type { Column } from '../../src/workbook/book/terms.js';
import { checkInputs } from '../../src/workbook/inputs/check-inputs.js';
import { BLOCK_ROWS } from '../../src/workbook/layout.js';
import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';
import { filledYear } from '../workbook/sample-workbooks.js';
import { agree } from './agree.js';
import { sampleColumns } from './sample-columns.js';

type Call = (cellName: string, args: readonly CellArgument[]) => Promise<unknown>;
type Rows = readonly (readonly CellScalar[])[];

const column = (values: ArrayLike<number>): Rows => Array.from(values, (value) => [value]);
const sum = (values: ArrayLike<number>): number =>
  Array.from(values).reduce((total, value) => total + value, 0);

describe('the sample year in the three builds', () => {
  const folder = mkdtempSync(join(tmpdir(), 'same-figures-'));
  const builds = new Map<string, Call>();
  let helper: ChildProcess | undefined;

  beforeAll(async () => {
    const sheets = createContext({});
    runInContext((await sheetsAddonFiles('Europe/London')).get(SHEETS_SCRIPT) as string, sheets);
    builds.set('Google Sheets', async (cellName, args) => sheets[cellName](...args));

    const registered = new Map<string, (...args: unknown[]) => unknown>();
    const CustomFunctions = { associate: registered.set.bind(registered) };
    runInContext(await excelFunctionsScript(), createContext({ CustomFunctions }));
    builds.set('Excel', async (cellName, args) => registered.get(excelFunctionId(cellName))!(...args));

    const script = join(folder, 'library.cjs');
    writeFileSync(script, (await calcAddonFiles()).get('library.cjs')!);
    builds.set('Calc', helperCall(script));
  }, 60_000);

  afterAll(() => {
    helper?.stdin?.end();
    rmSync(folder, { recursive: true, force: true });
  });

  it('costs on every tariff of the workbook what the workbook says', async () => {
    const { inputs, book, calculated } = verifyWorkbook(await filledYear(), 'home.xlsx').values;
    const { halfHours, calendar, months, tariffs } = book.workings;
    const metered = calculated
      .column(halfHours.readingRow)
      .flatMap((row, i) => (typeof row === 'number' && row > 0 ? [i] : []));
    const ofMetered = (of: Column): Float64Array => {
      const values = calculated.numbers(of);
      return Float64Array.from(metered, (i) => values[i] ?? 0);
    };
    const starts = ofMetered(halfHours.start);
    const kwh = ofMetered(halfHours.importKwh);
    const [firstDay, lastDay] = [calendar.firstDay, calendar.lastDay].map(
      (line) => calculated.of(line) as number,
    );
    const monthStarts = calculated.column(months.start).filter((start) => typeof start === 'number');
    expect(monthStarts).toHaveLength(12);
    const sumOf = (of: Column): number => sum(calculated.numbers(of));
    let compared = 0;
    for (const [index, tariff] of checkInputs(inputs, 'home.xlsx').entries()) {
      if (tariff === undefined || !fitsATable(tariff)) continue;
      const table = tariffToTable(tariff);
      const workbook = tariffs[index]!;
      const day = calculated.numbers(workbook.days.at);
      const grid = calculated.numbers(workbook.rates.grid);
      const unitRates = metered.map(
        (i) => grid[(day[Math.floor(i / BLOCK_ROWS)] ?? 1) - 1 + (i % BLOCK_ROWS)] ?? 0,
      );
      for (const [host, call] of builds) {
        const what = `${host}, ${tariff.name}`;
        const rates = (await call('UNIT_RATES', [column(starts), table])) as number[][];
        expectSameRates(rates, unitRates, what);
        const energy = await call('TARIFF_ENERGY_COST', [column(starts), column(kwh), table]);
        expectAgree(energy, sumOf(workbook.energy.energyPence) / 100, what);
        // The workbook bills the standing charge month by month.
        const billed = calculated.numbers(workbook.months.standing);
        for (const [m, start] of monthStarts.entries()) {
          const last = Math.min(lastDay!, (monthStarts[m + 1] ?? Number.POSITIVE_INFINITY) - 1);
          const standing = await call('TARIFF_STANDING_CHARGE', [Math.max(firstDay!, start), last, table]);
          expectAgree(roundMoney(standing as number), billed[m]!, `${what}, month ${m + 1}`);
        }
        const [window] = tariff.windows;
        if (tariff.windows.length === 1 && window !== undefined) {
          const [from, to, days] = table[1]!;
          const offPeak = await call('OFF_PEAK_KWH', [column(starts), column(kwh), from!, to!, days!]);
          expectAgree(offPeak, sumOf(workbook.energy.offPeakKwh), what);
        }
        compared++;
      }
    }
    expect(compared).toBeGreaterThanOrEqual(6);
    console.info(
      `${compared} pairs of build and tariff agree with the workbook over ${starts.length} half-hours`,
    );
  }, 120_000);

  it('has the battery schedules that the library has, to the last digit', async () => {
    const { localStart, importKwh, unitRatePence, battery } = sampleColumns();
    const zeros = column(importKwh.map(() => 0));
    const args = [column(localStart), column(importKwh), zeros, zeros, column(unitRatePence), zeros, battery];
    for (const cellName of [
      'BATTERY_SCHEDULE',
      'BATTERY_LEAST_COST_SCHEDULE',
      'BATTERY_COST',
      'BATTERY_LEAST_COST',
    ]) {
      const expected = JSON.stringify(callFunction(cellName, args));
      for (const [host, call] of builds) {
        expect(JSON.stringify(await call(cellName, args)) === expected, `${host}, ${cellName}`).toBe(true);
      }
    }
  }, 60_000);

  /** Calls the Calc extension's helper as the extension does. */
  function helperCall(script: string): Call {
    helper = spawn(process.execPath, [script], { stdio: ['pipe', 'pipe', 'inherit'] });
    const lines = createInterface({ input: helper.stdout! })[Symbol.asyncIterator]();
    let id = 0;
    const ready = lines.next();
    return async (name, args) => {
      await ready;
      id++;
      helper!.stdin!.write(`${JSON.stringify({ id, name, args })}\n`);
      const answer = JSON.parse((await lines.next()).value!) as { id: number; value?: unknown };
      expect(answer).toMatchObject({ id, value: expect.anything() });
      return answer.value;
    };
  }
});

/** A typed table says nothing of UTC windows, VAT to be added or half-hourly prices. */
function fitsATable({ clock, includesVat, halfHourlyPriced }: Tariff): boolean {
  return clock === 'local' && includesVat && !halfHourlyPriced;
}

function expectSameRates(rates: number[][], unitRates: readonly number[], what: string): void {
  const differing = rates.findIndex(([rate], row) => !agree(rate, unitRates[row]!));
  expect(differing, `${what}: first row with another rate`).toBe(-1);
}

function expectAgree(found: unknown, expected: number, what: string): void {
  expect(agree(found as CellScalar, expected), `${what}: ${found}, the workbook says ${expected}`).toBe(true);
}
