import { runProjectCommand } from '../src/cli/command.js';
import { buildCommand } from '../src/cli/commands/build-command.js';
import { IN_PROJECT } from '../src/cli/surroundings.js';

await runProjectCommand(buildCommand(IN_PROJECT));
