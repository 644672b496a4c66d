import { InputError } from '../errors.js';
import { readFileInTheWay } from '../read-user-file.js';
import { isOurWorkbook } from '../workbook/inputs/read-inputs.js';

/**
 * The file that `--out` names and that a workbook may take the place of: a workbook of ours, or nothing.
 *
 * @param out path of the file
 * @returns its bytes; null where there is none
 * @throws InputError when another file is there, or a folder
 * @example await overwritable('new.xlsx') // null
 */
export async function overwritable(out: string): Promise<Uint8Array | null> {
  const bytes = await readFileInTheWay(out);
  // An empty file, as some programs make to hold a name, loses nothing.
  if (bytes === null || bytes.length === 0 || isOurWorkbook(bytes, out)) return bytes;
  throw new InputError(
    'there is a file of that name, and it is no home tariff workbook',
    'Name another one with --out, or move that file away first.',
    { file: out },
  );
}
