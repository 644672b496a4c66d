import { InvalidArgumentError } from 'commander';
import { faultsFoundBy, InputError, refuse } from '../errors.js';
import type { FileKind, FileOptions, RememberedAnswers } from '../readings/index.js';
import { TOLD } from '../workbook/fields/told-places.js';
import { openOurWorkbook } from '../workbook/fill/open-our-workbook.js';
import { readToldRows, type ToldRow } from '../workbook/inputs/read-told-rows.js';
import { openWorkbookPackage } from '../workbook/package/index.js';
import { FORGET, fileOption, joinedOptions, optionTexts } from './file-option.js';

const KINDS: Readonly<Record<string, FileKind>> = {
  readings: 'readings',
  gas: 'gas',
  temperatures: 'temperature',
};
const WORDS = Object.fromEntries(Object.entries(KINDS).map(([word, kind]) => [kind, word]));
/** Stands in the place of an answer where files of a shape were told nothing, unlike others much like them. */
const NOTHING = 'nothing';

/**
 * What a workbook remembers of files.
 *
 * @param bytes the workbook
 * @param file its name, for messages
 * @returns what files of each shape and name were told
 * @throws InputError naming a cell that holds no answer; InputErrors where several hold none
 * @example rememberedAnswers(bytes, 'home.xlsx')[0]?.answers // { unit: 'Wh' }
 */
export function rememberedAnswers(bytes: Uint8Array, file: string): RememberedAnswers[] {
  try {
    return answersOf(readToldRows(openWorkbookPackage(bytes, file)), file);
  } catch (error) {
    // Anything may stand there because something was moved: that is said first.
    if (error instanceof InputError) openOurWorkbook(bytes, file);
    throw error;
  }
}

/**
 * What is remembered as rows of the workbook.
 *
 * @param remembered what files were told
 * @returns rows that the workbook has places for, and the files that there was no place for
 * @example rowsOf(remembered).rows[0]?.answer // 'unit=Wh'
 */
export function rowsOf(remembered: readonly RememberedAnswers[]): { rows: ToldRow[]; left: string[] } {
  const rows: ToldRow[] = [];
  const left: string[] = [];
  for (const { kind, columns, name, toldFor, answers } of remembered) {
    const texts = optionTexts(answers);
    const own = (texts.length === 0 ? [NOTHING] : texts).map(
      (answer): ToldRow => ({ columns, kind: WORDS[kind]!, name, answer, toldFor }),
    );
    // Half of what was said of a file would be something else.
    if (rows.length + own.length > TOLD.rows) left.push(toldFor);
    else rows.push(...own);
  }
  return { rows, left };
}

function answersOf(rows: readonly ToldRow[], file: string): RememberedAnswers[] {
  const found = new Map<string, RememberedAnswers>();
  refuse(faultsFoundBy(rows.map((row, i) => () => addRow(found, row, i, file))));
  return [...found.values()];
}

/** Adds what a row (from 0) says to what is remembered. */
function addRow(found: Map<string, RememberedAnswers>, row: ToldRow, i: number, file: string): void {
  // A row whose answer is cleared is forgotten.
  if (row.answer === '') return;
  const refuseCell: (what: string, key: keyof ToldRow) => never = (what, key) => {
    throw new InputError(what, 'Correct the cell, or clear its row: then nothing is remembered.', {
      file,
      line: `${TOLD.sheet}!${TOLD.letters[key]}${TOLD.firstRow + i}`,
    });
  };
  if (row.columns === '') refuseCell('the row does not say of which columns', 'columns');
  const kind = KINDS[row.kind.toLowerCase()];
  if (kind === undefined) {
    refuseCell(`"${row.kind}" is none of ${Object.keys(KINDS).join(', ')}`, 'kind');
  }
  const key = JSON.stringify([kind, row.columns.toLowerCase(), row.name.toLowerCase()]);
  const before = found.get(key);
  found.set(key, {
    kind,
    columns: row.columns,
    name: row.name.toLowerCase(),
    toldFor: before?.toldFor ?? row.toldFor,
    answers: joinedOptions(
      before?.answers ?? {},
      answerOf(row.answer, (what) => refuseCell(what, 'answer')),
    ),
  });
}

function answerOf(text: string, refuseCell: (what: string) => never): FileOptions {
  if (text.toLowerCase() === NOTHING) return {};
  const at = text.indexOf('=');
  const name = text.slice(0, at).trim();
  if (at < 1 || name === FORGET) return refuseCell(`"${text}" is not written OPTION=VALUE`);
  try {
    return fileOption(name, text.slice(at + 1).trim());
  } catch (error) {
    if (!(error instanceof InvalidArgumentError)) throw error;
    return refuseCell(`"${text}" can't be used: ${error.message.replace(/\.$/, '')}`);
  }
}
