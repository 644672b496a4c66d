/** What the heat pump cost through the battery in a month, in the currency; blank without one. */
export function throughBattery(_electricityKwh: string, _row: number): string {
  return '""';
}
