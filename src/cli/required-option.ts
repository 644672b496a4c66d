import { type Command, Option } from 'commander';

/**
 * Adds an option that has to be given. That it is missing is told after everything else that is wrong with the call: where it was misspelt
 * (`--workbok home.xlsx`), commander's own `requiredOption` says that it is missing, and nothing of the word that was typed.
 *
 * @param command the command
 * @param flags the option's flags, for example `--out <file>`
 * @param description what it is for, for the help
 * @returns the command
 */
export function addRequiredOption<C extends Command>(command: C, flags: string, description: string): C {
  const option = new Option(flags, `${description} (required)`);
  command.addOption(option).hook('preAction', (called) => {
    if (called.getOptionValue(option.attributeName()) !== undefined) return;
    called.error(`error: required option '${flags}' not specified`);
  });
  return command;
}
