import { wordsOf } from '../fields/words-of.js';
import { SHEETS } from '../layout.js';
import type { ChannelReadings } from '../sheets/channel-readings.js';
import type { Book } from './book.js';
import type { Check } from './checks.js';
import type { WordLine } from './sentences.js';

/** What becomes of a half-hour without a reading, and what to do. Nobody can tell a gap from zeros that were left out. */
const COUNTS_AS: Readonly<Record<ChannelReadings['channel'], string>> = {
  exportKwh: '0 kWh exported',
  heatPumpKwh: `0 kWh used by it, save in months that ${SHEETS.heating} leaves out`,
  carKwh: '0 kWh charged, for its share, its timer and a battery that may not feed it',
};

/** Said where half-hours lack the reading of a channel: what they count as, and what to do. */
export const whatGapsMean = (channel: ChannelReadings['channel']): string =>
  `They count as ${COUNTS_AS[channel]}. Look for a gap in the file; where it leaves zeros out, nothing is missing.`;

/** Checks of channels whose gaps count as nothing: notes, since a file that leaves zeros out has the same. */
export function channelChecks({ workings }: Book): Check[] {
  return workings.channelReadings.map(({ channel, column, lacking }) => ({
    name: `${column.text.label}: half-hours with import that lack its reading, from the day after its first`,
    formula: lacking,
    advice: whatGapsMean(channel),
    kind: 'note',
    cellName: lackingName(channel),
  }));
}

/** Defined name of the half-hours that lack the reading of a channel. */
const lackingName = (channel: ChannelReadings['channel']): string =>
  `lacking_${wordsOf(channel).replace(/_kwh$/, '')}`;

/** Defined name of the words. */
export const CHANNEL_GAPS_NAME = 'channel_gaps_words';

/** How many half-hours lack a reading beside the import, channel by channel; blank where none does. */
export function channelGapsLine({ workings }: Book): WordLine {
  const channels = workings.channelReadings.map(({ channel, column }) => ({
    name: lackingName(channel),
    text: column.text.label.toLowerCase(),
  }));
  const lacks = channels.map(({ name, text }) => `&IF(${name}=0,""," ${text}: "&FIXED(${name},0)&";")`);
  return {
    name: CHANNEL_GAPS_NAME,
    label: 'Half-hours that lack a channel beside the import',
    unit: 'text',
    formula: `IF(${channels.map(({ name }) => name).join('+')}=0,"","Of all readings, half-hours without"${lacks.join('')}&" see ${SHEETS.checks}.")`,
    style: 'text',
  };
}
