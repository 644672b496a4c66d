#!/usr/bin/env node
import { projectCommand, runProjectCommand } from './command.js';
import { buildCommand } from './commands/build-command.js';
import { carryCommand } from './commands/carry-command.js';
import { fillCommand } from './commands/fill-command.js';
import { sampleCommand } from './commands/sample-command.js';
import { verifyCommand } from './commands/verify-command.js';
import { INSTALLED, PROGRAM, packageVersion } from './surroundings.js';

const program = projectCommand(
  PROGRAM,
  "What a home's energy cost, and what another tariff would have cost, in a workbook of your own.",
)
  .version(packageVersion())
  .addCommand(buildCommand(INSTALLED))
  .addCommand(fillCommand(INSTALLED))
  .addCommand(carryCommand())
  .addCommand(verifyCommand())
  .addCommand(sampleCommand(INSTALLED));
await runProjectCommand(program);
