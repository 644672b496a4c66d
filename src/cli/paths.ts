import { relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Option } from 'commander';

const root = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Files and folders of the project. */
export const PATHS = {
  startingInputs: root('workbook-template/starting-inputs.json'),
  template: root('workbook-template/home-tariff-workbook.xlsx'),
  out: root('out'),
  pictures: root('workbook-template/pictures'),
  sample: root('out/sample'),
  filled: root('out/home-tariff-workbook.xlsx'),
} as const;

/**
 * A path as seen from the project's folder.
 *
 * @param path absolute, inside the project
 * @returns for example `out/sample`
 */
export const projectPath = (path: string): string => relative(root('.'), path).split(sep).join('/');

/**
 * An option that holds a path of the project where the user gives none. The help shows that path from the
 * project's folder, so that its lines are as short in a deep folder as anywhere.
 *
 * @param flags the option's flags, for example `--out <file>`
 * @param description what it is for
 * @param path its value where it is not given, absolute and inside the project
 * @returns the option
 */
export function projectPathOption(flags: string, description: string, path: string): Option {
  return new Option(flags, description).default(path, projectPath(path));
}
