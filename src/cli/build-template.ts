import { readUserFile } from '../read-user-file.js';
import { buildWorkbook } from '../workbook/build/build-workbook.js';
import { checkStart } from '../workbook/build/check-start.js';
import { parseStartingInputs } from '../workbook/inputs/parse-starting-inputs.js';
import { USUAL_DAYS } from '../workbook/layout.js';

/**
 * Builds the empty workbook.
 *
 * @param inputsPath JSON file with what its inputs hold
 * @param days calendar days that it holds
 * @returns bytes of the .xlsx file
 * @throws InputError when the inputs can't be read or are wrong
 */
export async function buildTemplate(inputsPath: string, days: number = USUAL_DAYS): Promise<Uint8Array> {
  const json = await readUserFile(inputsPath, 'Give the path of the starting inputs.');
  const start = parseStartingInputs(new TextDecoder().decode(json), inputsPath);
  checkStart(start, inputsPath);
  return buildWorkbook(start, days);
}
