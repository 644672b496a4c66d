import { warmthOfSeason } from './sample-grid.js';
import { seededRandom } from './seeded-random.js';

const HOUR_MS = 3_600_000;

/** Invented weather, hour by hour. */
export interface SampleWeather {
  /** Start of the first hour, epoch ms. */
  firstUtcMs: number;
  /** Outdoor temperature, °C to 0.1. */
  outdoorC: Float64Array;
  /** 0 under a thick sheet of cloud, 1 under a blue sky. */
  clearness: Float64Array;
  /** Wind over the country, in standard deviations from its mean. */
  wind: Float64Array;
}

/**
 * Plausible weather for the middle of England: the season, spells of some days, the hours of the day.
 * Means and spreads are from memory of the region's climate (mean about 10 °C, about 2,000 degree days at 15.5 °C).
 *
 * @param fromUtcMs start of the first hour, epoch ms
 * @param untilUtcMs end of the last hour, epoch ms
 * @returns hourly temperature, clearness and wind; the same for the same start
 * @example sampleWeather(Date.UTC(2025, 0, 1), Date.UTC(2025, 0, 2)).outdoorC.length // 24
 */
export function sampleWeather(fromUtcMs: number, untilUtcMs: number): SampleWeather {
  const random = seededRandom('weather of the sample home');
  const hours = (untilUtcMs - fromUtcMs) / HOUR_MS;
  const outdoorC = new Float64Array(hours);
  const clearness = new Float64Array(hours);
  const wind = new Float64Array(hours);
  // Each spell fades with its own time: four days for warm and cold, thirty hours for wind, eighteen for cloud.
  const spell = fadingNoise(random.normal, 96);
  const gusts = fadingNoise(random.normal, 30);
  const cloud = fadingNoise(random.normal, 18);
  for (let i = 0; i < hours; i++) {
    const utcMs = fromUtcMs + i * HOUR_MS;
    const hourOfDay = (utcMs / HOUR_MS) % 24;
    const warmth = warmthOfSeason(utcMs / (24 * HOUR_MS) + 25_569);
    const clear = 1 / (1 + Math.exp(-(1.6 * cloud() - 0.35 + 0.25 * warmth)));
    const windNow = gusts();
    const daily = (2.1 + 1.7 * warmth) * (0.5 + clear) * Math.cos((2 * Math.PI * (hourOfDay - 14.5)) / 24);
    // A clear or a still winter's day is a cold one, a clear summer's day a warm one.
    const sky = 1.6 * warmth * (clear - 0.45) + 0.9 * Math.max(0, -warmth) * windNow;
    const mean = 10.3 + 6.5 * warmth + 3.3 * spell();
    outdoorC[i] = Math.round((mean + sky + daily) * 10) / 10;
    clearness[i] = clear;
    wind[i] = windNow;
  }
  return { firstUtcMs: fromUtcMs, outdoorC, clearness, wind };
}

/** Noise of mean 0 and deviation 1 that remembers its past, fading over a number of hours. */
function fadingNoise(normal: () => number, fadeHours: number): () => number {
  const keep = Math.exp(-1 / fadeHours);
  const fresh = Math.sqrt(1 - keep * keep);
  let value = normal();
  return () => {
    value = keep * value + fresh * normal();
    return value;
  };
}
