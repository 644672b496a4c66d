import ExcelJS from 'exceljs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { calcAddon } from '../../src/addons/calc/calc-addon.js';
import { calcAddonFiles } from '../../src/addons/calc/calc-addon-files.js';
import { examplesWorkbook } from '../../src/addons/examples/examples-workbook.js';
import { HOST_ADVICE, HOST_NAMES } from '../../src/addons/examples/host-names.js';
import { excelAddonFiles } from '../../src/addons/excel/excel-addon-files.js';
import { LOCAL_URL } from '../../src/addons/excel/manifest.js';
import { sheetsAddonFiles } from '../../src/addons/sheets/sheets-addon-files.js';

const BUILDS: Record<string, () => Promise<unknown>> = {
  'Calc extension': calcAddon,
  'Excel add-in': () => excelAddonFiles(LOCAL_URL),
  'Apps Script project': () => sheetsAddonFiles('Europe/London'),
  'workbook of examples': () => examplesWorkbook(HOST_NAMES.calc, HOST_ADVICE.calc),
};

describe('the builds of the custom functions', () => {
  afterEach(() => {
    vi.useRealTimers();
  });

  it.each(Object.entries(BUILDS))('the %s has the same bytes on any day', async (_, build) => {
    vi.useFakeTimers({ toFake: ['Date'] });
    const built: string[] = [];
    for (const day of ['2026-05-01', '2027-11-30T13:45']) {
      vi.setSystemTime(new Date(day));
      built.push(JSON.stringify(await build(), (_, part) => (part instanceof Map ? [...part] : part)));
    }
    expect(built[1] === built[0]).toBe(true);
  });

  it('carry the library alone: no files, no spreadsheets, no network', async () => {
    const scripts = [
      (await calcAddonFiles()).get('library.cjs') as string,
      (await excelAddonFiles(LOCAL_URL)).get('functions.js') as string,
      (await sheetsAddonFiles('Europe/London')).get('Code.gs') as string,
    ];
    for (const script of scripts) {
      const required = [...script.matchAll(/\brequire\("([^"]+)"\)/g)].map(([, name]) => name);
      expect(required.every((name) => name === 'node:readline')).toBe(true);
      expect(script).not.toMatch(/\b(fetch|XMLHttpRequest|eval)\(/);
    }
  });
});

describe('the workbook of examples', () => {
  it('says of nothing that it agrees before a program with the functions has worked it out', async () => {
    const workbook = new ExcelJS.Workbook();
    await workbook.xlsx.load((await examplesWorkbook(HOST_NAMES.calc, HOST_ADVICE.calc)).buffer as never);
    const list = workbook.getWorksheet('Functions');
    expect(list?.getCell('A3').result).toMatch(/^Not worked out yet/);
    const agrees = list?.getColumn('F').values.map((_, row) => list.getCell(row, 6).result) ?? [];
    expect(agrees.filter((said) => said === 'not tried').length).toBeGreaterThan(50);
    expect(agrees).not.toContain('yes');
  });
});
