import { readFileSync } from 'node:fs';
import { PATHS, projectPath } from './paths.js';

/** From where the commands are called, and what follows from that where the user names no path. */
export interface Surroundings {
  /** JSON file with what a new workbook starts with, and what the help says of it. */
  startingInputs: { path: string; shown: string };
  /** Where a new workbook goes. */
  newWorkbook: string;
  /** Whether a new workbook may take the place of the one that is there, under its usual name. */
  replacesWorkbook: boolean;
  /** Folder of the sample home's files. */
  sample: string;
  /** How a command is called, for messages: `npm run build`. */
  callOf: (command: string) => string;
}

/** The project's own folder: the template is built into it, and can be built anew at any time. */
export const IN_PROJECT: Surroundings = {
  startingInputs: { path: PATHS.startingInputs, shown: projectPath(PATHS.startingInputs) },
  newWorkbook: PATHS.template,
  replacesWorkbook: true,
  sample: PATHS.sample,
  callOf: (command) => `npm run ${command}`,
};

/** Name of the installed program. */
export const PROGRAM = 'home-tariff';

/** Installed as a package: starting inputs come with it, and files go where the user stands. */
export const INSTALLED: Surroundings = {
  startingInputs: { path: PATHS.startingInputs, shown: "the package's own" },
  newWorkbook: 'home-tariff-workbook.xlsx',
  // It may hold a year of somebody's readings by now.
  replacesWorkbook: false,
  sample: 'home-tariff-sample',
  callOf: (command) => `${PROGRAM} ${command}`,
};

/**
 * The version of this package.
 *
 * @returns for example `0.1.0`
 */
export function packageVersion(): string {
  const { version } = JSON.parse(readFileSync(PATHS.packageJson, 'utf8')) as { version: string };
  return version;
}
