import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { renderSheets } from '../../scripts/lib/render-sheets.js';
import { describeWithPictures } from './availability.js';
import { type Calc, startCalc } from './libreoffice.js';
import { withChart } from './sample-chart.js';
import { sampleWorkbook } from './sample-workbook.js';

/** Width and height of a PNG in pixels. */
function sizeOf(path: string): [number, number] {
  const bytes = readFileSync(path);
  expect(bytes.toString('latin1', 1, 4)).toBe('PNG');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}

describeWithPictures('rendering the sheets of a workbook', () => {
  let folder: string;
  let path: string;
  let calc: Calc;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'pictures-'));
    path = join(folder, 'book.xlsx');
    const file = await sampleWorkbook((workbook) => {
      const long = workbook.addWorksheet('Half-hours');
      for (let row = 1; row <= 3000; row++) long.addRow([row, row / 2, row / 3]);
      // Of a sheet beside those that are drawn.
      workbook.worksheets[0]!.pageSetup.printArea = 'A$1:C$9';
      workbook.addWorksheet('Unseen', { state: 'hidden' }).getCell('A1').value = 'hidden';
    });
    writeFileSync(path, withChart(file));
    calc = await startCalc();
  }, 60_000);

  afterAll(async () => {
    await calc?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('names each picture after its sheet, and prints no more pages than asked for', async () => {
    const out = join(folder, 'print');
    const pictures = await renderSheets(path, out, {
      calc,
      pages: (sheet) => (sheet === 'Half-hours' ? 2 : 1),
    });
    const expected = ['Inputs-rates.png', 'Results.png', 'Half-hours.png', 'Half-hours-2.png'];
    expect(pictures.map(({ path: picture }) => basename(picture))).toEqual(expected);
    expect(readdirSync(out).sort()).toEqual([...expected].sort());
  });

  it('shows what a window shows, of hidden sheets too, chart and all', async () => {
    const view = { widthPixels: 1200, heightPixels: 500 };
    const draw = (name: string) =>
      renderSheets(path, join(folder, name), { calc, view, sheets: ['Results', 'Unseen'], dotsPerInch: 96 });
    const [results, unseen] = await draw('screen');
    expect(unseen!.sheet).toBe('Unseen');
    const [width, height] = sizeOf(results!.path);
    expect(Math.abs(width - 1200)).toBeLessThanOrEqual(1);
    expect(Math.abs(height - 500)).toBeLessThanOrEqual(1);
    writeFileSync(path, await sampleWorkbook((workbook) => workbook.addWorksheet('Unseen')));
    const [withoutChart] = await draw('no-chart');
    expect(statSync(results!.path).size).toBeGreaterThan(statSync(withoutChart!.path).size * 1.3);
  });
});
