import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { addCharts } from '../../../src/workbook/charts/add-charts.js';
import { checkPackage } from '../../../src/workbook/charts/check-package.js';
import { type ReadChart, readCharts } from '../../../src/workbook/charts/read-charts.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { demoCharts, demoValues, demoWorkbook } from './demo-workbook.js';

const folder = mkdtempSync(join(tmpdir(), 'charts-'));
const original = join(folder, 'demo.xlsx');
const charted = addCharts(await demoWorkbook(), demoCharts, demoValues);
writeFileSync(original, charted);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What must survive another program's save. Programs number the series of a mixed chart anew, so order is left out. */
function essence(charts: ReadChart[]) {
  return charts.map(({ sheet, kind, series }) => ({
    sheet,
    kind,
    series: series.map(({ name, categories, values }) => `${name} ${categories} ${values}`).sort(),
  }));
}

function survives(saved: () => Uint8Array): void {
  it('keeps every chart, its kind and its ranges', () => {
    expect(essence(readCharts(saved()))).toEqual(essence(readCharts(charted)));
  });

  it('keeps typed titles', () => {
    const typed = (charts: ReadChart[]) => charts.slice(1).map(({ title }) => title);
    expect(typed(readCharts(saved()))).toEqual(typed(readCharts(charted)));
  });

  it('saves a package that takes more charts', () => {
    const more = addCharts(saved(), demoCharts.slice(3, 5));
    expect(readCharts(more)).toHaveLength(demoCharts.length + 2);
    expect(checkPackage(more)).toEqual([]);
  });
}

describeWithCalc('charts saved by LibreOffice', () => {
  const out = join(folder, 'calc');
  beforeAll(() => {
    const profile = `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`;
    execFileSync('soffice', ['--headless', profile, '--convert-to', 'xlsx', '--outdir', out, original], {
      stdio: 'ignore',
    });
  }, 60_000);
  survives(() => readFileSync(join(out, 'demo.xlsx')));
});

describeWithGnumeric('charts saved by Gnumeric', () => {
  const out = join(folder, 'gnumeric.xlsx');
  beforeAll(() => {
    execFileSync('ssconvert', [original, out], { stdio: 'ignore' });
  }, 60_000);
  survives(() => readFileSync(out));
});
