import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { formatVerification } from '../src/cli/format-verification.js';
import { Progress } from '../src/cli/progress.js';
import { EXIT } from '../src/cli/run-command.js';
import { readUserFile } from '../src/read-user-file.js';
import { verifyWorkbook } from '../src/workbook/verify/verify-workbook.js';

const command = projectCommand(
  'verify',
  'Recomputes a workbook from its inputs and compares every formula and every stored value.',
)
  .argument('<file>', 'the workbook')
  .action(async (file: string) => {
    const progress = new Progress();
    progress.begin('recomputing the workbook');
    const verification = verifyWorkbook(await readUserFile(file, 'Give the path of a workbook.'), file);
    progress.end();
    process.stdout.write(formatVerification(verification));
    process.exitCode = verification.agrees ? EXIT.done : EXIT.differs;
  });
await runProjectCommand(command);
