import { f, joined } from '../../book/terms.js';
import { timerFlags } from '../../fields/timer-fields.js';
import { SHEETS } from '../../layout.js';
import { STATUS } from '../battery/battery-status.js';
import type { Book } from '../book.js';
import type { Check } from '../checks.js';
import { timerRange } from './timer-places.js';

/** Checks of the timers: what can’t be used, and what their being on means for every figure. */
export function timerChecks({ workings: { timers } }: Book): Check[] {
  return [
    {
      name: 'Inputs of timers that are missing or can’t be used',
      formula: joined(
        '+',
        (['car', 'hotWater', 'supply'] as const).map((of) => f`SUM(${timerFlags(of)})`),
      ),
      advice: `The flags on ${SHEETS.timers} say which; until then the load counts as it was metered.`,
      kind: 'fault',
    },
    {
      name: 'Timers that are on',
      formula: f`${timers.isOn}`,
      advice: `Every total is that with the timers on ${SHEETS.timers}; what was paid stays as metered.`,
      kind: 'note',
    },
    {
      name: 'Savings by timers with the battery that an input has outdated',
      formula: `COUNTIFS(${SHEETS.timers}!${timerRange('batteryStatus')},"${STATUS.stale}")`,
      advice: 'Run the fill without files: it works them out anew.',
      kind: 'note',
    },
  ];
}
