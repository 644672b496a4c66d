import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CALC_ADDON_FILE, calcAddon } from '../../src/addons/calc/calc-addon.js';
import { WHAT_IS_WRONG } from '../../src/addons/calc/functions-idl.js';
import {
  EXAMPLES_SHEET,
  exampleBlocks,
  examplesWorkbook,
} from '../../src/addons/examples/examples-workbook.js';
import { HOST_ADVICE, HOST_NAMES } from '../../src/addons/examples/host-names.js';
import { callFunction } from '../../src/addons/shared/call-function.js';
import { describedFunctions } from '../../src/functions/index.js';
import { describeWithCalc } from '../engines/availability.js';
import { type Calc, type CalcDocument, startCalc } from '../engines/libreoffice.js';
import { agree } from './agree.js';
import { SAMPLE_TARIFF_TABLE, sampleColumns } from './sample-columns.js';

const name = HOST_NAMES.calc.inFile;

describeWithCalc('the LibreOffice extension', () => {
  const folder = mkdtempSync(join(tmpdir(), 'calc-addon-'));
  // Node.js as the extension finds it: a link of our own, which a test can take away.
  const nodeLink = join(folder, 'node');
  let calc: Calc;

  beforeAll(async () => {
    chmodSync(folder, 0o755);
    const extension = join(folder, CALC_ADDON_FILE);
    writeFileSync(extension, await calcAddon());
    symlinkSync(process.execPath, nodeLink);
    calc = await startCalc({
      extensions: [extension],
      environment: { ...process.env, HOME_TARIFF_NODE: nodeLink, HOME_TARIFF_TIME_LIMIT: '8' },
    });
  }, 60_000);

  afterAll(async () => {
    await calc?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('starts no helper before a function is used', () => {
    expect(helperProcesses()).toEqual([]);
  });

  it('shows every function with its arguments and help in the function wizard', async () => {
    const names = [...describedFunctions.map(({ cellName }) => cellName), WHAT_IS_WRONG.cellName];
    const shown = await calc.functionHelp(names);
    expect(Object.keys(shown).sort()).toEqual([...names].sort());
    for (const { cellName, summary, arguments: described } of describedFunctions) {
      expect(shown[cellName]!.description).toContain(summary);
      expect(shown[cellName]!.arguments.map((argument) => argument.name)).toEqual(
        described.map((argument) => argument.name),
      );
      shown[cellName]!.arguments.forEach((argument, index) => {
        expect(argument.description).toContain(described[index]!.description);
      });
    }
  });

  it('gives the library’s value for every example of the workbook of examples', async () => {
    const document = await openBook(examplesWorkbook(HOST_NAMES.calc, HOST_ADVICE.calc));
    const sheet = await document.readSheet(EXAMPLES_SHEET);
    let compared = 0;
    for (const { described, result, expected } of exampleBlocks(HOST_NAMES.calc)) {
      expected.values.forEach((row, r) => {
        row.forEach((value, c) => {
          const cell = sheet.at(result.row + r, result.column + c);
          expect(cell.isFormula, described.cellName).toBe(true);
          expect(agree(cell.value, value), `${described.cellName}: ${cell.value}, not ${value}`).toBe(true);
          compared++;
        });
      });
    }
    console.info(`LibreOffice: ${compared} cells of ${describedFunctions.length} functions compared`);
    expect((await document.readSheet('Functions')).get('A3').value).toBe(
      `${describedFunctions.length} of ${describedFunctions.length} examples give the value to expect.`,
    );
    await document.close();
  });

  it('gives a year of half-hours as the library and the plain sums do', async () => {
    const year = sampleColumns();
    const rows = year.localStart.length;
    const formulas = [
      `SUM(${name('UNIT_RATES')}(A1:A${rows},E1:J3))`,
      `${name('TARIFF_ENERGY_COST')}(A1:A${rows},B1:B${rows},E1:J3)`,
      `${name('OFF_PEAK_KWH')}(A1:A${rows},B1:B${rows},E2,F2,G2)`,
      `${name('BATTERY_LEAST_COST')}(A1:A${rows},B1:B${rows},C1:C${rows},C1:C${rows},D1:D${rows},C1:C${rows},E5:E15)`,
      `SUM(B1:B${rows})`,
    ];
    const document = await openBook(
      bookOf((sheet) => {
        sheet.getColumn(1).values = year.localStart;
        sheet.getColumn(2).values = year.importKwh;
        sheet.getColumn(3).values = year.importKwh.map(() => 0);
        sheet.getColumn(4).values = year.unitRatePence;
        putTable(sheet, 1, 5, SAMPLE_TARIFF_TABLE);
        putTable(sheet, 5, 5, year.battery);
        formulas.forEach((formula, index) => {
          sheet.getCell(index + 1, 12).value = { formula, result: -1 } as ExcelJS.CellFormulaValue;
        });
      }),
    );
    const sheet = await document.readSheet('Sheet', { range: 'L1:L5' });
    const column = (values: readonly number[]) => values.map((value) => [value]);
    const [starts, kwh] = [column(year.localStart), column(year.importKwh)];
    const zeros = column(year.importKwh.map(() => 0));
    const window = SAMPLE_TARIFF_TABLE[1]!;
    const rates = callFunction('UNIT_RATES', [starts, SAMPLE_TARIFF_TABLE]) as number[][];
    const expected = [
      rates.reduce((sum, [rate]) => sum + rate!, 0),
      callFunction('TARIFF_ENERGY_COST', [starts, kwh, SAMPLE_TARIFF_TABLE]),
      callFunction('OFF_PEAK_KWH', [starts, kwh, window[0]!, window[1]!, window[2]!]),
      callFunction('BATTERY_LEAST_COST', [
        starts,
        kwh,
        zeros,
        zeros,
        column(year.unitRatePence),
        zeros,
        year.battery,
      ]),
      year.importKwh.reduce((sum, value) => sum + value, 0),
    ];
    expected.forEach((value, index) => {
      const cell = sheet.at(index + 1, 12);
      expect(agree(cell.value, value), `${formulas[index]}: ${cell.value}, not ${value}`).toBe(true);
    });
    const milliseconds = await document.setCells([{ sheet: 'Sheet', cell: 'H1', value: 31 }]);
    console.info(
      `LibreOffice: a year of ${rows} half-hours, rate changed, two array functions: ${milliseconds.toFixed(0)} ms`,
    );
    await document.close();
  });

  it('gives an error, never a number, for arguments that are wrong, and says which', async () => {
    const cases: [formula: string, message: string][] = [
      ['ADD_VAT("x",0.05)', 'amount is "x"'],
      ['ADD_VAT(100)', 'vatShare is blank'],
      ['UNIT_RATE("2026-01-01",B1:G2)', 'localTime is "2026-01-01"'],
      ['UNIT_RATE(A9,B1:G2)', 'localTime is blank'],
      ['UNIT_RATES(A1:A3,B1:G2)', 'localTimes is blank in row 3'],
      ['ENERGY_COST(A1:A2,A1:A3)', 'unitRatePence is blank in row 3'],
      ['ENERGY_COST(A1:A2,A1:A1)', 'kwh has 2 rows and unitRatePence has 1'],
      ['UNIT_RATE(46023,A1:A2)', 'tariffTable'],
    ];
    const document = await openBook(
      bookOf((sheet) => {
        putTable(sheet, 1, 1, [[46_023], [46_023.5]]);
        putTable(sheet, 1, 2, SAMPLE_TARIFF_TABLE.slice(0, 2));
        sheet.getCell('A12').value = {
          formula: '1/0',
          result: { error: '#DIV/0!' },
        } as ExcelJS.CellFormulaValue;
        cases.forEach(([formula], index) => {
          const [, called, args] = /^(\w+)\((.*)\)$/.exec(formula)!;
          const put = (column: number, text: string) => {
            sheet.getCell(20 + index, column).value = {
              formula: text,
              result: -1,
            } as ExcelJS.CellFormulaValue;
          };
          put(1, `${name(called!)}(${args})`);
          put(2, `${name(WHAT_IS_WRONG.cellName)}("${called}",${args})`);
          put(3, `SUM(${name(called!)}(${args}))`);
        });
        sheet.getCell('A40').value = {
          formula: `${name('ENERGY_COST')}(A11:A12,A11:A12)`,
          result: -1,
        } as ExcelJS.CellFormulaValue;
        sheet.getCell('A41').value = {
          formula: `${name(WHAT_IS_WRONG.cellName)}("ADD_VAT",100,0.05)`,
          result: '-',
        } as ExcelJS.CellFormulaValue;
      }),
    );
    const sheet = await document.readSheet('Sheet');
    cases.forEach(([formula, message], index) => {
      expect(sheet.at(20 + index, 1), formula).toMatchObject({ kind: 'error', value: 'Err:502' });
      expect(sheet.at(20 + index, 2).value, formula).toContain(message);
      expect(sheet.at(20 + index, 3).kind, formula).toBe('error');
    });
    expect(sheet.get('A40').kind).toBe('error');
    expect(sheet.get('A41').value).toBe('');
    await document.close();
  });

  it('goes on after its helper was killed between two calculations', async () => {
    const document = await openBook(vatBook());
    const [before] = helperProcesses();
    process.kill(before!, 'SIGKILL');
    await document.setCells([{ sheet: 'Sheet', cell: 'A1', value: 200 }]);
    expect((await document.readSheet('Sheet')).get('B1').value).toBe(210);
    expect(helperProcesses()).toHaveLength(1);
    expect(helperProcesses()).not.toContain(before);
    await document.close();
  });

  it('gives an error in time where its helper hangs', async () => {
    const document = await openBook(vatBook());
    const [helper] = helperProcesses();
    process.kill(helper!, 'SIGSTOP');
    const milliseconds = await document.setCells([{ sheet: 'Sheet', cell: 'A1', value: 300 }]);
    expect((await document.readSheet('Sheet')).get('B1')).toMatchObject({ kind: 'error' });
    expect(milliseconds).toBeLessThan(20_000);
    await document.setCells([{ sheet: 'Sheet', cell: 'A1', value: 400 }]);
    expect((await document.readSheet('Sheet')).get('B1').value).toBe(420);
    await document.close();
  }, 40_000);

  it('says in the cell that Node.js is missing, and works again once it is there', async () => {
    const document = await openBook(vatBook());
    unlinkSync(nodeLink);
    for (const helper of helperProcesses()) process.kill(helper, 'SIGKILL');
    await document.setCells([{ sheet: 'Sheet', cell: 'A1', value: 500 }]);
    const sheet = await document.readSheet('Sheet');
    expect(sheet.get('B1').value).toContain('Node.js is not at');
    expect(sheet.get('B2').value).toContain('Node.js is not at');
    symlinkSync(process.execPath, nodeLink);
    await new Promise((resolve) => setTimeout(resolve, 1100));
    await document.setCells([{ sheet: 'Sheet', cell: 'A1', value: 600 }]);
    expect((await document.readSheet('Sheet')).get('B1').value).toBe(630);
    await document.close();
  });

  it('leaves no process behind', async () => {
    expect(helperProcesses()).toHaveLength(1);
    await calc.stop();
    await expect.poll(helperProcesses, { timeout: 5000 }).toEqual([]);
  });

  async function openBook(bytes: Promise<Uint8Array>): Promise<CalcDocument> {
    const path = join(folder, 'book.xlsx');
    writeFileSync(path, await bytes);
    return calc.open(path);
  }

  /** Processes that run the library of this LibreOffice. */
  function helperProcesses(): number[] {
    return readdirSync('/proc')
      .filter((entry) => /^\d+$/.test(entry))
      .map(Number)
      .filter((process) => {
        try {
          const command = readFileSync(`/proc/${process}/cmdline`, 'utf8').split('\0');
          return command[1]?.startsWith(calc.folder) === true && command[1].endsWith('library.cjs');
        } catch {
          return false;
        }
      });
  }
});

/** A1: 100; B1: with VAT of 5 %; B2: a series' first value. */
function vatBook(): Promise<Uint8Array> {
  return bookOf((sheet) => {
    sheet.getCell('A1').value = 100;
    sheet.getCell('B1').value = {
      formula: `${name('ADD_VAT')}(A1,0.05)`,
      result: -1,
    } as ExcelJS.CellFormulaValue;
    sheet.getCell('B2').value = {
      formula: `INDEX(${name('UNIT_RATES')}(A1:A1,D1:I2),1,1)`,
      result: -1,
    } as ExcelJS.CellFormulaValue;
    putTable(sheet, 1, 4, SAMPLE_TARIFF_TABLE.slice(0, 2));
  });
}

async function bookOf(fill: (sheet: ExcelJS.Worksheet) => void): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  fill(workbook.addWorksheet('Sheet'));
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

function putTable(
  sheet: ExcelJS.Worksheet,
  row: number,
  column: number,
  table: readonly (readonly (number | string | boolean | null)[])[],
): void {
  table.forEach((cells, r) => {
    cells.forEach((value, c) => {
      if (value !== null) sheet.getCell(row + r, column + c).value = value;
    });
  });
}
