import { execFileSync } from 'node:child_process';
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
import { fileURLToPath } from 'node:url';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import type { CalcPrograms } from '../../scripts/lib/calc/find-calc.js';
import { CALC_ADDON_FILE, calcAddon } from '../../src/addons/calc/calc-addon.js';
import { calcAddonFiles } from '../../src/addons/calc/calc-addon-files.js';
import { WHAT_IS_WRONG } from '../../src/addons/calc/functions-idl.js';
import {
  EXAMPLES_SHEET,
  exampleBlocks,
  examplesWorkbook,
} from '../../src/addons/examples/examples-workbook.js';
import { HOST_ADVICE, HOST_NAMES } from '../../src/addons/examples/host-names.js';
import { callFunction } from '../../src/addons/shared/call-function.js';
import type { CellArgument } from '../../src/functions/described-function.js';
import { describedFunctions } from '../../src/functions/index.js';
import { describeWithCalc } from '../engines/availability.js';
import { type Calc, type CalcDocument, findCalc, startCalc } from '../engines/libreoffice.js';
import { agree } from './agree.js';
import { SAMPLE_TARIFF_TABLE, sampleColumns } from './sample-columns.js';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

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
  });

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

  it('gives a year of half-hours as the library and the native formulas do', async () => {
    const year = sampleColumns();
    const rows = year.localStart.length;
    const zeros = year.importKwh.map(() => 0);
    const [starts, kwh, rates, none] = [year.localStart, year.importKwh, year.unitRatePence, zeros].map(
      (values) => values.map((value) => [value]),
    );
    const [A, B, C, D] = ['A', 'B', 'C', 'D'].map((letter) => `$${letter}$1:$${letter}$${rows}`) as [
      string,
      string,
      string,
      string,
    ];
    const window = SAMPLE_TARIFF_TABLE[1]!;
    const inWindow = [window[0]!, window[1]!, window[2]!];
    const cases: [cellName: string, references: string[], args: CellArgument[]][] = [
      ['UNIT_RATES', [A, '$E$1:$J$3'], [starts!, SAMPLE_TARIFF_TABLE]],
      ['TARIFF_ENERGY_COST', [A, B, '$E$1:$J$3'], [starts!, kwh!, SAMPLE_TARIFF_TABLE]],
      ['ENERGY_COST', [B, C], [kwh!, rates!]],
      ['OFF_PEAK_KWH', [A, B, '$E$2', '$F$2', '$G$2'], [starts!, kwh!, ...inWindow]],
      ['OFF_PEAK_SHARE', [A, B, '$E$2', '$F$2', '$G$2'], [starts!, kwh!, ...inWindow]],
      ['EXPORT_CREDIT', [B, '$H$1'], [kwh!, SAMPLE_TARIFF_TABLE[0]![3]!]],
      [
        'BATTERY_COST',
        [A, B, D, D, C, D, '$E$5:$E$15'],
        [starts!, kwh!, none!, none!, rates!, none!, year.battery],
      ],
      [
        'BATTERY_LEAST_COST',
        [A, B, D, D, C, D, '$E$5:$E$15'],
        [starts!, kwh!, none!, none!, rates!, none!, year.battery],
      ],
    ];
    const described = cases.map(([cellName]) => describedFunctions.find((one) => one.cellName === cellName)!);
    const document = await openBook(
      bookOf((sheet) => {
        [year.localStart, year.importKwh, year.unitRatePence, zeros].forEach((values, index) => {
          sheet.getColumn(index + 1).values = values;
        });
        putTable(sheet, 1, 5, SAMPLE_TARIFF_TABLE);
        putTable(sheet, 5, 5, year.battery);
        cases.forEach(([cellName, references], index) => {
          const put = (column: number, formula: string) => {
            sheet.getCell(index + 1, column).value = { formula, result: -1 } as ExcelJS.CellFormulaValue;
          };
          const custom = `${name(cellName)}(${references.join(',')})`;
          put(12, described[index]!.result.shape === 'cell' ? custom : `SUM(${custom})`);
          const native = described[index]!.formula;
          if (native !== undefined) put(13, native(references));
        });
      }),
    );
    const sheet = await document.readSheet('Sheet', { range: `L1:M${cases.length}` });
    let natives = 0;
    cases.forEach(([cellName, , args], index) => {
      const result = callFunction(cellName, args);
      const expected = Array.isArray(result) ? result.reduce((sum: number, row) => sum + row[0], 0) : result;
      const custom = sheet.at(index + 1, 12).value;
      expect(agree(custom, expected), `${cellName}: ${custom}, not ${expected}`).toBe(true);
      if (described[index]!.formula === undefined) return;
      const native = sheet.at(index + 1, 13).value;
      expect(agree(native, expected), `${cellName}: natively ${native}, not ${expected}`).toBe(true);
      natives++;
    });
    expect(natives).toBeGreaterThanOrEqual(4);
    const milliseconds = await document.setCells([{ sheet: 'Sheet', cell: 'H1', value: 31 }]);
    console.info(
      `LibreOffice: ${rows} half-hours, a rate changed, UNIT_RATES and TARIFF_ENERGY_COST together: ${milliseconds.toFixed(0)} ms`,
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
  });

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

it('the library that Node.js runs answers a line that it cannot read, and the next one', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'answer-lines-'));
  try {
    const script = join(folder, 'library.cjs');
    writeFileSync(script, (await calcAddonFiles()).get('library.cjs')!);
    const input = '{"id":1,"args":[NaN]}\n{"id":2,"name":"ADD_VAT","args":[100,0.05]}\n';
    const answers = execFileSync(process.execPath, [script], { input, encoding: 'utf8' }).trim().split('\n');
    expect(answers.map((line) => JSON.parse(line)).slice(1)).toEqual([
      { id: null, failed: 'the request cannot be read' },
      { id: 2, value: 105 },
    ]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

describeWithCalc('the extension’s way to Node.js', () => {
  const helperFolder = fileURLToPath(new URL('../../src/addons/calc/pythonpath', import.meta.url));
  const folder = mkdtempSync(join(tmpdir(), 'node-search-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is the stated path, else PATH, else the usual places, else a message that says what to do', () => {
    const node = executable('node', '');
    const find = (environment: object, places: string[] = []) =>
      python(`print(h.find_node(${JSON.stringify(environment)}, ${JSON.stringify(places)}))`);
    expect(find({ HOME_TARIFF_NODE: node, PATH: '' })).toBe(node);
    expect(find({ PATH: folder })).toBe(node);
    expect(find({ PATH: '' }, ['/no/node', node])).toBe(node);
    expect(find({ PATH: '' })).toMatch(/^NodeMissing: These functions need Node.js, and it was not found/);
    expect(find({ PATH: folder, HOME_TARIFF_NODE: '/no/node' })).toMatch(
      /^NodeMissing: Node.js is not at \/no\/node/,
    );
  });

  it('refuses a Node.js that is too old, and one that cannot run the library', () => {
    const call = (node: string) => {
      const environment = `os.environ["HOME_TARIFF_NODE"] = ${JSON.stringify(node)}`;
      return python(`${environment}; print(h.Helper("library.cjs").call("ADD_VAT", [1, 0.05]))`);
    };
    expect(call(executable('old', 'echo \'{"ready":"18.19.0"}\'; cat'))).toContain(
      'is Node.js 18.19.0, too old',
    );
    expect(call(executable('broken', 'echo "SyntaxError: no" >&2; exit 1'))).toContain(
      'cannot run these functions: SyntaxError: no',
    );
  });

  it('goes on where a cell holds what is no number', async () => {
    const script = join(folder, 'library.cjs');
    writeFileSync(script, (await calcAddonFiles()).get('library.cjs')!);
    const call = (value: string): string =>
      python(`print(h.Helper(${JSON.stringify(script)}).call(${value}))`);
    for (const cell of ['nan', 'inf', '-inf']) {
      expect(call(`"ADD_VAT", [float("${cell}"), 0.05]`)).toMatch(/^WrongInput: .*"no number"/);
      expect(call(`"ENERGY_COST", [((float("${cell}"),),), ((1.0,),)]`)).toMatch(
        /^(WrongInput|HelperFailed): (?!.*ended)/,
      );
    }
  });

  function executable(file: string, script: string): string {
    const path = join(folder, file);
    writeFileSync(path, `#!/bin/sh\n${script}\n`, { mode: 0o755 });
    return path;
  }

  function python(statement: string): string {
    const program = [
      'import os, sys',
      `sys.path.insert(0, ${JSON.stringify(helperFolder)})`,
      'sys.dont_write_bytecode = True',
      'import home_tariff_helper as h',
      'try:',
      `    ${statement}`,
      'except Exception as problem:',
      '    print(f"{type(problem).__name__}: {problem}")',
    ];
    return execFileSync((findCalc() as CalcPrograms).python, ['-c', program.join('\n')], {
      encoding: 'utf8',
    }).trim();
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
