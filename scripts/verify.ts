import { runProjectCommand } from '../src/cli/command.js';
import { verifyCommand } from '../src/cli/commands/verify-command.js';

await runProjectCommand(verifyCommand());
