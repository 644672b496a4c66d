import { describe, expect, it } from 'vitest';
import { SheetBuilder } from '../../src/workbook/book/sheet-builder.js';
import { f, here, named, up } from '../../src/workbook/book/terms.js';
import { namesOfParts } from '../../src/workbook/calculate.js';

const sheet = new SheetBuilder('Days');
const kwh = sheet.numbers('kWh', 'kWh', 'Counts', 3, (row) => row, 'day_kwh');

describe('a name for a part of formulas', () => {
  it('says from the first row what moves with the row of the formula', () => {
    expect([...namesOfParts([f`1+${named('twice', f`${kwh}*2`)}`, f`${here(kwh, 2)}`])]).toEqual([
      ['twice', 'Days!$A1*2'],
      ['day_kwh_here', 'INDEX(day_kwh,2)'],
    ]);
  });

  it('stands for one thing', () => {
    expect(() => namesOfParts([named('twice', f`${kwh}*2`), named('twice', f`${kwh}*3`)])).toThrow(
      'the name twice stands for Days!$A1*2 and for Days!$A1*3',
    );
  });

  it('can’t look at rows above its own: LibreOffice reads no row above the first from a name', () => {
    expect(() => namesOfParts([named('before', f`${up(kwh)}`)])).toThrow(
      'kWh is asked for above the first row',
    );
  });
});
