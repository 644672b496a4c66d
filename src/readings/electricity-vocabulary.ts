import { CHANNELS, type Channel, isAveraged, SIGNED_CHANNELS } from './channels.js';
import { matchElectricityChannel } from './match-channels.js';
import type { Vocabulary } from './vocabulary.js';

/** Half-hourly electricity, heat, price and outdoor temperature. */
export const electricityVocabulary: Vocabulary<Channel> = {
  channels: CHANNELS,
  signed: SIGNED_CHANNELS,
  match: matchElectricityChannel,
  // Consumption is what a supply meter counts; beside solar or a battery, some programs call the whole demand so.
  doubtBeside: (weak, other) =>
    weak === 'importKwh' && (other === 'solarKwh' || other === 'batteryOutKwh')
      ? { taken: 'what came from the grid', orElse: 'all that the home used' }
      : undefined,
  download: 'exportKwh',
  fallback: 'importKwh',
  quantities: (channel) =>
    channel === 'outdoorC' ? ['temperature'] : channel === 'pricePence' ? ['price'] : ['energy', 'power'],
  assumedUnit: (channel) => (channel === 'outdoorC' ? 'degC' : channel === 'pricePence' ? 'p/kWh' : 'kWh'),
  averaged: isAveraged,
};
