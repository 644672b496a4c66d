import type { RecalledFile } from './recall-answers.js';
import { isNothing, isSaidAlike, type RememberedAnswers } from './remembered-answers.js';

/** What is remembered from now on. */
export interface Remembered {
  answers: RememberedAnswers[];
  /** Files that were told different things and can't be told apart next month: nothing is remembered of them. */
  alike: string[];
}

/**
 * Adds what the files of a fill were told to what is remembered. Of files that were told nothing, that is remembered where others of their
 * columns or name were told something: so that what is said of one meter is never used for another.
 *
 * @param before what is remembered
 * @param told what each file of the fill was told, see {@link answersToRemember}
 * @param recalled the same files, and what was said of each in this fill
 * @returns what is remembered from now on; the very list given where nothing changed
 * @example remember([], told, recalled).answers.length // 1
 */
export function remember(
  before: readonly RememberedAnswers[],
  told: readonly RememberedAnswers[],
  recalled: readonly RecalledFile[],
): Remembered {
  const keyOf = ({ kind, columns, name }: RememberedAnswers): string =>
    JSON.stringify([kind, columns.toLowerCase(), name]);
  const all = new Map(before.map((one) => [keyOf(one), one]));
  const now = new Map<string, RememberedAnswers>();
  const alike: string[] = [];
  told.forEach((one, i) => {
    const key = keyOf(one);
    const other = now.get(key);
    if (other !== undefined && !isSaidAlike(other.answers, one.answers))
      alike.push(other.toldFor, one.toldFor);
    now.set(key, one);
    const { stated, forgets } = recalled[i]!;
    if (isNothing(stated) && !forgets) return;
    const held = all.get(key);
    if (held !== undefined && isSaidAlike(held.answers, one.answers)) return;
    if (isNothing(one.answers)) all.delete(key);
    else all.set(key, one);
  });
  for (const [key, one] of now) if (alike.includes(one.toldFor)) all.delete(key);
  const isMuchLike = (one: RememberedAnswers, other: RememberedAnswers): boolean => {
    if (one.kind !== other.kind || isNothing(other.answers)) return false;
    const isSameShape = one.columns.toLowerCase() === other.columns.toLowerCase();
    return isSameShape !== (one.name === other.name) && (isSameShape || one.name !== '');
  };
  for (const [key, one] of now) {
    if (all.has(key) || !isNothing(one.answers) || alike.includes(one.toldFor)) continue;
    if ([...all.values()].some((other) => isMuchLike(one, other))) all.set(key, one);
  }
  const answers = [...all.values()];
  const isSame = answers.length === before.length && answers.every((one, i) => one === before[i]);
  return { answers: isSame ? (before as RememberedAnswers[]) : answers, alike: [...new Set(alike)] };
}
