import { BLANK, type HeatingLine, lineOf } from './heating-line.js';

/** What a kWh of hot water cost on one side: paying it at the wrong rate is the usual slip, so the rate is shown. */
export function hotWaterPaid(key: string, label: string, poundsKey: string): HeatingLine {
  return lineOf(
    {
      key,
      label,
      unit: 'p/kWh of heat',
      format: 'pence',
      description: 'Cost of hot water on this side ÷ its heat; an immersion heater pays its own rate.',
    },
    [poundsKey, 'hotWaterHeatKwh'],
    ([cost, heat]) => (heat! > 0 ? (cost! * 100) / heat! : BLANK),
    ([cost, heat]) => `IF(${heat}>0,${cost}*100/${heat},"")`,
  );
}
