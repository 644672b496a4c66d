import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { READING } from '../../src/workbook/model/columns.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { describeWithCalc, describeWithGnumeric } from '../engines/availability.js';
import type { EngineResult } from '../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../engines/gnumeric.js';
import { recalculateWithCalc } from '../engines/libreoffice.js';
import { smallMonth } from './small-month.js';

const ROWS = 31 * 48 + 2;
/** Rows in which a channel is blank. Row 500 is the first of export: its day ends with row 527. */
const BLANK = {
  exportKwh: [
    [0, 500],
    [520, 600],
  ],
  heatPumpKwh: [[700, 710]],
  carKwh: [[ROWS - 90, ROWS]],
} as const;
const LACKING = { Export: 600 - 528, 'Heat pump': 10, Car: 90 };

let folder: string;
let path: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'gaps-'));
  path = join(folder, 'home.xlsx');
  const workbook = openWorkbookPackage(await smallMonth(), 'home.xlsx');
  workbook.editSheet(SHEETS.readings, {
    inputs: (['exportKwh', 'heatPumpKwh', 'carKwh'] as const).flatMap((channel) =>
      BLANK[channel].map(([from, to]) => ({
        column: columnNumber(READING[channel]),
        firstRow: FIRST_ROW + from,
        values: Array.from({ length: to - from }, () => null),
      })),
    ),
  });
  await writeFile(path, workbook.toBytes());
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** What the checks of channels found, and their verdicts, by channel. */
function foundIn({ values }: EngineResult): Record<string, unknown> {
  const checks = values.get(SHEETS.checks)!;
  const rows = Array.from({ length: 120 }, (_, i) => i + 6);
  return Object.fromEntries(
    rows.flatMap((row) => {
      const [, channel] =
        /^(.+): half-hours with import that lack its reading/.exec(String(checks.get(`A${row}`)?.value)) ??
        [];
      return channel === undefined
        ? []
        : [[channel, [checks.get(`B${row}`)?.value, checks.get(`C${row}`)?.value]]];
    }),
  );
}
const expected = Object.fromEntries(
  Object.entries(LACKING).map(([channel, count]) => [channel, [count, 'note']]),
);

describeWithCalc('half-hours that lack the reading of a channel, in LibreOffice', () => {
  it('are counted as a note', async () => {
    expect(foundIn(await recalculateWithCalc(path))).toEqual(expected);
  });
});

describeWithGnumeric('half-hours that lack the reading of a channel, in Gnumeric', () => {
  it('are counted as a note', async () => {
    expect(foundIn(await recalculateWithGnumeric(path))).toEqual(expected);
  });
});
