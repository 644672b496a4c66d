import { expect, it } from 'vitest';
import { TIMER_FIELDS } from '../../src/workbook/fields/timer-fields.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { describeWithCalc } from '../engines/availability.js';
import { assertCellsEqual, compareCells } from '../engines/compare-cells.js';
import { startCalc } from '../engines/libreoffice.js';
import { readStoredWorkbook } from '../engines/stored-cells.js';
import { withFile } from '../engines/with-file.js';
import { smallMonth } from './small-month.js';

const FILE = 'home.xlsx';
const { car } = TIMER_FIELDS;

/** A month on whose nights the car takes more than its timer lets it. */
async function monthWithShortSessions(): Promise<Uint8Array> {
  const workbook = openWorkbookPackage(await smallMonth(), FILE);
  for (const [{ cell }, value] of [
    [car.isOn, 'yes'],
    [car.from, 5 / 24],
    [car.to, 6.5 / 24],
    [car.powerKw, 2.2],
  ] as const) {
    const { row, column } = cell.place;
    workbook.editSheet(SHEETS.timers, { inputs: [{ column, firstRow: row, values: [value] }] });
  }
  return fillWorkbook(workbook.toBytes(), FILE, undefined, { keepLeastCost: true }).bytes;
}

/** 1,234.50 and 1.234,50 alike; numbers that a text holds as words stay as they are. */
const withoutSeparators = (text: string): string => text.replace(/(?<=\d)[.,](?=\d)/g, '');

describeWithCalc('where numbers are written with a decimal comma', () => {
  it('LibreOffice works every formula out to the same number', async () => {
    const bytes = await monthWithShortSessions();
    const short = [
      ...(readStoredWorkbook(bytes)
        .sheets.find(({ name }) => name === SHEETS.timers)
        ?.cells() ?? []),
    ].find(({ ref }) => ref === 'K10');
    expect(short?.value).toBeGreaterThan(0);
    await withFile(bytes, async (path) => {
      const calc = await startCalc({ locale: 'de-DE' });
      try {
        const values = await (await calc.open(path)).readAll();
        const texts = [...(values.get(SHEETS.answer)?.cells() ?? [])].map(({ value }) => value);
        expect(texts.some((text) => /£\d+,\d\d/.test(String(text)))).toBe(true);
        assertCellsEqual(
          compareCells(bytes, { engine: 'LibreOffice, de-DE', values }, { ofText: withoutSeparators }),
          30_000,
        );
      } finally {
        await calc.stop();
      }
    });
  });
});
