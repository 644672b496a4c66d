import { isAbsolute, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Option } from 'commander';

// Two folders up both from the sources (src/cli) and from what is compiled of them (dist/cli).
const root = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Files and folders of the project. */
export const PATHS = {
  packageJson: root('package.json'),
  startingInputs: root('workbook-template/starting-inputs.json'),
  sampleInputs: root('src/sample/starting-inputs.json'),
  template: root('workbook-template/home-tariff-workbook.xlsx'),
  out: root('out'),
  pictures: root('workbook-template/pictures'),
  sample: root('out/sample'),
  filled: root('out/home-tariff-workbook.xlsx'),
} as const;

/**
 * A path as the help shows it.
 *
 * @param path absolute and inside the project, or as seen from the user's folder
 * @returns an absolute path as seen from the project's folder, for example `out/sample`; another one as it is
 */
export const projectPath = (path: string): string =>
  isAbsolute(path) ? relative(root('.'), path).split(sep).join('/') : path;

/**
 * An option that holds a path where the user gives none. The help shows a path of the project from the
 * project's folder, so that its lines are as short in a deep folder as anywhere.
 *
 * @param flags the option's flags, for example `--out <file>`
 * @param description what it is for
 * @param path its value where it is not given: absolute and inside the project, or as seen from the user's folder
 * @returns the option
 */
export function projectPathOption(flags: string, description: string, path: string): Option {
  return new Option(flags, description).default(path, projectPath(path));
}
