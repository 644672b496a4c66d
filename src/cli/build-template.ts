import { InputError, refuse } from '../errors.js';
import { readUserFile } from '../read-user-file.js';
import { type BytesKind, kindOfBytes } from '../readings/kind-of-bytes.js';
import { buildWorkbook } from '../workbook/build/build-workbook.js';
import { faultsOfStart } from '../workbook/build/check-start.js';
import { inspectStartingInputs } from '../workbook/inputs/parse-starting-inputs.js';
import { USUAL_DAYS } from '../workbook/layout.js';

/** Files that are no text, in words. */
const OTHER_FILES: Readonly<Record<BytesKind, string | undefined>> = {
  zip: 'a workbook or a zip file',
  compound: 'an old or protected workbook',
  pdf: 'a PDF',
  gzip: 'a packed file',
  picture: 'a picture',
  other: undefined,
};

/**
 * Builds the empty workbook.
 *
 * @param inputsPath JSON file with what its inputs hold
 * @param days calendar days that it holds
 * @returns bytes of the .xlsx file
 * @throws InputError when the inputs can't be read or are wrong; InputErrors where several things are
 */
export async function buildTemplate(inputsPath: string, days: number = USUAL_DAYS): Promise<Uint8Array> {
  const whatToDo = 'Give the path of the starting inputs.';
  const json = await readUserFile(inputsPath, whatToDo);
  const kind = OTHER_FILES[kindOfBytes(json)];
  if (kind !== undefined) {
    throw new InputError(`this is ${kind}, not JSON`, whatToDo, { file: inputsPath });
  }
  const { start, faults, isTold } = inspectStartingInputs(new TextDecoder().decode(json), inputsPath);
  refuse([...faults, ...faultsOfStart(start, inputsPath).filter((fault) => !isTold(fault))]);
  return buildWorkbook(start, days);
}
