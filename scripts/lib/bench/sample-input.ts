import { type ImportedReadings, type InputFile, importFiles } from '../../../src/readings/index.js';
import { sampleFiles } from '../../../src/sample/sample-files.js';

const ZONE = 'Europe/London';

/** The sample year as files. */
export function sampleInput(): InputFile[] {
  return sampleFiles().map(({ name, text }) => ({ name, bytes: Buffer.from(text) }));
}

/** The sample year's readings. */
export function sampleReadings(): ImportedReadings {
  return importFiles(sampleInput(), { timeZone: ZONE });
}

/** A year of import and export as one file, one row a half-hour. */
export function meterYear(): InputFile {
  const quarters = sampleFiles().filter(({ name }) => name.startsWith('meter-'));
  const [header] = quarters[0]!.text.split('\n');
  const rows = quarters.map(({ text }) => text.slice(text.indexOf('\n') + 1));
  return { name: 'meter.csv', bytes: Buffer.from(`${header}\n${rows.join('')}`) };
}

/** Imports one file of the sample home. */
export function importOne(file: InputFile): ImportedReadings {
  return importFiles([file], { timeZone: ZONE });
}
