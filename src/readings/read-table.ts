import { CsvError, parse } from 'csv-parse/sync';
import { InputError } from '../errors.js';
import { decodeText } from './decode-text.js';
import type { ColumnReport, LineCounts } from './file-report.js';
import { findDelimiter } from './find-delimiter.js';
import type { InputFile } from './import-options.js';
import type { TablePlace } from './place-text.js';

/** A file as rows of cells. */
export interface Table {
  file: string;
  records: string[][];
  delimiter: string;
  encoding: string;
  /** Whether a line end closes the last line. */
  endsWithLineEnd: boolean;
  /** Line, from 1, on which a record begins; the number of its row in a sheet. */
  lineNumber: (record: number) => number;
  /** Where a record, or one of its cells, stands, for messages. */
  lineOf: (record: number, column?: number) => TablePlace;
  /** Cells whose number a mark behind it says to be estimated, by {@link placeKey}. */
  estimatedCells?: ReadonlySet<string>;
  /** What the table was made of, where that is no text of separated values. */
  source?: TableSource;
}

/** What a table was made of that is no text of separated values. */
export interface TableSource {
  /** For the report, in place of encoding and delimiter. */
  text: string;
  /** What a report calls one of its lines. */
  lineName: 'line' | 'row' | 'reading';
  /** What was taken without being stated. */
  assumptions: string[];
  /** Its lines by what they are, where they are not the table's records. */
  counts?: LineCounts;
  /** What in it became which channel, where it has no columns. */
  columns?: ColumnReport[];
  /** Whether the shape states zone, stamp, unit and interval, so that nothing is to be told about them. */
  isFixed?: boolean;
  /** Names that options may use for what is in it, beside the headers. */
  names?: readonly string[];
  /** Whether its numbers of dates count from 1904. */
  countsFrom1904?: boolean;
  /** Every cell is a cell of a sheet: none can be split or missing. */
  isSheet?: boolean;
}

/**
 * Reads a file of separated values into rows of cells.
 *
 * @param input name and bytes
 * @param delimiter character between cells, found from the first lines when undefined
 * @returns the table; blank lines stay as records of one empty cell, so that lines can be counted
 * @throws InputError when the file is empty, binary or breaks off inside a quoted cell
 * @example readTable({ name: 'a.csv', bytes: Buffer.from('a,b\n') }, undefined).records // [['a', 'b']]
 */
export function readTable(input: InputFile, delimiter: string | undefined): Table {
  const { utf8, encoding } = decodeText(input.bytes, input.name);
  const head = utf8.subarray(0, 60_000).toString('utf8');
  const found = delimiter ?? findDelimiter(head);
  let records: string[][];
  try {
    records = parse(utf8, {
      delimiter: found,
      relax_column_count: true,
      relax_quotes: true,
      // Only where blanks stand before a quotation mark: trimming every cell takes time.
      ltrim: /[,;|] +"/.test(head),
      record_delimiter: ['\r\n', '\n', '\r'],
    }) as string[][];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = (error as CsvError & { lines?: number }).lines;
    throw new InputError(
      'a quotation mark opens a cell and none closes it',
      'Remove the mark or export the file again.',
      { file: input.name, ...(line === undefined ? {} : { line }) },
    );
  }
  const endsWithLineEnd = [10, 13].includes(utf8.at(-1) ?? 0);
  const lineNumber = lineCounter(records);
  return {
    file: input.name,
    records,
    delimiter: found,
    encoding,
    endsWithLineEnd,
    lineNumber,
    lineOf: lineNumber,
  };
}

/** Lines by record: one each, and one more for every line break inside a quoted cell; counted on first use. */
function lineCounter(records: readonly string[][]): (record: number) => number {
  let lines: Int32Array | undefined;
  return (record) => {
    if (lines === undefined) {
      lines = new Int32Array(records.length);
      let line = 1;
      for (let r = 0; r < records.length; r++) {
        lines[r] = line++;
        for (const cell of records[r]!) {
          if (cell.includes('\n')) line += cell.split('\n').length - 1;
        }
      }
    }
    return lines[record] ?? records.length;
  };
}
