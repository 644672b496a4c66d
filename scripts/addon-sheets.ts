import { join } from 'node:path';
import { Command } from 'commander';
import { writeFiles } from '../src/addons/shared/write-files.js';
import { SHEETS_SCRIPT, sheetsAddonFiles } from '../src/addons/sheets/sheets-addon-files.js';

const { timeZone } = new Command('addon:sheets')
  .description('Builds the Apps Script project for Google Sheets.')
  .option('--time-zone <name>', 'time zone of the spreadsheet, IANA name', 'Europe/London')
  .parse()
  .opts<{ timeZone: string }>();

const folder = join('out', 'addons', 'sheets');
writeFiles(folder, await sheetsAddonFiles(timeZone));
console.log(
  `${folder}: paste ${SHEETS_SCRIPT} into the script editor of your spreadsheet (Extensions, Apps Script) and save. Time zone: ${timeZone}.`,
);
