import { join } from 'node:path';
import { InvalidArgumentError } from 'commander';
import { excelAddonFiles, MANIFEST_FILE } from '../src/addons/excel/excel-addon-files.js';
import { isHostAddress, LOCAL_URL } from '../src/addons/excel/manifest.js';
import { writeFiles } from '../src/addons/shared/write-files.js';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { print } from '../src/cli/print.js';

const command = projectCommand(
  'addon:excel',
  'Builds the Excel add-in: a folder to host over https, and the manifest to give to Excel.',
)
  .option('--url <address>', 'https address at which the folder will be hosted', hostAddress, LOCAL_URL)
  .action(async ({ url }: { url: string }) => {
    const folder = join('out', 'addons', 'excel');
    writeFiles(folder, await excelAddonFiles(url));
    print(`${folder}: host it at ${url}, then give ${join(folder, MANIFEST_FILE)} to Excel.\n`);
  });
await runProjectCommand(command);

function hostAddress(text: string): string {
  if (isHostAddress(text)) return text;
  throw new InvalidArgumentError(
    'Give an address such as https://your.host/folder, without a slash at its end.',
  );
}
