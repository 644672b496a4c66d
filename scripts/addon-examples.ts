import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { examplesWorkbook } from '../src/addons/examples/examples-workbook.js';
import { EXAMPLES_FILE, HOST_ADVICE, HOST_NAMES, type Host } from '../src/addons/examples/host-names.js';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { print } from '../src/cli/print.js';

const command = projectCommand(
  'addon:examples',
  'Builds a workbook of examples of every function for each spreadsheet program that has them.',
).action(async () => {
  for (const host of Object.keys(HOST_NAMES) as Host[]) {
    const folder = join('out', 'addons', 'examples', host);
    mkdirSync(folder, { recursive: true });
    const path = join(folder, EXAMPLES_FILE);
    writeFileSync(path, await examplesWorkbook(HOST_NAMES[host], HOST_ADVICE[host]));
    print(`${path}\n`);
  }
});
await runProjectCommand(command);
