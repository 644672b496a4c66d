import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { fillFile } from '../src/cli/fill-file.js';
import { formatFilled } from '../src/cli/format-filled.js';
import { addImportFlags, type ImportFlags, importOptionsOf } from '../src/cli/import-flags.js';
import { Progress } from '../src/cli/progress.js';

interface Flags extends ImportFlags {
  workbook: string;
  out?: string;
  gas?: string[];
  temperature?: string[];
  timeZone?: string;
}

const command = addImportFlags(
  projectCommand('fill', 'Fills files of half-hourly readings into a workbook, in place.')
    .argument('[files...]', 'CSV files, in any order; without files the stored values are worked out anew')
    .requiredOption('--workbook <file>', 'the workbook')
    .option('--gas <files...>', 'gas of the last year with the boiler: register or use, m³, ft³ or kWh')
    .option('--temperature <files...>', 'outdoor temperatures: half-hourly, hourly, or by day; °C or °F')
    .option('--out <file>', 'write here instead of into the workbook itself')
    .option('--time-zone <zone>', "IANA name of the home's zone, where the workbook has no readings yet"),
).action(async (files: string[], flags: Flags) => {
  const out = flags.out ?? flags.workbook;
  const filled = await fillFile(
    {
      files,
      gasFiles: flags.gas ?? [],
      temperatureFiles: flags.temperature ?? [],
      workbook: flags.workbook,
      out,
      ...(flags.timeZone === undefined ? {} : { timeZone: flags.timeZone }),
      importOptions: importOptionsOf(flags),
    },
    new Progress(),
  );
  process.stdout.write(formatFilled(filled, out));
});
await runProjectCommand(command);
