import { InputError, type Place } from '../../errors.js';
import { stringItems } from './string-items.js';
import { decodeCellText } from './xml-text.js';

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
  return stringItems(xml).map(decodeCellText);
}
