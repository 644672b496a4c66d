import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { describeWithCalc } from './availability.js';
import { assertCellsEqual, compareCells } from './compare-cells.js';
import { type Calc, startCalc } from './libreoffice.js';
import { withChart } from './sample-chart.js';
import { sampleWorkbook } from './sample-workbook.js';

describeWithCalc('LibreOffice Calc driven from a test', () => {
  let calc: Calc;
  let folder: string;
  const file = (name: string) => join(folder, name);
  const write = async (name: string, change?: Parameters<typeof sampleWorkbook>[0]) => {
    writeFileSync(file(name), await sampleWorkbook(change));
    return file(name);
  };

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'engines-'));
    calc = await startCalc();
  });

  afterAll(async () => {
    await calc?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('agrees with stored numbers, texts, booleans, dates, errors and shared formulas', async () => {
    const path = await write('right.xlsx');
    const document = await calc.open(path);
    const comparison = compareCells(path, { engine: 'LibreOffice', values: await document.readAll() });
    assertCellsEqual(comparison, 57);
    expect(Object.fromEntries(comparison.bySheet)).toEqual({ 'Inputs & rates': 0, Results: 57 });
    await document.close();
  });

  it('finds each wrong or missing stored value and names its cell', async () => {
    const wrong = await write('wrong.xlsx', (workbook) => {
      const results = workbook.getWorksheet('Results')!;
      results.getCell('A1').value = { formula: 'UnitRate/3', result: (24.5 / 3) * (1 + 3e-9) };
      results.getCell('A2').value = { formula: '"a"&"b"', result: 'aB' };
      results.getCell('A3').value = { formula: 'TRUE', result: false };
      results.getCell('A5').value = { formula: '1/0', result: 0 };
      results.getCell('A8').value = { formula: 'UnitRate*2' } as never;
    });
    const document = await calc.open(wrong);
    const comparison = compareCells(wrong, { engine: 'LibreOffice', values: await document.readAll() });
    expect(comparison.mismatches.map(({ cell, stored, engine }) => [cell, stored, engine])).toEqual([
      ['A1', (24.5 / 3) * (1 + 3e-9), 24.5 / 3],
      ['A2', 'aB', 'ab'],
      ['A3', false, 1],
      ['A5', 0, '#DIV/0!'],
      ['A8', null, 49],
    ]);
    expect(() => assertCellsEqual(comparison)).toThrow('Results!A2: stored "aB", calculated "ab"');
    await document.close();
  });

  it('recalculates what depends on changed inputs', async () => {
    const document = await calc.open(await write('change.xlsx'));
    await document.setCells([
      { name: 'UnitRate', value: 30 },
      { sheet: 'Inputs & rates', cell: 'A2', value: null },
      { sheet: 'Inputs & rates', cell: 'A3', value: false },
    ]);
    const results = await document.readSheet('Results');
    expect(results.get('A1')).toMatchObject({ kind: 'number', value: 10, isFormula: true });
    expect(results.get('A2')).toMatchObject({ kind: 'text', value: 's' });
    expect(results.get('A3').value).toBe(1);
    expect(results.get('A6')).toMatchObject({ kind: 'text', value: '' });
    expect(results.get('C2')).toMatchObject({ kind: 'number', value: 2 / 7, isFormula: false });
    expect(results.get('Z99')).toMatchObject({ kind: 'blank', value: null });
    expect((await document.readSheet('Results', { range: 'C3:D3' })).numberAt(3, 4)).toBeCloseTo(
      (3 / 7) * 30 + 1 / 7,
      12,
    );
    await expect(document.setCells([{ name: 'NoSuchName', value: 1 }])).rejects.toThrow('NoSuchName');
    await expect(document.setCells([{ name: 'UnitRate', value: Number.NaN }])).rejects.toThrow('set to NaN');
    expect((await document.readSheet('Results')).get('A1').value).toBe(10);
    await document.close();
  });

  it('changes inputs on a protected sheet, locked or not, as a macro-free test needs to', async () => {
    const path = await write('protected.xlsx', async (workbook) => {
      await workbook.getWorksheet('Inputs & rates')!.protect('', { spinCount: 1 });
      await workbook.getWorksheet('Results')!.protect('', { spinCount: 1 });
    });
    const document = await calc.open(path);
    await document.setCells([{ name: 'UnitRate', value: 3 }]);
    expect((await document.readSheet('Results')).get('A1').value).toBe(1);
    await document.close();
  });

  it('reads formulas, names and sheets', async () => {
    const document = await calc.open(await write('texts.xlsx'));
    expect(await document.readFormulas('Results', 'D2:D3')).toEqual([
      { row: 2, column: 4, formula: '=C2*UnitRate+$C$1' },
      { row: 3, column: 4, formula: '=C3*UnitRate+$C$1' },
    ]);
    expect((await document.names()).map(({ name }) => name)).toEqual(['UnitRate']);
    expect(await document.sheets()).toEqual([
      { name: 'Inputs & rates', visible: true, rows: 4, columns: 1 },
      { name: 'Results', visible: true, rows: 50, columns: 4 },
    ]);
    await expect(document.readSheet('Nowhere')).rejects.toThrow('Inputs & rates, Results');
    await document.close();
  });

  it('saves what it calculated', async () => {
    const document = await calc.open(await write('before.xlsx'));
    await document.setCells([{ name: 'UnitRate', value: 7 }]);
    await document.saveAs(file('after.xlsx'), 'xlsx');
    const comparison = compareCells(file('after.xlsx'), {
      engine: 'LibreOffice',
      values: await document.readAll(),
    });
    expect(comparison.mismatches).toEqual([]);
    await document.close();
  });

  it('reads charts: titles, axes, ranges, alternative text, also from what LibreOffice saved', async () => {
    writeFileSync(file('chart.xlsx'), withChart(await sampleWorkbook()));
    const document = await calc.open(file('chart.xlsx'));
    expect(await document.charts('Inputs & rates')).toEqual([]);
    const [chart, ...others] = await document.charts('Results');
    expect(others).toEqual([]);
    expect(chart).toMatchObject({
      title: 'Cost by use',
      alternativeText: 'Cost rises with use',
      types: ['com.sun.star.chart2.ColumnChartType'],
      axisTitles: ['Use (kWh)', 'Cost (p)'],
      series: [
        {
          values: '$Results.$D$1:$D$5',
          categories: '$Results.$C$1:$C$5',
          label: '$Results.$A$2',
          labelText: 'peak <rate>s',
        },
      ],
    });
    for (const type of ['xlsx', 'ods'] as const) {
      await document.saveAs(file(`chart-saved.${type}`), type);
      const saved = await calc.open(file(`chart-saved.${type}`));
      expect((await saved.charts('Results'))[0]!.series).toEqual(chart!.series);
      await saved.close();
    }
    await document.close();
  });

  it('trusts the stored values where told never to recalculate on load', async () => {
    const path = await write('stale.xlsx', (workbook) => {
      workbook.getWorksheet('Results')!.getCell('A1').value = { formula: 'UnitRate/3', result: 99 };
    });
    const trusting = await startCalc({ recalculateOnLoad: 'never' });
    try {
      const document = await trusting.open(path);
      expect((await document.readSheet('Results')).get('A1').value).toBe(99);
      await document.recalculateAll();
      expect((await document.readSheet('Results')).get('A1').value).toBeCloseTo(24.5 / 3, 12);
    } finally {
      await trusting.stop();
    }
  });

  it('says what is wrong with a file that it cannot open, and goes on', async () => {
    writeFileSync(file('truncated.xlsx'), (await sampleWorkbook()).subarray(0, 2000));
    await expect(calc.open(file('missing.xlsx'))).rejects.toThrow('missing.xlsx: no such file');
    await expect(calc.open(file('truncated.xlsx'))).rejects.toThrow('truncated.xlsx');
    const document = await calc.open(await write('next.xlsx'));
    await document.close();
    expect(readdirSync(folder).filter((name) => name.startsWith('.~lock'))).toEqual([]);
  });

  it('leaves neither process nor profile behind, even after a time-out', async () => {
    const short = await startCalc();
    short.timeoutMs = 1;
    await expect(short.open(await write('slow.xlsx'))).rejects.toThrow('within 0.001 s');
    await short.stop();
    expect(existsSync(short.folder)).toBe(false);
    expect(() => process.kill(-short.officeProcess, 0)).toThrow();
    await expect(short.open(file('slow.xlsx'))).rejects.toThrow('stopped');
  });

  describe('after a request that took too long', () => {
    it('starts anew for the next workbook, and says of those that were open that they are gone', async () => {
      const path = await write('too-slow.xlsx');
      const own = await startCalc();
      try {
        const before = await own.open(path);
        const usualMs = own.timeoutMs;
        own.timeoutMs = 1;
        // Opening takes long enough on any machine; the limit grows with the load.
        await expect(own.open(path)).rejects.toThrow('within 0.001 s');
        own.timeoutMs = usualMs;
        const [ended, profile] = [own.officeProcess, own.folder];
        const after = await own.open(path);
        expect((await after.readSheet('Results')).get('A1').value).toBeCloseTo(24.5 / 3, 12);
        expect(own.officeProcess).not.toBe(ended);
        expect(() => process.kill(-ended, 0)).toThrow();
        expect(existsSync(profile)).toBe(false);
        await expect(before.sheets()).rejects.toThrow('open it again. LibreOffice gave no answer');
      } finally {
        await own.stop();
      }
      expect(existsSync(own.folder)).toBe(false);
    });

    it('opens several at once in one new process', async () => {
      const path = await write('at-once.xlsx');
      const own = await startCalc();
      try {
        const usualMs = own.timeoutMs;
        own.timeoutMs = 1;
        await expect(own.open(path)).rejects.toThrow('within 0.001 s');
        own.timeoutMs = usualMs;
        const documents = await Promise.all([own.open(path), own.open(path)]);
        for (const document of documents) expect((await document.sheets()).length).toBe(2);
      } finally {
        await own.stop();
      }
    });
  });

  it('starts anew after LibreOffice has crashed', async () => {
    const path = await write('crash.xlsx');
    const own = await startCalc();
    try {
      const before = await own.open(path);
      process.kill(-own.officeProcess, 'SIGKILL');
      await expect(before.recalculateAll()).rejects.toThrow('LibreOffice has ended');
      expect((await (await own.open(path)).sheets()).length).toBe(2);
    } finally {
      await own.stop();
    }
  });
});
