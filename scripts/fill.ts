import { runProjectCommand } from '../src/cli/command.js';
import { fillCommand } from '../src/cli/commands/fill-command.js';
import { IN_PROJECT } from '../src/cli/surroundings.js';

await runProjectCommand(fillCommand(IN_PROJECT));
