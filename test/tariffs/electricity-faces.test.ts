import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ELECTRICITY_FUNCTIONS } from '../../src/functions/electricity-functions.js';
import { describeWithCalc } from '../engines/availability.js';
import { startCalc } from '../engines/libreoffice.js';
import { describeTwoFaces, expectFacesToAgree, layOutFaces } from '../functions/two-faces.js';
import { electricityArguments } from './arbitraries.js';

// Inside SUMPRODUCT, LibreOffice evaluates INT, LEN and SUBSTITUTE row by row; Gnumeric does so only in formulas
// entered as arrays, and IronCalc says that it can't.
const ROW_BY_ROW = ['unitRateAt', 'offPeakKwh', 'offPeakShare'];

const rowByRow = ELECTRICITY_FUNCTIONS.filter(({ name }) => ROW_BY_ROW.includes(name));

it('has argument lists for every electricity function', () => {
  expect(ELECTRICITY_FUNCTIONS.map(({ name }) => name).sort()).toEqual(
    Object.keys(electricityArguments).sort(),
  );
});

describeTwoFaces(
  'electricity functions',
  ELECTRICITY_FUNCTIONS.filter(({ name }) => !ROW_BY_ROW.includes(name)),
  electricityArguments,
);

describeWithCalc('electricity functions that look at a table row by row', () => {
  it('agree with their formula in LibreOffice', async () => {
    const laid = await layOutFaces(rowByRow, electricityArguments, { casesEach: 150 });
    const folder = mkdtempSync(join(tmpdir(), 'row-by-row-'));
    const calc = await startCalc();
    try {
      const path = join(folder, 'faces.xlsx');
      writeFileSync(path, laid.file);
      const document = await calc.open(path);
      expectFacesToAgree(laid, { engine: 'LibreOffice', values: await document.readAll() });
    } finally {
      await calc.stop();
      rmSync(folder, { recursive: true, force: true });
    }
  }, 60_000);
});
