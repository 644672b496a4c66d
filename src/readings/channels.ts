/** What a column of readings measures. Energy in kWh a half-hour; outdoor temperature in °C; price in p/kWh. */
export const CHANNELS = [
  'importKwh',
  'exportKwh',
  'solarKwh',
  'batteryInKwh',
  'batteryOutKwh',
  'heatPumpKwh',
  'heatOutputKwh',
  'carKwh',
  'outdoorC',
  'pricePence',
] as const;

/** One of {@link CHANNELS}. */
export type Channel = (typeof CHANNELS)[number];

/**
 * Channels with a sign, which a file may hold in one column: what is above nought is of the first channel, what is below of the second.
 */
export const SIGNED_CHANNELS = {
  batteryNetKwh: ['batteryInKwh', 'batteryOutKwh'],
  batteryNetOutKwh: ['batteryOutKwh', 'batteryInKwh'],
  gridNetKwh: ['importKwh', 'exportKwh'],
  gridNetExportKwh: ['exportKwh', 'importKwh'],
} as const satisfies Record<string, readonly [above: Channel, below: Channel]>;

/** One of {@link SIGNED_CHANNELS}. */
export type SignedChannel = keyof typeof SIGNED_CHANNELS;

/**
 * Whether a channel is averaged over time (temperature, price) rather than summed (energy).
 *
 * @param channel name of the channel
 * @returns true for temperature and price
 * @example isAveraged('outdoorC') // true
 */
export function isAveraged(channel: string): boolean {
  return channel === 'outdoorC' || channel === 'pricePence';
}
