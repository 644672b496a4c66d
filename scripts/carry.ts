import { runProjectCommand } from '../src/cli/command.js';
import { carryCommand } from '../src/cli/commands/carry-command.js';

await runProjectCommand(carryCommand());
