import { label } from '../cells.js';
import type { Cell } from '../sheet-model.js';

/** The rule, a sentence a row, two rows each. */
const RULE: readonly string[] = [
  'Solar surplus goes into the battery first.',
  'It charges from the grid in the cheapest half-hours of each day by the tariff’s clock that are needed to fill it, only where the spread to that day’s dearest hours beats losses and wear, and holds in those hours.',
  'In all others it serves demand, down to the reserve; not where, on a day with grid charging, the rate does not repay what refilling costs.',
  'Where it may export, and the export rate beats refilling, wear and every rate of the day, it gives all that it can and sells the rest. By a half-hourly price it decides on that price alone and does not sell.',
  'It works on demand (import − export + solar + battery out − battery in), so that readings metered with a battery are not shifted twice.',
];

const CAUTION =
  'Caution: batteries, inverters and grid connection are work for qualified installers under local codes and the network operator’s rules; the maker’s limits on cycles and temperature stand above any schedule here. Figures are estimates, not advice: one year is not every year, and rates change.';

/** The rule in words and the caution, right of the inputs. */
export function batteryWordCells(): Cell[] {
  return [
    label('F5', 'The rule it follows, on every tariff', 'section', { mergeTo: 'L5' }),
    ...RULE.flatMap((text, i) => {
      const row = 6 + 2 * i;
      return [label(`F${row}`, `${i + 1}. ${text}`, 'labelWrap', { mergeTo: `L${row + 1}` })];
    }),
    label('F17', CAUTION, 'labelWrap', { mergeTo: 'L20' }),
  ];
}
