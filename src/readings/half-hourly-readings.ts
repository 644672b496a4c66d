import type { Channel } from './channels.js';

/** Readings on the half-hours of a local clock: only half-hours that hold at least one value. */
export interface HalfHourlyReadings {
  /** IANA name of the home's time zone. */
  timeZone: string;
  /** Start of each half-hour, epoch ms, ascending, each once. */
  startUtcMs: Float64Array;
  /** One array a channel, as long as `startUtcMs`; NaN where missing. Units: kWh a half-hour, °C, p/kWh. */
  channels: Partial<Record<Channel, Float64Array>>;
  /** 1 where any value of the half-hour was marked as estimated; absent where no file had such marks. */
  estimated?: Uint8Array;
}
