import { electricityVocabulary } from '../electricity-vocabulary.js';
import { gasVocabulary } from '../gas-vocabulary.js';
import { temperatureVocabulary } from '../temperature-vocabulary.js';
import type { Vocabulary } from '../vocabulary.js';
import type { FileKind } from './remembered-answers.js';

/**
 * What a reader of one kind of files looks for.
 *
 * @param kind what the files are of
 * @returns its channels and words
 * @example vocabularyOf('gas').channels // ['gas']
 */
export function vocabularyOf(kind: FileKind): Vocabulary<string> {
  const all = { readings: electricityVocabulary, gas: gasVocabulary, temperature: temperatureVocabulary };
  // Of the channels, only names are asked for here.
  return all[kind] as unknown as Vocabulary<string>;
}
