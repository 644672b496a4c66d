import { copyFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { Argument } from 'commander';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { makeFolder } from '../src/cli/make-folder.js';
import { PATHS, projectPath, projectPathOption } from '../src/cli/paths.js';
import { print } from '../src/cli/print.js';
import { Progress } from '../src/cli/progress.js';
import { readUserFile } from '../src/read-user-file.js';
import { openWorkbookPackage } from '../src/workbook/package/index.js';
import { startCalc } from './lib/calc/start-calc.js';
import { renderSheets } from './lib/render-sheets.js';

/** What a spreadsheet program shows of a sheet on a screen of 1366 × 768. */
const FIRST_SCREEN = { widthPixels: 1340, heightPixels: 560 };
/** Pictures that the README shows, by sheet. */
const README_PICTURES = new Map([
  ['Answer', 'answer.png'],
  ['Tariffs', 'tariffs.png'],
]);

const command = projectCommand(
  'pictures',
  'Renders every sheet of a filled workbook to PNG with LibreOffice.',
)
  .addArgument(new Argument('[file]', 'the workbook').default(PATHS.filled, projectPath(PATHS.filled)))
  .addOption(projectPathOption('--out <folder>', 'where the pictures go', join(PATHS.out, 'pictures')))
  .option('--print', 'the first printed page of each sheet instead of its first screen')
  .option('--readme', 'renew the pictures that the README shows')
  .action(async (file: string, options: { out: string; print?: boolean; readme?: boolean }) => {
    openWorkbookPackage(await readUserFile(file, 'Give the path of a filled workbook.'), file);
    const progress = new Progress();
    await makeFolder(options.out);
    progress.begin('starting LibreOffice');
    const calc = await startCalc();
    try {
      const pictures = await renderSheets(file, options.out, {
        calc,
        view: options.print === true ? 'print' : FIRST_SCREEN,
        onProgress: (sheet) => progress.begin(sheet),
      });
      progress.end();
      for (const { sheet, path } of pictures) {
        print(`${path}\n`);
        const readmeName = README_PICTURES.get(sheet);
        if (options.readme !== true || readmeName === undefined) continue;
        await makeFolder(PATHS.pictures);
        await copyFile(path, join(PATHS.pictures, basename(readmeName)));
      }
    } finally {
      await calc.stop();
    }
  });
await runProjectCommand(command);
