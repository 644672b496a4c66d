import { join } from 'node:path';
import { excelAddonFiles, MANIFEST_FILE } from '../src/addons/excel/excel-addon-files.js';
import { localCertificate } from '../src/addons/excel/local-certificate.js';
import { LOCAL_URL } from '../src/addons/excel/manifest.js';
import { serveFiles } from '../src/addons/excel/serve-files.js';
import { writeFiles } from '../src/addons/shared/write-files.js';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { print } from '../src/cli/print.js';

const command = projectCommand(
  'addon:excel:serve',
  'Builds the Excel add-in and serves it over https to this computer, for sideloading. Ctrl+C ends it.',
).action(async () => {
  const files = await excelAddonFiles(LOCAL_URL);
  const folder = join('out', 'addons', 'excel');
  writeFiles(folder, files);
  const certificate = await localCertificate(join('out', 'addons', 'certificate'));
  await serveFiles(files, certificate, Number(new URL(LOCAL_URL).port));
  print(`Serving ${LOCAL_URL} to this computer until Ctrl+C.
1. Once: trust ${certificate.certificatePath} (for localhost only, until ${certificate.validTo.toISOString().slice(0, 10)}).
2. Give ${join(folder, MANIFEST_FILE)} to Excel. README.md, "Custom functions", says how for each.
`);
});
await runProjectCommand(command);
