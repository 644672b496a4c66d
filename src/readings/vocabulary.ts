import type { MatchHeader } from './match-channels.js';
import type { Quantity } from './units.js';

/** What a reader looks for in a file: electricity, gas and temperature files differ in this alone. */
export interface Vocabulary<C extends string> {
  /** Names of the channels, as options give them. */
  channels: readonly C[];
  /** Channels with a sign that options may name: what is above nought, and what is below. */
  signed?: Readonly<Record<string, readonly [above: C, below: C]>>;
  /** What a header says. */
  match: MatchHeader<C>;
  /** What a weak word is taken to mean, and what else it could mean beside a column of another channel. */
  doubtBeside?: (weak: C, other: C) => { taken: string; orElse: string } | undefined;
  /** Channel whose word is in the names of downloads of any kind: beside a word of another channel it says nothing. */
  download?: C;
  /** Channel of a lone value column that nothing names; said in the report as assumed. */
  fallback: C;
  /** What a channel may be measured in, the usual first. */
  quantities: (channel: C) => readonly Quantity[];
  /** Unit taken where none is stated; said in the report as assumed. */
  assumedUnit: (channel: C) => string;
  /** Whether a mark may stand behind a number: `180 E`, an estimated read. */
  marksInCells?: boolean;
  /** Whether values are averaged over time rather than summed. */
  averaged: (channel: C) => boolean;
}
