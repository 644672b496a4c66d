import type { Channel } from './channels.js';

/** A header's meaning and how surely: a `strong` word names the channel, a `weak` one only where nothing better is there. */
interface ChannelMatch<C extends string> {
  channel: C;
  strength: 'strong' | 'weak';
}

/** Tells what a header measures; undefined where it names nothing. */
export type MatchHeader<C extends string> = (header: string) => ChannelMatch<C> | undefined;

/**
 * The words of a header: joined names split, punctuation dropped, lower case.
 *
 * @param header text of the header
 * @returns words with single blanks between
 * @example headerWords('gridImport_kWh') // 'grid import k wh'
 */
export function headerWords(header: string): string {
  return joinedNamesSplit(header)
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/**
 * Joined names with blanks between their words.
 *
 * @param header text of the header
 * @returns the text, otherwise as it was
 * @example joinedNamesSplit('startUtc') // 'start Utc'
 */
export function joinedNamesSplit(header: string): string {
  return header.replace(/([a-z])([A-Z])/g, '$1 $2');
}

const has = (words: string, ...any: string[]): boolean =>
  any.some((word) => new RegExp(`(^| )(${word})( |$)`).test(words));

/** A number that says which of a tariff's rates holds, no rate. */
const PRICE_BAND = '(tariff|rate|price) (period|slot|band|code)';

/** Columns of money, of meters' numbers and of rooms: readings files have them, this reader has no use for them. */
export function isNoReading(words: string): boolean {
  if (has(words, PRICE_BAND)) return true;
  if (
    has(words, 'costs?', 'amount', 'bill(ed)?', 'standing', 'vat', 'balance', 'co2', 'carbon', 'emissions?')
  ) {
    return true;
  }
  return has(
    words,
    'mpan',
    'mprn',
    'serial',
    'id',
    'row',
    'no',
    'nr',
    'number',
    'device',
    'postcode',
    'account',
  );
}

/**
 * Matches a header of electricity readings in plain English words. Battery and car come first because their columns also say
 * charge, in or out; the weak words (consumption, energy, generation) count only where no column says it better.
 *
 * @param header text of the header
 * @returns the channel and how surely, undefined where nothing matches
 * @example matchElectricityChannel('Grid import (kWh)') // { channel: 'importKwh', strength: 'strong' }
 */
export const matchElectricityChannel: MatchHeader<Channel> = (header) => {
  const words = headerWords(header);
  const strong = (channel: Channel): ChannelMatch<Channel> => ({ channel, strength: 'strong' });
  const weak = (channel: Channel): ChannelMatch<Channel> => ({ channel, strength: 'weak' });
  if (has(words, 'temp', 'temps', 'temperature', 'tmean', 'outdoor', 'outside', 'outdoors')) {
    if (
      has(words, 'indoor', 'inside', 'room', 'flow', 'return', 'tank', 'cylinder', 'water', 'hall', 'target')
    ) {
      return undefined;
    }
    return has(words, 'outdoor', 'outside', 'outdoors', 'external', 'ambient', 'air')
      ? strong('outdoorC')
      : weak('outdoorC');
  }
  if (
    has(words, 'price', 'prices', 'rate', 'tariff', 'pence') &&
    !has(words, PRICE_BAND) &&
    !has(words, 'flow', 'flowrate')
  ) {
    if (has(words, 'export')) return undefined;
    return strong('pricePence');
  }
  if (isNoReading(words)) return undefined;
  if (has(words, 'battery', 'batt', 'storage')) {
    const out = has(words, 'discharged?', 'discharging', 'out', 'output', 'from', 'export');
    const into = has(words, 'charged?', 'charging', 'in', 'input', 'to', 'into', 'import');
    if (out === into) return undefined;
    return strong(out ? 'batteryOutKwh' : 'batteryInKwh');
  }
  if (has(words, 'car', 'ev', 'evse', 'vehicle', 'charger', 'charge point', 'chargepoint', 'car charging')) {
    return strong('carKwh');
  }
  const heatMade = has(words, 'output', 'out', 'delivered', 'produced', 'generated', 'thermal', 'supplied');
  if (has(words, 'heat pump', 'heatpump', 'hp', 'ashp', 'gshp')) {
    return strong(heatMade || has(words, 'heat output') ? 'heatOutputKwh' : 'heatPumpKwh');
  }
  if (has(words, 'heat', 'thermal')) {
    return heatMade
      ? strong('heatOutputKwh')
      : has(words, 'meter', 'energy')
        ? weak('heatOutputKwh')
        : undefined;
  }
  if (
    has(
      words,
      'export',
      'exported',
      'exports',
      'feed in',
      'feedin',
      'returned',
      'injection',
      'to grid',
      'fed in',
    )
  ) {
    return strong('exportKwh');
  }
  if (has(words, 'solar', 'pv', 'photovoltaic')) return strong('solarKwh');
  if (has(words, 'import', 'imported', 'imports', 'from grid')) return strong('importKwh');
  if (has(words, 'generation', 'generated', 'production', 'produced', 'yield')) return weak('solarKwh');
  if (has(words, 'house', 'home', 'load', 'demand', 'self', 'total')) return undefined;
  if (has(words, 'consumption', 'consumed', 'usage', 'use', 'used', 'energy', 'electricity')) {
    return weak('importKwh');
  }
  return undefined;
};

/**
 * The channel that a title or the name of a file speaks of, for a file whose column does not say.
 *
 * @param text title, or file name without folder and ending
 * @param match how headers are matched
 * @returns the channel, undefined where the text says nothing sure
 * @example channelOfTitle('solar-2026', matchElectricityChannel) // 'solarKwh'
 */
export function channelOfTitle<C extends string>(text: string, match: MatchHeader<C>): C | undefined {
  const words = headerWords(text.replace(/\d+/g, ' '));
  if (has(words, 'import', 'imports', 'consumption') && has(words, 'export', 'exports')) return undefined;
  return match(words)?.channel;
}

const CHANNEL_NAME = /kwh$/i;

/**
 * A channel by its own name, as options and this project's sample files write it.
 *
 * @param header text of the header
 * @param channels the names to look among
 * @returns the channel, undefined where the header is no such name
 * @example channelNamed('importKwh', ['importKwh']) // 'importKwh'
 */
export function channelNamed<C extends string>(header: string, channels: readonly C[]): C | undefined {
  const bare = header.trim().toLowerCase();
  return channels.find((c) => c.toLowerCase() === bare || c.replace(CHANNEL_NAME, '').toLowerCase() === bare);
}
