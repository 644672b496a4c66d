import { createInterface } from 'node:readline';
import { InputError } from '../../errors.js';
import type { CellArgument } from '../../functions/described-function.js';
import { callFunction, describedByCellName } from '../shared/call-function.js';
import { restoreBlankCells } from '../shared/restore-blanks.js';

interface Request {
  id: number;
  name: string;
  args: CellArgument[];
}

// The helper process of the Calc extension: a request a line comes in, an answer a line goes out.
// It ends when its input does, so that it never outlives the spreadsheet.
send({ ready: process.versions.node });
createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY }).on('line', (line) => {
  let request: Request;
  try {
    request = JSON.parse(line) as Request;
  } catch {
    // Whoever asked so gets an answer, and the next one too.
    send({ id: null, failed: 'the request cannot be read' });
    return;
  }
  const { id, name, args } = request;
  try {
    // Calc hands over a blank single cell as 0, blank cells of a range as empty texts.
    const cells = restoreBlankCells(args, describedByCellName(name)?.arguments ?? []);
    send({ id, value: callFunction(name, cells) });
  } catch (error) {
    if (error instanceof InputError) send({ id, wrong: error.message });
    else send({ id, failed: `${name} failed: ${error instanceof Error ? error.message : String(error)}` });
  }
});

function send(message: object): void {
  process.stdout.write(`${JSON.stringify(message)}\n`);
}
