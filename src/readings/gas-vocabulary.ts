import { headerWords, isNoReading, type MatchHeader } from './match-channels.js';
import type { Vocabulary } from './vocabulary.js';

/** A gas meter's only channel. */
export type GasChannel = 'gas';

const matchGas: MatchHeader<GasChannel> = (header) => {
  const words = headerWords(header);
  if (isNoReading(words) || /\b(price|rate|tariff|calorific|correction|factor)\b/.test(words))
    return undefined;
  if (/\bgas\b/.test(words)) return { channel: 'gas', strength: 'strong' };
  const weak =
    /\b(consumption|consumed|usage|use|used|volume|energy|kwh|m3|ft3|reading|register|index|meter)\b/;
  return weak.test(words) ? { channel: 'gas', strength: 'weak' } : undefined;
};

/** Gas, by volume or by energy. */
export const gasVocabulary: Vocabulary<GasChannel> = {
  channels: ['gas'],
  match: matchGas,
  fallback: 'gas',
  quantities: () => ['volume', 'energy'],
  assumedUnit: () => 'm3',
  averaged: () => false,
  // Bills and meters' pages print them so.
  marksInCells: true,
};
