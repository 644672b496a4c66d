import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { CALC_ADDON_FILE, calcAddon } from '../src/addons/calc/calc-addon.js';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { print } from '../src/cli/print.js';

const command = projectCommand(
  'addon:calc',
  'Builds the extension with the functions for LibreOffice Calc.',
).action(async () => {
  const folder = join('out', 'addons', 'calc');
  mkdirSync(folder, { recursive: true });
  const path = join(folder, CALC_ADDON_FILE);
  writeFileSync(path, await calcAddon());
  print(`${path}: open it with LibreOffice, or: unopkg add ${path}\n`);
});
await runProjectCommand(command);
