import { SAMPLE_HOME } from './home.js';

const RADIANS = Math.PI / 180;
const TILT = 35 * RADIANS;
/** Panels face a little west of south. */
const FACING_WEST_OF_SOUTH = 20 * RADIANS;
const LATITUDE = SAMPLE_HOME.latitudeDegrees * RADIANS;
/** Inverter, cable, dirt and heat, as a share of the light that falls on the panels. */
const SYSTEM_SHARE = 0.88;

/**
 * What the panels yield in a half-hour.
 * Source: textbook solar geometry (declination after Cooper, air mass 1/sin of the height), from memory.
 *
 * @param startUtcMs start of the half-hour, epoch ms
 * @param clearness 0 for thick cloud, 1 for blue sky
 * @returns kWh in the half-hour
 * @example sampleSolarKwh(Date.UTC(2026, 0, 1, 0), 1) // 0, at midnight
 */
export function sampleSolarKwh(startUtcMs: number, clearness: number): number {
  const days = (startUtcMs + 900_000) / 86_400_000;
  const dayOfYear = (days - 20_454) % 365.25;
  const hourAngle = ((days % 1) - 0.5) * 2 * Math.PI;
  const declination = 23.45 * RADIANS * Math.sin((2 * Math.PI * (284 + dayOfYear)) / 365);
  // The sun as a vector: up, towards south, towards west.
  const up =
    Math.sin(LATITUDE) * Math.sin(declination) +
    Math.cos(LATITUDE) * Math.cos(declination) * Math.cos(hourAngle);
  if (up <= 0.02) return 0;
  const south =
    Math.sin(LATITUDE) * Math.cos(declination) * Math.cos(hourAngle) -
    Math.cos(LATITUDE) * Math.sin(declination);
  const west = Math.cos(declination) * Math.sin(hourAngle);
  const onPanel =
    up * Math.cos(TILT) +
    Math.sin(TILT) * (south * Math.cos(FACING_WEST_OF_SOUTH) + west * Math.sin(FACING_WEST_OF_SOUTH));
  const direct = 0.95 * 0.75 ** ((1 / up) ** 0.7) * clearness ** 1.4 * Math.max(0, onPanel);
  const scattered = up * (0.13 + 0.6 * clearness * (1 - clearness));
  return SAMPLE_HOME.solarKwp * SYSTEM_SHARE * (direct + scattered) * 0.5;
}
