import { InputError, type Place } from '../../errors.js';
import { richText } from './sheet-scanner.js';
import { decodeCellText } from './xml-text.js';

const item = /<((?:[\w.-]+:)?si)(?:\s[^>]*?)?(?:\/>|>([\s\S]*?)<\/\1\s*>)/g;

/**
 * Reads the table of texts that cells share.
 *
 * @param xml the part sharedStrings.xml
 * @param place file, for messages
 * @returns the plain text of every item, in order
 * @throws InputError when the part has a document type
 */
export function readSharedStrings(xml: string, place: Place): string[] {
  if (/<!DOCTYPE/i.test(xml)) {
    throw new InputError(
      'its shared texts have a document type',
      'Save the workbook again in a spreadsheet program.',
      place,
    );
  }
  const texts: string[] = [];
  for (const match of xml.matchAll(item)) texts.push(decodeCellText(richText(match[2] ?? '')));
  return texts;
}
