import { InvalidArgumentError } from 'commander';
import {
  CHANNELS,
  type ChannelName,
  type FileOptions,
  SIGNED_CHANNELS,
  type SignedChannel,
} from '../readings/index.js';

/** Channels of every kind of file; each reader takes its own. */
export const CHANNEL_NAMES: readonly ChannelName[] = [
  ...CHANNELS,
  ...(Object.keys(SIGNED_CHANNELS) as SignedChannel[]),
  'gas',
  'meanC',
  'maxC',
  'minC',
];

const FILE_OPTIONS: Record<string, (value: string) => FileOptions> = {
  channel: (value) => ({ channels: columnChannel(value) }),
  'default-channel': (value) => ({ defaultChannel: oneOf(value, CHANNEL_NAMES) }),
  'date-order': (value) => ({ dateOrder: oneOf(value, ['dmy', 'mdy', 'ymd']) }),
  stamp: (value) => ({ stamp: oneOf(value, ['start', 'end']) }),
  'stamp-zone': (value) => ({ stampZone: value }),
  'stamp-column': (value) => ({ stampColumn: value }),
  unit: (value) => ({ unit: value }),
  register: (value) => ({ register: registerAnswer(oneOf(value, ['yes', 'no', 'daily'])) }),
  interval: (value) => ({ intervalMinutes: minutes(value) }),
  header: (value) => ({ headerLine: lineNumber(value) }),
  'pass-over': (value) => ({ passOver: [value] }),
  sheet: (value) => ({ sheet: value }),
  delimiter: (value) => ({ delimiter: delimiterOf(value) }),
  decimal: (value) => ({ decimalMark: decimalOf(value) }),
  forget: (value) => (oneOf(value, ['yes']) === 'yes' ? { forget: true } : {}),
};
/** The option that says no answer, but that none is to be kept. */
export const FORGET = 'forget';

/**
 * One option of a file.
 *
 * @param name its name without strokes
 * @param value its value as text
 * @returns what it says
 * @throws InvalidArgumentError when there is no such option, or no such value
 * @example fileOption('unit', 'Wh') // { unit: 'Wh' }
 */
export function fileOption(name: string, value: string): FileOptions {
  const read = Object.hasOwn(FILE_OPTIONS, name) ? FILE_OPTIONS[name] : undefined;
  if (read === undefined) {
    throw new InvalidArgumentError(`The options are ${Object.keys(FILE_OPTIONS).join(', ')}.`);
  }
  return read(value);
}

/**
 * What is said of a file in the words of the options, the other way round than {@link fileOption}.
 *
 * @param options what is said
 * @returns `OPTION=VALUE` each
 * @example optionTexts({ unit: 'Wh', decimalMark: ',' }) // ['unit=Wh', 'decimal=comma']
 */
export function optionTexts(options: FileOptions): string[] {
  const { channels = {}, passOver = [], register, decimalMark, delimiter } = options;
  const plain: [string, string | number | undefined][] = [
    ['default-channel', options.defaultChannel],
    ['date-order', options.dateOrder],
    ['stamp', options.stamp],
    ['stamp-zone', options.stampZone],
    ['stamp-column', options.stampColumn],
    ['unit', options.unit],
    ['register', typeof register === 'boolean' ? (register ? 'yes' : 'no') : register],
    ['interval', options.intervalMinutes],
    ['header', options.headerLine],
    ['sheet', options.sheet],
    ['delimiter', delimiter === '\t' ? 'tab' : delimiter],
    ['decimal', decimalMark === undefined ? undefined : decimalMark === ',' ? 'comma' : 'point'],
  ];
  return [
    ...Object.entries(channels).map(([column, channel]) => `channel=${column}=${channel}`),
    ...plain.flatMap(([name, value]) => (value === undefined ? [] : [`${name}=${value}`])),
    ...passOver.map((text) => `pass-over=${text}`),
  ];
}

/**
 * What is said of a file and what is said of it besides.
 *
 * @param before what was said
 * @param said what is said now, which counts where both say the same
 * @returns both
 * @example joinedOptions({ unit: 'Wh' }, { stamp: 'end' }) // { unit: 'Wh', stamp: 'end' }
 */
export function joinedOptions(before: FileOptions, said: FileOptions): FileOptions {
  const channels = { ...before.channels, ...said.channels };
  const passOver = [...(before.passOver ?? []), ...(said.passOver ?? [])];
  return {
    ...before,
    ...said,
    ...(Object.keys(channels).length === 0 ? {} : { channels }),
    ...(passOver.length === 0 ? {} : { passOver }),
  };
}

// Longer names first: `stamp-zone` is not `stamp`.
const NAMES = Object.keys(FILE_OPTIONS)
  .sort((a, b) => b.length - a.length)
  .join('|');
const FOR_FILE = new RegExp(`^(.+?):(${NAMES})=(.+)$`);
const MENTIONED = new RegExp(`--(?:${NAMES})\\b`);

/**
 * Adds what an argument says of one file to what was said before.
 *
 * @param text `FILE:OPTION=VALUE`, as `gas.csv:unit=m3` or `gas.csv:channel=Used=gas`
 * @param all what was said of files before, by file name
 * @returns both
 * @throws InvalidArgumentError when it is not written so
 * @example addFileOption('gas.csv:unit=m3') // { 'gas.csv': { unit: 'm3' } }
 */
export function addFileOption(
  text: string,
  all: Record<string, FileOptions> = {},
): Record<string, FileOptions> {
  const [, file, name, value] = FOR_FILE.exec(text) ?? [];
  if (file === undefined) {
    throw new InvalidArgumentError(
      `Write FILE:OPTION=VALUE, where OPTION is one of ${Object.keys(FILE_OPTIONS).join(', ')}.`,
    );
  }
  return { ...all, [file]: joinedOptions(all[file] ?? {}, fileOption(name!, value!)) };
}

/**
 * Whether a message names an option that says how a file is to be read.
 *
 * @param text the message
 * @returns true for one that advises `--unit m3`
 */
export function mentionsFileOption(text: string): boolean {
  return MENTIONED.test(text);
}

/**
 * How such an option is given for one file alone.
 *
 * @param file its path; left out where it is one of several
 * @returns a sentence
 * @example adviceForFile('gas.csv') // 'For this file, it is written --for gas.csv:OPTION=VALUE.'
 */
export function adviceForFile(file?: string): string {
  const argument = `${file ?? 'FILE'}:OPTION=VALUE`;
  const quoted = /\s/.test(argument) ? `"${argument}"` : argument;
  const what = file === undefined ? 'Options of one of these files are' : 'For this file, it is';
  return `${what} written --for ${quoted}.`;
}

/** What a column holds: `COLUMN=CHANNEL`. */
export function columnChannel(text: string): Record<string, ChannelName | 'ignore'> {
  const at = text.lastIndexOf('=');
  if (at < 1) throw new InvalidArgumentError('Write COLUMN=CHANNEL, for example "Energy used"=importKwh.');
  return { [text.slice(0, at)]: oneOf(text.slice(at + 1), [...CHANNEL_NAMES, 'ignore'] as const) };
}

/** The decimal mark of its name. */
export function decimalOf(value: string): '.' | ',' {
  return oneOf(value, ['point', 'comma']) === 'comma' ? ',' : '.';
}

/** A whole number of minutes. */
export function minutes(value: string): number {
  const number = Number(value);
  if (Number.isInteger(number) && number > 0) return number;
  throw new InvalidArgumentError('Write a whole number of minutes.');
}

/** Whether values are those of a register. */
export function registerAnswer(value: 'yes' | 'no' | 'daily'): boolean | 'daily' {
  return value === 'daily' ? value : value === 'yes';
}

/** The number of a line. */
export function lineNumber(value: string): number {
  const number = Number(value);
  if (Number.isInteger(number) && number > 0) return number;
  throw new InvalidArgumentError('Write the number of a line, from 1.');
}

/** The character between cells. */
export function delimiterOf(value: string): string {
  if (value === 'tab' || value === '\\t') return '\t';
  if ([...value].length === 1) return value;
  throw new InvalidArgumentError('Write one character, or tab.');
}

function oneOf<Choice extends string>(value: string, choices: readonly Choice[]): Choice {
  if ((choices as readonly string[]).includes(value)) return value as Choice;
  throw new InvalidArgumentError(`Write one of ${choices.join(', ')}.`);
}
