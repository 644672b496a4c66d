import type { Command } from 'commander';
import { carryFile } from '../carry-file.js';
import { projectCommand } from '../command.js';
import { daysOption } from '../days-option.js';
import { formatCarried } from '../format-carried.js';
import { print } from '../print.js';
import { Progress } from '../progress.js';
import { addRequiredOption } from '../required-option.js';

/**
 * The command that carries a workbook of an earlier layout, or a full one, over into a new one.
 *
 * @returns the command, ready to parse
 */
export function carryCommand(): Command {
  const command = projectCommand(
    'carry',
    'Carries a workbook of an earlier layout, or a full one, over into a new one, and names what it can’t carry. The old one is only read.',
  ).argument('<old>', 'the workbook to carry over');
  return addRequiredOption(command, '--out <file>', 'where the new workbook goes; a file that is there stays')
    .addOption(daysOption('; else as many as the old one, or as its readings need'))
    .action(async (old: string, { out, days }: { out: string; days?: number }) => {
      const carried = await carryFile({ old, out, ...(days === undefined ? {} : { days }) }, new Progress());
      print(formatCarried(carried, out));
    });
}
