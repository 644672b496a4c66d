import {
  importFiles,
  importGasFiles,
  importTemperatureFiles,
  type SourcedReadings,
} from '../../src/readings/index.js';
import { sampleFiles, sampleGasFiles } from '../../src/sample/sample-files.js';
import { parseCell } from '../../src/workbook/cell-address.js';
import { type FillOptions, fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { type InputValue, openWorkbookPackage } from '../../src/workbook/package/index.js';
import { keptFile, sourceKey } from './kept-file.js';
import { NOW, template, ZONE } from './template.js';

/** The sample year as imported from its files. */
export function sampleReadings(): SourcedReadings {
  return importFiles(
    sampleFiles().map(({ name, text }) => ({ name, bytes: Buffer.from(text) })),
    { timeZone: ZONE },
  );
}

/** Last year's gas and temperatures of the sample home, as imported from its files. */
export function sampleGas(): Required<Pick<FillOptions, 'gas' | 'temperature'>> {
  const [meter, temperatures] = sampleGasFiles().map(({ name, text }) => ({
    name,
    bytes: Buffer.from(text),
  }));
  return {
    gas: importGasFiles([meter!], { timeZone: ZONE }).periods,
    temperature: importTemperatureFiles([temperatures!], { timeZone: ZONE }),
  };
}

/** The template with the sample year in it, readings, gas and temperatures. */
export function filledYear(): Promise<Uint8Array> {
  return keptFile(
    'year.xlsx',
    sourceKey(),
    async () =>
      fillWorkbook(await template(), 'home.xlsx', sampleReadings(), { ...sampleGas(), now: NOW }).bytes,
  );
}

/** An input typed by the user. */
export interface TypedInput {
  sheet: string;
  cell: string;
  value: InputValue;
}

/** A workbook with inputs typed in and every formula's value worked out anew by the library; what only
 * a fill can work out stays and goes stale, as in a spreadsheet program. */
export function withTyped(bytes: Uint8Array, typed: readonly TypedInput[]): Uint8Array {
  const workbook = openWorkbookPackage(bytes, 'home.xlsx');
  for (const { sheet, cell, value } of typed) {
    const { row, column } = parseCell(cell);
    const { changedInputs } = workbook.editSheet(sheet, {
      inputs: [{ column, firstRow: row, values: [value] }],
    });
    if (changedInputs === 0)
      throw new Error(`${sheet}!${cell} holds that already: the change would prove nothing`);
  }
  return fillWorkbook(workbook.toBytes(), 'home.xlsx', undefined, { keepLeastCost: true }).bytes;
}
