import { expect, it } from 'vitest';
import { readStoredWorkbook } from '../engines/stored-cells.js';
import { livedInMonth } from './template.js';

it('keeps no space at the ends of a word: a program that saves the workbook drops it, and the value would differ', async () => {
  const found = readStoredWorkbook(await livedInMonth()).sheets.flatMap(({ name, cells }) =>
    [...cells()]
      .filter(({ formula, value }) => formula && typeof value === 'string' && value !== value.trim())
      .map(({ ref, value }) => `${name}!${ref}: "${value}"`),
  );
  expect(found).toEqual([]);
});
