import type { Command } from 'commander';
import { projectCommand } from '../command.js';
import { projectPathOption } from '../paths.js';
import { print } from '../print.js';
import type { Surroundings } from '../surroundings.js';
import { writeSample } from '../write-sample.js';

/**
 * The command that writes the sample home's files.
 *
 * @param surroundings from where it is called
 * @returns the command, ready to parse
 */
export function sampleCommand(surroundings: Surroundings): Command {
  return projectCommand(
    'sample',
    'Writes the files of an invented home: its tariffs and battery, a year of readings, one more month, a year of gas and temperatures.',
  )
    .addOption(projectPathOption('--out <folder>', 'where the files go', surroundings.sample))
    .action(async ({ out }: { out: string }) => {
      const paths = await writeSample(out);
      for (const path of [
        paths.inputs,
        ...paths.year,
        ...paths.extraMonth,
        ...paths.gas,
        ...paths.temperature,
      ])
        print(`${path}\n`);
    });
}
