import { join } from 'node:path';
import { writeFiles } from '../src/addons/shared/write-files.js';
import { SHEETS_SCRIPT, sheetsAddonFiles } from '../src/addons/sheets/sheets-addon-files.js';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { print } from '../src/cli/print.js';
import { assertTimeZone } from '../src/time/zone-clock.js';

const command = projectCommand('addon:sheets', 'Builds the Apps Script project for Google Sheets.')
  .option('--time-zone <name>', 'time zone of the spreadsheet, IANA name', 'Europe/London')
  .action(async ({ timeZone }: { timeZone: string }) => {
    assertTimeZone(timeZone, { line: '--time-zone' });
    const folder = join('out', 'addons', 'sheets');
    writeFiles(folder, await sheetsAddonFiles(timeZone));
    print(
      `${folder}: paste ${SHEETS_SCRIPT} into the script editor of your spreadsheet (Extensions, Apps Script) and save. Time zone: ${timeZone}.\n`,
    );
  });
await runProjectCommand(command);
