import { expect, it } from 'vitest';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import { checkCounts } from '../shown-by-sheet.js';
import { imported, NOW, template } from '../template.js';

const CHECK = 'Readings of years whose clock changes are not known';

/** Whole days of half-hours from 00:00 UTC, with 0.1 kWh each. */
function csv(first: string, days: number): string {
  const start = Date.parse(`${first}T00:00:00Z`);
  const rows = Array.from({ length: days * 48 }, (_, i) => {
    const at = new Date(start + i * 1_800_000).toISOString().slice(0, 16);
    return `${at}Z,0.1`;
  });
  return `start,import kWh\n${rows.join('\n')}\n`;
}

it('readings from before the usual years bring their clock changes along', async () => {
  const filled = fillWorkbook(await template(), 'home.xlsx', imported({ 'old.csv': csv('2012-10-26', 5) }), {
    now: NOW,
  });
  const { calculated, inputs, book } = filled.values;
  const lengths = calculated.numbers(book.workings.calendar.length).subarray(0, 6);
  // 28 October 2012 has 50 half-hours in London; the first local day begins at 01:00 by summer time.
  expect([...lengths]).toEqual([48, 48, 50, 48, 48, 0]);
  expect(inputs.clock.coversFrom).toBeLessThan(41_208);
  expect(checkCounts(filled.values)[CHECK]).toBe(0);
  const again = verifyWorkbook(filled.bytes, 'home.xlsx');
  expect(again.agrees).toBe(true);
});
