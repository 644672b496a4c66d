import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { PATHS } from '../../src/cli/paths.js';
import { checkPackage } from '../../src/workbook/charts/check-package.js';
import { readCharts } from '../../src/workbook/charts/read-charts.js';
import { USUAL_DAYS } from '../../src/workbook/layout.js';
import { declareBook } from '../../src/workbook/model/book.js';
import { workbookCharts } from '../../src/workbook/model/workbook-charts.js';
import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';

const megabytes = (bytes: Uint8Array): number => bytes.length / 1e6;

describe('the built workbook', () => {
  it('is the one that is committed, byte for byte', async () => {
    const built = await buildTemplate(PATHS.startingInputs);
    const committed = await readFile(PATHS.template);
    expect(Buffer.compare(committed, built), 'run npm run build and commit the workbook').toBe(0);
  });

  it('is the same when it is built again', async () => {
    const [first, second] = [
      await buildTemplate(PATHS.startingInputs),
      await buildTemplate(PATHS.startingInputs),
    ];
    expect(Buffer.compare(first, second)).toBe(0);
  });

  it('is a sound package: no orphan part, no dangling relationship', async () => {
    expect(checkPackage(await readFile(PATHS.template))).toEqual([]);
  });

  it('holds every chart of the model', async () => {
    const titles = readCharts(await readFile(PATHS.template)).map(({ title }) => title);
    const wanted = workbookCharts(declareBook(USUAL_DAYS), { currency: '£', minorUnit: 'p' }).map(
      ({ title }) => title,
    );
    expect(titles.sort()).toEqual(wanted.sort());
  });

  it('agrees with the library in every formula and value', async () => {
    const verification = verifyWorkbook(await readFile(PATHS.template), PATHS.template);
    expect(verification.agrees).toBe(true);
    expect(verification.compared).toBeGreaterThan(300_000);
  });

  it('is small enough to send by mail', async () => {
    expect(megabytes(await readFile(PATHS.template))).toBeLessThan(7);
  });
});
