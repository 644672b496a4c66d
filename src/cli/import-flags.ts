import { type Command, Option } from 'commander';
import { CHANNELS, type ChannelName, type FileOptions, SIGNED_CHANNELS } from '../readings/index.js';
import {
  addFileOption,
  CHANNEL_NAMES,
  columnChannel,
  decimalOf,
  delimiterOf,
  lineNumber,
  minutes,
  registerAnswer,
} from './file-option.js';
import type { SaidOptions } from './options-by-kind.js';

/** Options of the command line as commander gives them. */
export interface ImportFlags {
  channel?: Record<string, ChannelName | 'ignore'>;
  defaultChannel?: ChannelName;
  dateOrder?: 'dmy' | 'mdy' | 'ymd';
  stamp?: 'start' | 'end';
  stampZone?: string;
  stampColumn?: string;
  unit?: string;
  register?: 'yes' | 'no' | 'daily';
  interval?: number;
  header?: number;
  sheet?: string;
  passOver?: string[];
  delimiter?: string;
  decimal?: 'point' | 'comma';
  replace?: boolean;
  forget?: boolean;
  for?: Record<string, FileOptions>;
}

/** Adds the options that say how files are to be read. */
export function addImportFlags(command: Command): Command {
  return command
    .option('--replace', 'let a later value win over a different one for the same half-hour')
    .option(
      '--for <file:option=value>',
      'one of the options below for one file only, of any kind: gas.csv:unit=m3; repeat it',
      addFileOption,
    )
    .option(
      '--forget',
      'use nothing that such files were told in earlier fills, and remember of them only what is said now',
    )
    .optionsGroup(
      'How the readings are to be read (or the gas, or the temperatures, where only\nthese files are given; beside others, --for says it of one of theirs):',
    )
    .option(
      '--channel <column=channel>',
      `what a column holds (${CHANNELS.join(', ')}; with a sign: ${Object.keys(SIGNED_CHANNELS).join(', ')}; of gas: gas; of temperatures: meanC, maxC, minC; or ignore); repeat it`,
      addChannel,
    )
    .addOption(
      new Option('--default-channel <channel>', 'what the one value column of a file holds').choices(
        CHANNEL_NAMES,
      ),
    )
    .addOption(new Option('--date-order <order>', 'order of day, month, year').choices(['dmy', 'mdy', 'ymd']))
    .addOption(new Option('--stamp <position>', 'what a time marks').choices(['start', 'end']))
    .option('--stamp-zone <zone>', 'clock of times without an offset: local, utc, or +01:00')
    .option('--stamp-column <column>', 'column of the time, by header or number')
    .option('--unit <unit>', 'unit where none is stated: kWh, Wh, kW, W, …; of gas: m3, ft3, 100ft3, kWh')
    .addOption(
      new Option(
        '--register <answer>',
        'values are those of a meter register that only goes up; daily: one that restarts at midnight',
      ).choices(['yes', 'no', 'daily']),
    )
    .option('--interval <minutes>', 'length of an interval', minutes)
    .option('--header <line>', 'number of the line that names the columns', lineNumber)
    .option(
      '--pass-over <text>',
      'lines that begin so, without a date, are no readings (Total); repeat it',
      (text: string, all: string[] = []) => [...all, text],
    )
    .option('--sheet <name>', 'sheet of a workbook that holds the readings')
    .option('--delimiter <character>', 'between cells: , ; tab |', delimiterOf)
    .addOption(new Option('--decimal <mark>', 'decimal mark').choices(['point', 'comma']));
}

/** The import's options from the command line's. */
export function importOptionsOf(flags: ImportFlags): SaidOptions {
  const options: SaidOptions = {};
  if (flags.channel !== undefined) options.channels = flags.channel;
  if (flags.defaultChannel !== undefined) options.defaultChannel = flags.defaultChannel;
  if (flags.dateOrder !== undefined) options.dateOrder = flags.dateOrder;
  if (flags.stamp !== undefined) options.stamp = flags.stamp;
  if (flags.stampZone !== undefined) options.stampZone = flags.stampZone;
  if (flags.stampColumn !== undefined) options.stampColumn = flags.stampColumn;
  if (flags.unit !== undefined) options.unit = flags.unit;
  if (flags.register !== undefined) options.register = registerAnswer(flags.register);
  if (flags.interval !== undefined) options.intervalMinutes = flags.interval;
  if (flags.header !== undefined) options.headerLine = flags.header;
  if (flags.passOver !== undefined) options.passOver = flags.passOver;
  if (flags.sheet !== undefined) options.sheet = flags.sheet;
  if (flags.delimiter !== undefined) options.delimiter = flags.delimiter;
  if (flags.decimal !== undefined) options.decimalMark = decimalOf(flags.decimal);
  if (flags.forget === true) options.forget = true;
  if (flags.replace === true) options.onConflict = 'replace';
  if (flags.for !== undefined) options.perFile = flags.for;
  return options;
}

function addChannel(text: string, all: ImportFlags['channel'] = {}): Record<string, ChannelName | 'ignore'> {
  return { ...all, ...columnChannel(text) };
}
