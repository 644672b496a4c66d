import { Command, CommanderError } from 'commander';
import { print, printError } from './print.js';
import { EXIT, runCommand } from './run-command.js';

/**
 * A command with the project's manners: `--help`, exit codes, one line for wrong usage.
 *
 * @param name how it is called
 * @param description what it does
 * @returns a command to give options and an action to
 */
export function projectCommand(name: string, description: string): Command {
  return new Command(name)
    .description(description)
    .showHelpAfterError('(see --help)')
    .exitOverride()
    .hook('preAction', (_, called) => refuseEmpty(called))
    .configureOutput({ writeOut: print, writeErr: printError })
    .addHelpText(
      'after',
      '\nExit codes: 0 done, 1 a verification found a difference,\n  2 wrong input or usage, 3 a fault of the program.',
    );
}

/** What is empty was mostly to be filled in by a shell: `--workbook "$WORKBOOK"`. */
function refuseEmpty(command: Command): void {
  for (const option of command.options) {
    const value: unknown = command.getOptionValue(option.attributeName());
    if ([value].flat().includes('')) command.error(`error: the value of option '${option.flags}' is empty`);
  }
  if (command.args.includes('')) command.error('error: the name of a file is empty');
}

/**
 * Parses the arguments of the process and runs the command's action.
 *
 * @param command a command with an action
 */
export async function runProjectCommand(command: Command): Promise<void> {
  await runCommand(async () => {
    let code: number | undefined;
    try {
      await command.parseAsync();
      code = process.exitCode === undefined ? undefined : Number(process.exitCode);
    } catch (error) {
      if (!(error instanceof CommanderError)) throw error;
      // Commander has told what is wrong already.
      return error.exitCode === 0 ? EXIT.done : EXIT.wrongInput;
    }
    return code;
  });
}
