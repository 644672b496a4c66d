import { type Command, InvalidArgumentError, Option } from 'commander';
import { CHANNELS, type Channel, type FileOptions, type ImportOptions } from '../readings/index.js';

/** Options of the command line as commander gives them. */
export interface ImportFlags {
  channel?: Record<string, Channel | 'ignore'>;
  defaultChannel?: Channel;
  dateOrder?: 'dmy' | 'mdy' | 'ymd';
  stamp?: 'start' | 'end';
  stampZone?: string;
  stampColumn?: string;
  unit?: string;
  register?: 'yes' | 'no';
  interval?: number;
  delimiter?: string;
  decimal?: 'point' | 'comma';
  replace?: boolean;
  for?: Record<string, FileOptions>;
}

const SINGLE: Record<string, (value: string) => FileOptions> = {
  'date-order': (value) => ({ dateOrder: oneOf(value, ['dmy', 'mdy', 'ymd']) }),
  stamp: (value) => ({ stamp: oneOf(value, ['start', 'end']) }),
  'stamp-zone': (value) => ({ stampZone: value }),
  'stamp-column': (value) => ({ stampColumn: value }),
  unit: (value) => ({ unit: value }),
  register: (value) => ({ register: oneOf(value, ['yes', 'no']) === 'yes' }),
  interval: (value) => ({ intervalMinutes: minutes(value) }),
  delimiter: (value) => ({ delimiter: delimiterOf(value) }),
  decimal: (value) => ({ decimalMark: decimalOf(value) }),
  'default-channel': (value) => ({ defaultChannel: oneOf(value, CHANNELS) }),
};

/** Adds the options that say how files are to be read. */
export function addImportFlags(command: Command): Command {
  return command
    .option(
      '--channel <column=channel>',
      `what a column holds (${CHANNELS.join(', ')}, ignore); repeat it`,
      addChannel,
    )
    .addOption(
      new Option('--default-channel <channel>', 'what the one value column of a file holds').choices(
        CHANNELS,
      ),
    )
    .addOption(new Option('--date-order <order>', 'order of day, month, year').choices(['dmy', 'mdy', 'ymd']))
    .addOption(new Option('--stamp <position>', 'what a time marks').choices(['start', 'end']))
    .option('--stamp-zone <zone>', 'clock of times without an offset: local, utc, or +01:00')
    .option('--stamp-column <column>', 'column of the time, by header or number')
    .option('--unit <unit>', 'unit where none is stated: kWh, Wh, kW, W, …')
    .addOption(
      new Option('--register <answer>', 'values are those of a meter register that only goes up').choices([
        'yes',
        'no',
      ]),
    )
    .option('--interval <minutes>', 'length of an interval', minutes)
    .option('--delimiter <character>', 'between cells: , ; tab |', delimiterOf)
    .addOption(new Option('--decimal <mark>', 'decimal mark').choices(['point', 'comma']))
    .option('--for <file:option=value>', 'one of the options above for one file only; repeat it', addForFile)
    .option('--replace', 'let a later value win over a different one for the same half-hour');
}

/** The import's options from the command line's. */
export function importOptionsOf(flags: ImportFlags): Omit<ImportOptions, 'timeZone'> {
  const options: Omit<ImportOptions, 'timeZone'> = {};
  if (flags.channel !== undefined) options.channels = flags.channel;
  if (flags.defaultChannel !== undefined) options.defaultChannel = flags.defaultChannel;
  if (flags.dateOrder !== undefined) options.dateOrder = flags.dateOrder;
  if (flags.stamp !== undefined) options.stamp = flags.stamp;
  if (flags.stampZone !== undefined) options.stampZone = flags.stampZone;
  if (flags.stampColumn !== undefined) options.stampColumn = flags.stampColumn;
  if (flags.unit !== undefined) options.unit = flags.unit;
  if (flags.register !== undefined) options.register = flags.register === 'yes';
  if (flags.interval !== undefined) options.intervalMinutes = flags.interval;
  if (flags.delimiter !== undefined) options.delimiter = flags.delimiter;
  if (flags.decimal !== undefined) options.decimalMark = decimalOf(flags.decimal);
  if (flags.replace === true) options.onConflict = 'replace';
  if (flags.for !== undefined) options.perFile = flags.for;
  return options;
}

function addChannel(text: string, all: ImportFlags['channel'] = {}): Record<string, Channel | 'ignore'> {
  const at = text.lastIndexOf('=');
  if (at < 1) throw new InvalidArgumentError('Write COLUMN=CHANNEL, for example "Energy used"=importKwh.');
  return { ...all, [text.slice(0, at)]: oneOf(text.slice(at + 1), [...CHANNELS, 'ignore'] as const) };
}

function addForFile(text: string, all: Record<string, FileOptions> = {}): Record<string, FileOptions> {
  const match = /^(.+):([a-z-]+)=(.+)$/.exec(text);
  const read = match === null ? undefined : SINGLE[match[2]!];
  if (match === null || read === undefined) {
    throw new InvalidArgumentError(
      `Write FILE:OPTION=VALUE, where OPTION is one of ${Object.keys(SINGLE).join(', ')}.`,
    );
  }
  return { ...all, [match[1]!]: { ...all[match[1]!], ...read(match[3]!) } };
}

function oneOf<Choice extends string>(value: string, choices: readonly Choice[]): Choice {
  if ((choices as readonly string[]).includes(value)) return value as Choice;
  throw new InvalidArgumentError(`Write one of ${choices.join(', ')}.`);
}

function decimalOf(value: string): '.' | ',' {
  return oneOf(value, ['point', 'comma']) === 'comma' ? ',' : '.';
}

function minutes(value: string): number {
  const number = Number(value);
  if (Number.isInteger(number) && number > 0) return number;
  throw new InvalidArgumentError('Write a whole number of minutes.');
}

function delimiterOf(value: string): string {
  if (value === 'tab' || value === '\\t') return '\t';
  if ([...value].length === 1) return value;
  throw new InvalidArgumentError('Write one character, or tab.');
}
