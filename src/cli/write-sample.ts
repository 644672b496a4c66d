import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { sampleExtraMonthFiles, sampleFiles, sampleGasFiles } from '../sample/sample-files.js';
import { saveBeside } from '../workbook/package/index.js';
import { makeFolder } from './make-folder.js';
import { PATHS } from './paths.js';

/** Where the sample's files went. */
interface SamplePaths {
  /** What a workbook of that home starts with: tariffs, battery, heating (JSON). */
  inputs: string;
  /** The year of readings. */
  year: string[];
  /** One more month, to drop in. */
  extraMonth: string[];
  /** The gas meter of the year before. */
  gas: string[];
  /** Outdoor temperatures of that year, by day. */
  temperature: string[];
}

/**
 * Writes the files of the invented home.
 *
 * @param folder where they go; made if missing
 * @returns their paths
 * @throws InputError when they can't be written
 */
export async function writeSample(folder: string): Promise<SamplePaths> {
  const write = async (
    subfolder: string,
    files: readonly { name: string; text: string }[],
  ): Promise<string[]> => {
    const target = join(folder, subfolder);
    await makeFolder(target);
    const paths = files.map(({ name }) => join(target, name));
    for (const [i, { text }] of files.entries()) await saveBeside(paths[i]!, Buffer.from(text));
    return paths;
  };
  await makeFolder(folder);
  const inputs = join(folder, basename(PATHS.sampleInputs));
  await saveBeside(inputs, await readFile(PATHS.sampleInputs));
  const gasYear = await write('gas', sampleGasFiles());
  const isTemperature = (path: string): boolean => basename(path).includes('temperature');
  return {
    inputs,
    year: await write('year', sampleFiles()),
    extraMonth: await write('next-month', sampleExtraMonthFiles()),
    gas: gasYear.filter((path) => !isTemperature(path)),
    temperature: gasYear.filter(isTemperature),
  };
}
