import { CsvError, parse } from 'csv-parse/sync';
import { InputError } from '../errors.js';
import { decodeText } from './decode-text.js';
import { findDelimiter } from './find-delimiter.js';
import type { InputFile } from './import-options.js';

/** A file as rows of cells. */
export interface Table {
  file: string;
  records: string[][];
  delimiter: string;
  encoding: string;
  /** Whether a line end closes the last line. */
  endsWithLineEnd: boolean;
  /** Line, from 1, on which a record begins. */
  lineOf: (record: number) => number;
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
  return {
    file: input.name,
    records,
    delimiter: found,
    encoding,
    endsWithLineEnd,
    lineOf: lineCounter(records),
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
