import type { Command } from 'commander';
import { readUserFile } from '../../read-user-file.js';
import { verifyWorkbook } from '../../workbook/verify/verify-workbook.js';
import { projectCommand } from '../command.js';
import { formatVerification } from '../format-verification.js';
import { print } from '../print.js';
import { Progress } from '../progress.js';
import { EXIT } from '../run-command.js';

/**
 * The command that holds a workbook against the library.
 *
 * @returns the command, ready to parse
 */
export function verifyCommand(): Command {
  return projectCommand(
    'verify',
    'Recomputes a workbook from its inputs and compares every formula and every stored value.',
  )
    .argument('<file>', 'the workbook')
    .action(async (file: string) => {
      const progress = new Progress();
      progress.begin('recomputing the workbook');
      const verification = verifyWorkbook(await readUserFile(file, 'Give the path of a workbook.'), file);
      progress.end();
      print(formatVerification(verification));
      process.exitCode = verification.agrees ? EXIT.done : EXIT.differs;
    });
}
