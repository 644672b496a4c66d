import { InvalidArgumentError } from 'commander';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { print } from '../src/cli/print.js';
import { EXIT } from '../src/cli/run-command.js';
import { formatFuzz } from './lib/fuzz/format-fuzz.js';
import { runFuzz } from './lib/fuzz/run-fuzz.js';

interface FuzzOptions {
  minutes: number;
  seed: string;
}

const MINUTE_MS = 60_000;

const command = projectCommand(
  'fuzz',
  'Reads mutated files of every shape and holds each against the file that it was.',
)
  .option('--minutes <count>', 'how long to go on', positive, 1)
  .option('--seed <text>', 'the same seed tries the same files; another each time where none is given')
  .action(({ minutes, seed = new Date().toISOString() }: FuzzOptions) => {
    const end = Date.now() + minutes * MINUTE_MS;
    const run = runFuzz(seed, () => Date.now() < end);
    print(formatFuzz(run));
    process.exitCode = run.faults.length === 0 ? EXIT.done : EXIT.differs;
  });

function positive(text: string): number {
  const value = Number(text);
  if (value > 0) return value;
  throw new InvalidArgumentError('Write a number of minutes above 0.');
}

await runProjectCommand(command);
