import { readFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { buildTemplate } from '../src/cli/build-template.js';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { makeFolder } from '../src/cli/make-folder.js';
import { PATHS, projectPathOption } from '../src/cli/paths.js';
import { Progress } from '../src/cli/progress.js';
import { saveBeside } from '../src/workbook/package/index.js';

const command = projectCommand('build', 'Builds the empty workbook from the starting inputs.')
  .addOption(projectPathOption('--inputs <file>', 'starting inputs (JSON)', PATHS.startingInputs))
  .addOption(projectPathOption('--out <file>', 'where the workbook goes', PATHS.template))
  .action(async ({ inputs, out }: { inputs: string; out: string }) => {
    const progress = new Progress();
    progress.begin('building the workbook');
    const bytes = await buildTemplate(inputs);
    await makeFolder(dirname(out));
    const before = await readFile(out).catch(() => undefined);
    const same = before !== undefined && Buffer.compare(before, bytes) === 0;
    if (!same) await saveBeside(out, bytes);
    progress.end();
    process.stdout.write(`${out}${same ? ' is current' : ''}\n`);
  });
await runProjectCommand(command);
