import type { Book } from '../book.js';
import { ref } from '../references.js';

/** Defined name of the end of the words on what energy really cost. */
export const SUN_WORDS_NAME = 'sun_cost_words';

/** What sun is worth; where no channel meters it, what a home used of it is in no figure. */
export function sunWordsFormula({ workings }: Book): string {
  const { solarKwh, exportKwh } = workings.readings.channels;
  return `IF(AND(COUNT(${ref(solarKwh)})=0,SUM(${ref(exportKwh)})>0),"; its sun has no meter: the whole home is import alone.",", the roof’s at the export rate forgone.")`;
}
