import type { Command } from 'commander';
import { projectCommand } from '../command.js';
import { fillFile } from '../fill-file.js';
import { formatFilled } from '../format-filled.js';
import { addImportFlags, type ImportFlags, importOptionsOf } from '../import-flags.js';
import { print } from '../print.js';
import { Progress } from '../progress.js';
import { addRequiredOption } from '../required-option.js';
import type { Surroundings } from '../surroundings.js';

interface Flags extends ImportFlags {
  workbook: string;
  out?: string;
  gas?: string[];
  temperature?: string[];
  timeZone?: string;
  clearTariff?: string;
}

/**
 * The command that fills files of readings into a workbook.
 *
 * @param surroundings from where it is called
 * @returns the command, ready to parse
 */
export function fillCommand(surroundings: Surroundings): Command {
  const command = projectCommand(
    'fill',
    'Fills files of half-hourly readings into a workbook, in place.',
  ).argument(
    '[files...]',
    'files of readings, in any order; without files the stored values are worked out anew',
  );
  return addImportFlags(
    addRequiredOption(command, '--workbook <file>', 'the workbook')
      .option('--gas <files...>', 'gas of the last year with the boiler: register or use, m³, ft³ or kWh')
      .option('--temperature <files...>', 'outdoor temperatures: half-hourly, hourly, or by day; °C or °F')
      .option('--out <file>', 'write here instead of into the workbook itself')
      .option('--clear-tariff <name>', 'empty the column of this tariff first')
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
        ...(flags.clearTariff === undefined ? {} : { clearTariff: flags.clearTariff }),
        importOptions: importOptionsOf(flags),
        buildCall: surroundings.callOf('build'),
      },
      new Progress(),
    );
    print(formatFilled(filled, out));
  });
}
