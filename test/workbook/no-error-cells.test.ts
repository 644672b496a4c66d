import { describe, expect, it } from 'vitest';
import { SHEETS } from '../../src/workbook/layout.js';
import { readStoredWorkbook } from '../engines/stored-cells.js';
import { smallMonth } from './small-month.js';
import { livedInMonth } from './template.js';

/** Cells that show an error; on the sheet of charts a point that is not there has to be one. */
function errorCells(bytes: Uint8Array): string[] {
  return readStoredWorkbook(bytes).sheets.flatMap(({ name, cells }) =>
    [...cells()].flatMap(({ ref, kind, value }) =>
      kind === 'error' && !(name === SHEETS.chartData && value === '#N/A')
        ? [`${name}!${ref}: ${value}`]
        : [],
    ),
  );
}

describe('no cell holds an error, be it one that no figure looks at', () => {
  it('in a month with days to spare', async () => {
    expect(errorCells(await smallMonth())).toEqual([]);
  });

  it('in a workbook that was lived in', async () => {
    expect(errorCells(await livedInMonth())).toEqual([]);
  });
});
