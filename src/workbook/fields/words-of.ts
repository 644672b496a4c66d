/** `totalHeatKwh` as words of a defined name: `total_heat_kwh`. */
export function wordsOf(key: string): string {
  return key.replace(/[A-Z0-9]+/g, (part) => `_${part.toLowerCase()}`);
}
