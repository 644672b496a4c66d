import { join } from 'node:path';
import { Command } from 'commander';
import { excelAddonFiles, MANIFEST_FILE } from '../src/addons/excel/excel-addon-files.js';
import { LOCAL_URL } from '../src/addons/excel/manifest.js';
import { writeFiles } from '../src/addons/shared/write-files.js';

const { url } = new Command('addon:excel')
  .description('Builds the Excel add-in: a folder to host over https, and the manifest to give to Excel.')
  .option('--url <address>', 'https address at which the folder will be hosted', LOCAL_URL)
  .parse()
  .opts<{ url: string }>();

const folder = join('out', 'addons', 'excel');
writeFiles(folder, await excelAddonFiles(url));
console.log(`${folder}: host it at ${url}, then give ${join(folder, MANIFEST_FILE)} to Excel.`);
