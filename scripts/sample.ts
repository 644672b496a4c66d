import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { PATHS, projectPathOption } from '../src/cli/paths.js';
import { writeSample } from '../src/cli/write-sample.js';

const command = projectCommand(
  'sample',
  'Writes the files of an invented home: a year of readings, one more month, a year of gas and temperatures.',
)
  .addOption(projectPathOption('--out <folder>', 'where the files go', PATHS.sample))
  .action(async ({ out }: { out: string }) => {
    const paths = await writeSample(out);
    for (const path of [...paths.year, ...paths.extraMonth, ...paths.gas, ...paths.temperature])
      process.stdout.write(`${path}\n`);
  });
await runProjectCommand(command);
