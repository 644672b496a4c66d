import type { Channel, SignedChannel } from './channels.js';

/** Order of day, month and year in a date written with numbers. */
export type DateOrder = 'dmy' | 'mdy' | 'ymd';
/** Whether a stamp names the start or the end of its interval. */
export type StampPosition = 'start' | 'end';
/** Mark between whole and decimal part. */
export type DecimalMark = '.' | ',';
/** What to do with a half-hour that has two different values. */
export type OnConflict = 'refuse' | 'replace';

/** A channel of any reader: electricity, with a sign too, gas, outdoor temperature. */
export type ChannelName = Channel | SignedChannel | 'gas' | 'meanC' | 'maxC' | 'minC';

/** What the user says about one file, or about all of them. What is said here is never second-guessed. */
export interface FileOptions {
  /** Column (header text, or number from 1) to channel; `ignore` leaves a column out. */
  channels?: Record<string, ChannelName | 'ignore'>;
  /** Channel of a file whose one value column does not say what it is. */
  defaultChannel?: ChannelName;
  /** Order of the parts of a date. */
  dateOrder?: DateOrder;
  /** What the stamp marks. */
  stamp?: StampPosition;
  /** Clock of stamps without an offset: the home's, UTC, or a fixed offset such as `+10:00`. */
  stampZone?: string;
  /** Column of the stamp (header text, or number from 1) where a file has several. */
  stampColumn?: string;
  /** Unit of columns whose header states none: kWh, Wh, MWh, kW, W; degC, degF; p/kWh, GBP/kWh, GBP/MWh; m3, ft3, 100ft3. */
  unit?: string;
  /** Whether values are those of a cumulative register; `daily` where it starts again at each midnight. */
  register?: boolean | 'daily';
  /** Length of an interval, minutes. */
  intervalMinutes?: number;
  /** Line of the header, from 1, where it is not the one that is found; what stands above it is no reading. */
  headerLine?: number;
  /** Lines that begin with one of these and have no date are no readings, such as totals; capitals are ignored. */
  passOver?: readonly string[];
  /** Sheet of a workbook, where several could be meant. */
  sheet?: string;
  /** Character between cells. */
  delimiter?: string;
  /** Decimal mark. */
  decimalMark?: DecimalMark;
  /** Nothing that files like it were told before is used, and it is no longer remembered. */
  forget?: true;
}

/** Every key of {@link FileOptions}. */
export const FILE_OPTION_KEYS = [
  'channels',
  'defaultChannel',
  'dateOrder',
  'stamp',
  'stampZone',
  'stampColumn',
  'unit',
  'register',
  'intervalMinutes',
  'headerLine',
  'passOver',
  'sheet',
  'delimiter',
  'decimalMark',
  'forget',
] as const satisfies readonly (keyof FileOptions)[];

/** Options of an import: the zone, and what holds for every file or for one by its name. */
export interface ImportOptions extends FileOptions {
  /** IANA name of the home's time zone. */
  timeZone: string;
  /** Two different values for one half-hour and channel: refuse (default), or let the later file win. */
  onConflict?: OnConflict;
  /** Options of single files, by file name as given. */
  perFile?: Record<string, FileOptions>;
}

/** One file as read from disk. */
export interface InputFile {
  /** Name for messages. */
  name: string;
  /** Its whole content. */
  bytes: Uint8Array;
  /** Name of the file that it was packed in, undefined for a file of its own. */
  packedIn?: string;
}

/**
 * The options that hold for a file: its own over the general ones.
 *
 * @param options options of the import
 * @param file the file; what is said of the one that it was packed in holds for it too
 * @returns options of that file
 * @example optionsOf({ timeZone: 'Europe/London', perFile: { 'a.csv': { unit: 'Wh' } } }, { name: 'a.csv' }).unit // 'Wh'
 */
export function optionsOf(options: ImportOptions, file: Pick<InputFile, 'name' | 'packedIn'>): FileOptions {
  const ofPack = file.packedIn === undefined ? {} : (options.perFile?.[file.packedIn] ?? {});
  const own = options.perFile?.[file.name] ?? {};
  const passOver = [options, ofPack, own].flatMap((said) => said.passOver ?? []);
  const channels = { ...options.channels, ...ofPack.channels, ...own.channels };
  return {
    ...options,
    ...ofPack,
    ...own,
    ...(Object.keys(channels).length > 0 ? { channels } : {}),
    ...(passOver.length > 0 ? { passOver } : {}),
  };
}
