import { headerWords, type MatchHeader } from './match-channels.js';
import type { Vocabulary } from './vocabulary.js';

/** Mean, maximum and minimum of the outdoor temperature, °C. */
export type TemperatureChannel = 'meanC' | 'maxC' | 'minC';

const matchTemperature: MatchHeader<TemperatureChannel> = (header) => {
  const words = headerWords(header);
  if (/\b(indoor|inside|room|flow|return|tank|cylinder|water|dew|soil|ground|apparent|feels)\b/.test(words)) {
    return undefined;
  }
  const temperature = /\b(temp|temps|temperature|t|outdoor|outside|air|tmax|tmin|tmean|tavg|c|f)\b/.test(
    words,
  );
  const says = (channel: TemperatureChannel) =>
    ({ channel, strength: temperature ? 'strong' : 'weak' }) as const;
  if (/\b(max|maximum|high|highest|tmax)\b/.test(words)) return says('maxC');
  if (/\b(min|minimum|low|lowest|tmin)\b/.test(words)) return says('minC');
  if (/\b(mean|avg|average|tmean|tavg)\b/.test(words)) return says('meanC');
  return temperature ? { channel: 'meanC', strength: 'weak' } : undefined;
};

/** Outdoor temperature: half-hourly, hourly, or a day's mean, maximum and minimum. */
export const temperatureVocabulary: Vocabulary<TemperatureChannel> = {
  channels: ['meanC', 'maxC', 'minC'],
  match: matchTemperature,
  fallback: 'meanC',
  quantities: () => ['temperature'],
  assumedUnit: () => 'degC',
  averaged: () => true,
};
