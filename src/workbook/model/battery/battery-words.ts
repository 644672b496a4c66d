import { label } from '../cells.js';
import type { Cell } from '../sheet-model.js';

/** The rule, a sentence a row, two rows each. */
const RULE: readonly string[] = [
  'It has two levels for every half-hour, set beforehand from the rates and the average day of the month; between them it takes the sun and serves the home.',
  'Fills up to: what the hours until energy is as cheap again are likely to take from the grid at rates that repay this one after losses and wear. It charges from the grid at full power up to there.',
  'Keeps: what dearer hours are likely to take before refilling pays, less the sun to come; never below the reserve. Down to there it serves the home.',
  'Where it may export, and the export rate beats refilling, wear and every rate of the week, it gives all that it can wherever it doesn’t charge. By a half-hourly price both levels follow that day’s prices alone, and it doesn’t sell.',
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
