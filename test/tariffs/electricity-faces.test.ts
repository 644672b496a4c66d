import { expect, it } from 'vitest';
import { ELECTRICITY_FUNCTIONS } from '../../src/functions/electricity-functions.js';
import { describeWithCalc } from '../engines/availability.js';
import { recalculateWithCalc } from '../engines/libreoffice.js';
import { withFile } from '../engines/with-file.js';
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
    await withFile(laid.file, async (path) => expectFacesToAgree(laid, await recalculateWithCalc(path)));
  }, 60_000);
});
