import { InputError } from '../errors.js';
import { printError } from './print.js';

/** Exit codes of every command. */
export const EXIT = {
  done: 0,
  /** A verification found a difference. */
  differs: 1,
  /** The input or the way the command was called is wrong; nothing was written. */
  wrongInput: 2,
  /** A fault of the program itself. */
  fault: 3,
} as const;

/**
 * Runs a command: wrong input is told in one line, a fault of the program with its trace.
 *
 * @param command what to do; returns the exit code, nothing means done
 */
export async function runCommand(command: () => Promise<number | undefined>): Promise<void> {
  process.stdout.on('error', endWhereOutputEnds);
  // What can't be told can't be told: the exit code still says how it went.
  process.stderr.on('error', () => {});
  // Without a listener, a file that grows past the limit of the shell (ulimit -f) ends the process; with one, writing it fails, and that is told.
  process.on('SIGXFSZ', () => {});
  try {
    process.exitCode = (await command()) ?? EXIT.done;
  } catch (error) {
    // On a terminal the step that was announced stands in this line.
    if (process.stderr.isTTY) process.stderr.write('\r\u001b[2K');
    if (error instanceof InputError) {
      printError(`${error.message}\n`);
      process.exitCode = EXIT.wrongInput;
      return;
    }
    printError(
      `This is a fault of the program, please report it:\n${(error as Error).stack ?? String(error)}\n`,
    );
    process.exitCode = EXIT.fault;
  }
}

/** A reader that has seen enough, such as `head`, is no fault; an output that can take no more is told. */
function endWhereOutputEnds(error: NodeJS.ErrnoException): void {
  if (error.code !== 'EPIPE') {
    const why = error.code === 'ENOSPC' ? 'its disk is full' : `it can take no more (${error.code})`;
    process.stderr.write(
      `Standard output: ${why}. What was to be saved is saved; give the report another place.\n`,
    );
    process.exitCode = EXIT.wrongInput;
  }
  process.exit();
}
