import { CHANNELS, type Channel, isAveraged } from './channels.js';
import { matchElectricityChannel } from './match-channels.js';
import type { Vocabulary } from './vocabulary.js';

/** Half-hourly electricity, heat, price and outdoor temperature. */
export const electricityVocabulary: Vocabulary<Channel> = {
  channels: CHANNELS,
  match: matchElectricityChannel,
  fallback: 'importKwh',
  quantities: (channel) =>
    channel === 'outdoorC' ? ['temperature'] : channel === 'pricePence' ? ['price'] : ['energy', 'power'],
  assumedUnit: (channel) => (channel === 'outdoorC' ? 'degC' : channel === 'pricePence' ? 'p/kWh' : 'kWh'),
  averaged: isAveraged,
};
