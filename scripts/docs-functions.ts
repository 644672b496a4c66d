import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { projectPath } from '../src/cli/paths.js';
import { print } from '../src/cli/print.js';
import { saveBeside } from '../src/workbook/package/index.js';
import { FUNCTIONS_PAGE_PATH, functionsPage } from './lib/docs/functions-page.js';

const command = projectCommand(
  'docs:functions',
  'Writes the page of all public functions from their descriptions.',
).action(async () => {
  await saveBeside(FUNCTIONS_PAGE_PATH, Buffer.from(functionsPage()));
  print(`${projectPath(FUNCTIONS_PAGE_PATH)}\n`);
});
await runProjectCommand(command);
