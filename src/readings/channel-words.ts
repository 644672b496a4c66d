/** Channels as people call them; commands and files of options name them by their keys. */
const WORDS: Readonly<Record<string, string>> = {
  importKwh: 'import',
  exportKwh: 'export',
  solarKwh: 'solar',
  batteryInKwh: 'battery in',
  batteryOutKwh: 'battery out',
  heatPumpKwh: 'heat pump',
  heatOutputKwh: 'heat output',
  carKwh: 'car',
  outdoorC: 'outdoor temperature',
  pricePence: 'half-hourly price',
  batteryNetKwh: 'battery, in above nought',
  batteryNetOutKwh: 'battery, out above nought',
  gridNetKwh: 'grid, import above nought',
  gridNetExportKwh: 'grid, export above nought',
  meanC: 'mean temperature',
  maxC: 'highest temperature',
  minC: 'lowest temperature',
};
const KEY = new RegExp(`\\b(?:${Object.keys(WORDS).join('|')})\\b`, 'g');

/**
 * A text of a report with channels in words.
 *
 * @param text of our own, in which channels stand by their keys
 * @returns the same with their words
 * @example channelsInWords('importKwh, a register') // 'import, a register'
 */
export function channelsInWords(text: string): string {
  return text.replaceAll(KEY, (key) => WORDS[key] ?? key);
}
