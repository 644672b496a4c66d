import { dirname } from 'node:path';
import { type Command, Option } from 'commander';
import { InputError } from '../../errors.js';
import { readFileInTheWay } from '../../read-user-file.js';
import { USUAL_DAYS } from '../../workbook/layout.js';
import { saveBeside } from '../../workbook/package/index.js';
import { buildTemplate } from '../build-template.js';
import { projectCommand } from '../command.js';
import { daysOption } from '../days-option.js';
import { makeFolder } from '../make-folder.js';
import { projectPathOption } from '../paths.js';
import { print } from '../print.js';
import { Progress } from '../progress.js';
import type { Surroundings } from '../surroundings.js';

/**
 * The command that builds an empty workbook.
 *
 * @param surroundings from where it is called
 * @returns the command, ready to parse
 */
export function buildCommand(surroundings: Surroundings): Command {
  const { startingInputs, newWorkbook, replacesWorkbook } = surroundings;
  return projectCommand(
    'build',
    'Builds a workbook without readings from the starting inputs; nothing is typed into the usual ones.',
  )
    .addOption(
      new Option('--inputs <file>', 'starting inputs (JSON)').default(
        startingInputs.path,
        startingInputs.shown,
      ),
    )
    .addOption(projectPathOption('--out <file>', 'where the workbook goes', newWorkbook))
    .addOption(daysOption().default(USUAL_DAYS))
    .action(async ({ inputs, out, days }: { inputs: string; out: string; days: number }) => {
      const before = await readFileInTheWay(out);
      if (before !== null && !(replacesWorkbook && out === newWorkbook)) {
        throw new InputError(
          'there is a file of that name',
          'Name a new one with --out, or move the old one away first.',
          { file: out },
        );
      }
      const progress = new Progress();
      progress.begin('building the workbook');
      const bytes = await buildTemplate(inputs, days);
      await makeFolder(dirname(out));
      const same = before !== null && Buffer.compare(before, bytes) === 0;
      if (!same) await saveBeside(out, bytes, { replaces: before });
      progress.end();
      print(`${out}${same ? ' is current' : ''}\n`);
    });
}
