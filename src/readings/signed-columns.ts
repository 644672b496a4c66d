import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import { headerWords } from './match-channels.js';
import type { Table } from './read-table.js';
import { findColumn } from './stamp-columns.js';
import { unitIn } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/** Channels of what is above and below nought. */
export type Directions<C extends string> = readonly [above: C, below: C];

/** What the user says, where a channel with a sign stands for that of what is above nought. */
export interface SignedOptions<C extends string> {
  options: FileOptions;
  /** Columns that hold both directions. */
  columns: ReadonlyMap<number, Directions<C>>;
  /** Both directions of the one column that is not named. */
  lone: Directions<C> | undefined;
}

/**
 * Takes channels with a sign out of what the user says.
 *
 * @param header headers of the table
 * @param options what the user says
 * @param vocabulary channels of the reader
 * @returns options of plain channels, and which columns hold both directions
 * @example signedOptions(['time', 'power'], { channels: { power: 'batteryNetKwh' } }, electricityVocabulary).columns.get(1) // ['batteryInKwh', 'batteryOutKwh']
 */
export function signedOptions<C extends string>(
  header: readonly string[],
  options: FileOptions,
  vocabulary: Vocabulary<C>,
): SignedOptions<C> {
  const directionsOf = (channel: string | undefined): Directions<C> | undefined =>
    channel === undefined ? undefined : vocabulary.signed?.[channel];
  const columns = new Map<number, Directions<C>>();
  const channels = { ...options.channels };
  for (const [name, channel] of Object.entries(channels)) {
    const directions = directionsOf(channel);
    if (directions === undefined) continue;
    channels[name] = directions[0] as never;
    const at = findColumn(header, name);
    if (at !== undefined) columns.set(at, directions);
  }
  const lone = directionsOf(options.defaultChannel);
  return {
    options: {
      ...options,
      ...(options.channels === undefined ? {} : { channels }),
      ...(lone === undefined ? {} : { defaultChannel: lone[0] as never }),
    },
    columns,
    lone,
  };
}

const BELOW = /^\s*[-−]\s*[\d.,]*[1-9]/;
const ABOVE = /^\s*\+?[\d.,]*[1-9]/;
/** Fewer values below nought are corrections of a meter, not a direction. */
const FEWEST = 2;
const LEAST_SHARE = 0.05;

/** Values above and below nought in some columns. */
function signsOf(
  table: Table,
  { rows }: Columns,
  cells: readonly number[],
): { above: number; below: number; first: number | undefined } {
  let above = 0;
  let below = 0;
  let first: number | undefined;
  for (const r of rows) {
    for (const column of cells) {
      const cell = table.records[r]![column] ?? '';
      if (BELOW.test(cell)) {
        below++;
        first ??= r;
      } else if (ABOVE.test(cell)) above++;
    }
  }
  return { above, below, first };
}

/**
 * Asks about columns of a battery that say neither in nor out: with values of both signs they are both, the sign tells which.
 *
 * @param table the table
 * @param columns its header and rows
 * @param open columns of numbers that nothing has named
 * @param isLone whether there is no other column of numbers: then it would be taken for another channel
 * @param vocabulary channels of the reader
 * @throws InputError naming the column, and the channels that it could be
 * @example askAboutBattery(table, columns, [1], true, electricityVocabulary)
 */
export function askAboutBattery<C extends string>(
  table: Table,
  columns: Columns,
  open: readonly number[],
  isLone: boolean,
  vocabulary: Vocabulary<C>,
): void {
  if (vocabulary.signed === undefined) return;
  for (const column of open) {
    const name = columns.header[column]!;
    if (!/\b(battery|batt|storage)\b/.test(headerWords(name)) || /%|\b(soc|level|percent)\b/i.test(name))
      continue;
    if (vocabulary.match(name) !== undefined) continue;
    const quantity = unitIn(name)?.quantity;
    if (quantity !== undefined && quantity !== 'energy' && quantity !== 'power') continue;
    const { above, below } = signsOf(table, columns, [column]);
    if (!isLone && (above === 0 || below === 0)) continue;
    const place = { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!, column) };
    if (below > 0) {
      throw new InputError(
        `"${name}" holds values above and below nought, and does not say which way the battery charges`,
        `Say it: --channel "${name}=batteryNetKwh" where it charges above nought, --channel "${name}=batteryNetOutKwh" where it charges below.`,
        place,
      );
    }
    throw new InputError(
      `"${name}" does not say whether it is what went into the battery or came out of it`,
      `Say it: --channel "${name}=batteryInKwh" or --channel "${name}=batteryOutKwh".`,
      place,
    );
  }
}

/**
 * Asks about columns of power or energy of the grid that say neither from it nor to it: beside others they would be left out.
 *
 * @param table the table
 * @param columns its header and rows
 * @param open columns of numbers that nothing has named
 * @param vocabulary channels of the reader
 * @throws InputError naming the column, and the channels that it could be
 * @example askAboutGrid(table, columns, [1], electricityVocabulary)
 */
export function askAboutGrid<C extends string>(
  table: Table,
  columns: Columns,
  open: readonly number[],
  vocabulary: Vocabulary<C>,
): void {
  if (vocabulary.signed === undefined) return;
  for (const column of open) {
    const name = columns.header[column]!;
    if (!/\b(grid|mains)\b/.test(headerWords(name)) || vocabulary.match(name) !== undefined) continue;
    const quantity = unitIn(name)?.quantity;
    if (quantity !== 'energy' && quantity !== 'power') continue;
    askAboutNet(table, columns, column, [column]);
    throw new InputError(
      `"${name}" does not say whether it is what came from the grid or went to it`,
      `Say it: --channel "${name}=importKwh" or --channel "${name}=exportKwh"; ignore leaves it out.`,
      { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!, column) },
    );
  }
}

/**
 * Asks about what was taken for the import without being named so, where many of its values are below nought, as where export is
 * written with a sign.
 *
 * @param table the table
 * @param columns its header and rows
 * @param column the column, or the first of a day's
 * @param cells columns of its values
 * @throws InputError naming the first such line
 * @example askAboutNet(table, columns, 1, [1])
 */
export function askAboutNet(table: Table, columns: Columns, column: number, cells: readonly number[]): void {
  const { above, below, first } = signsOf(table, columns, cells);
  if (below < FEWEST || below < LEAST_SHARE * (above + below)) return;
  const isOne = cells.length === 1;
  const name = isOne && columns.header[column] !== '' ? `"${columns.header[column]}"` : 'the values';
  const say = (channel: string): string =>
    isOne ? `--channel "${columns.header[column] || column + 1}=${channel}"` : `--default-channel ${channel}`;
  throw new InputError(
    `${name} ${isOne && name !== 'the values' ? 'holds' : 'hold'} ${below} values below nought, and nothing says whether those are export`,
    `Say it: ${say('gridNetKwh')} where export is below nought, ${say('gridNetExportKwh')} where import is, or ${say('importKwh')} to keep them as they are.`,
    { file: table.file, line: table.lineOf(first!, column) },
  );
}
