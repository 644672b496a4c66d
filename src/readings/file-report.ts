import type { TablePlace } from './place-text.js';

/** Where something was found in a file. */
export interface FoundPlace {
  file: string;
  line: TablePlace;
  /** What stands there, for example the local time and the value. */
  text: string;
}

/** Kinds of things found in readings. */
export type FindingKind =
  | 'gap'
  | 'missing day'
  | 'missing period'
  | 'long period'
  | 'part of a day'
  | 'less than a day'
  | 'incomplete half-hour'
  | 'duplicate'
  | 'conflict'
  | 'negative'
  | 'overlapping sessions'
  | 'outlier'
  | 'estimated'
  | 'estimated gas'
  | 'odd mark'
  | 'short line'
  | 'register backwards'
  | 'register rolled over'
  | 'register restarted'
  | 'register gap'
  | 'register end'
  | 'skipped hour'
  | 'repeated hour'
  | 'repeated hour order';

/** Something found: how often, and the first few places. */
export interface Finding {
  kind: FindingKind;
  /** Channel concerned, where one is. */
  channel?: string;
  /** How often (half-hours for gaps). */
  count: number;
  /** In plain words. */
  message: string;
  /** What was done about it, '' where nothing had to be. */
  done: string;
  /** The first few places. */
  places: FoundPlace[];
  /** How many places there are in all; a place may be a gap of many half-hours. */
  placeCount: number;
}

/** How a column was understood. */
export interface ColumnReport {
  /** Header of the column, or `column 3`. */
  column: string;
  /** Channel, or what else the column is. */
  meaning: string;
  /** Unit, for columns of values. */
  unit?: string;
}

/** Lines of a file by what they are; each is one of these. */
export interface LineCounts {
  all: number;
  /** Lines with at least one value. */
  readings: number;
  /** Lines of data whose values are all blank. */
  withoutValue: number;
  header: number;
  /** Numbers of the lines above the header: they are not read. */
  above: number[];
  blank: number;
  /** Lines that are none of these, with what they are and whether they were read. */
  other?: { count: number; what: string }[];
}

/** What was understood of a file, and what was found in it. */
export interface FileReport {
  file: string;
  /** What the file is, where it is no text of separated values: then encoding and delimiter say nothing. */
  source?: string;
  /** What one of its lines is called. */
  lineName: 'line' | 'row' | 'reading';
  encoding: string;
  delimiter: string;
  decimalMark: '.' | ',';
  /** Line of the header, undefined where there is none. */
  headerLine?: number;
  layout: 'one line an interval' | 'one line a day';
  /** Lines of data. */
  rows: number;
  /** All lines of the file, by what they are. */
  lines: LineCounts;
  columns: ColumnReport[];
  unusedColumns: string[];
  /** For example `local time of Europe/London`. */
  clock: string;
  stamp: string;
  dates: string;
  interval: string;
  /** First and last stamp, local wall-clock text. */
  from: string;
  to: string;
  /** What was remembered of files like it, and whether it was used; absent where nothing is. */
  remembered?: string;
  /** What was taken without being stated, each with the option that says otherwise. */
  assumptions: string[];
  findings: Finding[];
}

/** Places kept with a finding; the count says how many there were. */
export const PLACES_SHOWN = 3;

/** What was understood of files, and what came out. */
export interface FilesReport {
  timeZone: string;
  files: FileReport[];
  /** Files inside others that hold no readings, and why they were left. */
  notRead?: { file: string; why: string }[];
  /** What came out: a line a channel. */
  summary: { name: string; text: string }[];
}
