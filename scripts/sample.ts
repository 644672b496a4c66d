import { runProjectCommand } from '../src/cli/command.js';
import { sampleCommand } from '../src/cli/commands/sample-command.js';
import { IN_PROJECT } from '../src/cli/surroundings.js';

await runProjectCommand(sampleCommand(IN_PROJECT));
