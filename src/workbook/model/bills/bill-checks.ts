import { call, f } from '../../book/terms.js';
import { SHEETS } from '../../layout.js';
import type { Check } from '../checks.js';
import { BILL_STATE } from './bill-columns.js';
import { BILL_FLAGS, BILL_SETTINGS_FLAG } from './bill-flags.js';

/** Checks of the bills: what can’t be used, days that two bills charge or none, and what differs. */
export function billChecks(): Check[] {
  const flagged = (flags: (typeof BILL_FLAGS)[keyof typeof BILL_FLAGS]) => call('SUM', [flags]);
  return [
    {
      name: 'Bills whose dates are missing, no dates, or the wrong way round',
      formula: flagged(BILL_FLAGS.dates),
      advice: `On ${SHEETS.bills}, type the first and the last day that each bill charges; both count.`,
      kind: 'fault',
    },
    {
      name: 'Bills that charge days of another bill too',
      formula: flagged(BILL_FLAGS.overlap),
      advice: 'Correct the dates; of a bill that was sent anew, keep the last.',
      kind: 'fault',
    },
    {
      name: 'Entries of bills that are missing or can’t be used',
      formula: f`${flagged(BILL_FLAGS.entries)}+${BILL_SETTINGS_FLAG}`,
      advice: `The flags right of the bill say where: it needs tariff, total, kWh with their rates, and standing charge.`,
      kind: 'fault',
    },
    {
      name: 'Days between bills that no bill charges',
      formula: 'SUM(bill_gaps)',
      advice: 'A bill is missing, or a date is wrong.',
      kind: 'note',
    },
    {
      name: 'Bills that can’t be held against the readings',
      formula: `COUNTIFS(bill_states,">=${BILL_STATE.ratesUnusable}",bill_states,"<${BILL_STATE.compared}")`,
      advice: 'Fill in the readings of their days, or the rates of their tariff.',
      kind: 'note',
    },
    {
      name: 'Bills that differ from the readings',
      formula: 'COUNTIFS(bill_differs,1)',
      advice: `${SHEETS.bills} names the line that explains most of it.`,
      kind: 'note',
    },
  ];
}
