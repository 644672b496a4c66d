import type { Node } from '../../../formula/nodes.js';
import { f, type Line } from '../../book/terms.js';
import { type BatteryKey, batteryFlags } from '../../fields/battery-fields.js';
import { SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import type { Check } from '../checks.js';
import { ref } from '../references.js';
import { BATTERY_RESULTS, REACHED, sizingRows } from './battery-rows.js';
import { batterySpan, type SpanOfTariff } from './battery-span.js';
import { STATUS } from './battery-status.js';
import { LEFT_OUT_NAME } from './left-out-words.js';
import { SPAN_WORDS } from './span-words.js';

const whole = (text: string): string => `IF(${text},1,0)`;

/** Says on the answer sheet that the battery is left out, and what missing battery channels do to the figures; blank where neither is so. */
export function missingBatteryFormula(_book: Book): string {
  const { missingStart } = SPAN_WORDS;
  return `${LEFT_OUT_NAME}&IF(OR(${LEFT_OUT_NAME}="",${missingStart}=""),""," ")&${SPAN_WORDS.missingStart}&IF(${SPAN_WORDS.missingEnd}="",""," ")&${SPAN_WORDS.missingEnd}`;
}

const flagged = (first: BatteryKey, last: BatteryKey): Node => f`SUM(${batteryFlags(first, last)})`;

function inputChecks({ workings, shape }: Book): Check[] {
  const { battery, batteryReadings, readings } = workings;
  return [
    {
      name: 'A battery ran, half-hours lack its readings',
      formula: `IF(${SPAN_WORDS.channelsMissing}=1,MAX(1,COUNT(${ref(readings.channels.importKwh)})),${ref(batteryReadings.lacking)})`,
      advice:
        'Their import already holds the battery’s shifting: tariffs look better or worse than they would be. Fill both channels from its first day on.',
      kind: 'fault',
    },
    {
      name: 'Battery figures that can’t be used',
      formula: ref(battery.faults),
      advice: `${SHEETS.battery} says which: powers above 0 kW, efficiencies above 0 % and at most 100 %, nothing negative. Until then it counts as no battery.`,
      kind: 'fault',
    },
    {
      name: 'Choices of the battery that are neither yes nor no',
      formula: flagged('chargeFromGrid', 'mayExport'),
      advice: `Write yes or no on ${SHEETS.battery}.`,
      kind: 'fault',
    },
    {
      name: 'Prices of the battery that are no amounts',
      formula: flagged('priceFixed', 'pricePerKwh'),
      advice: `Type 0 or more on ${SHEETS.battery}, or clear the cell.`,
      kind: 'fault',
    },
    {
      name: 'Tariff to look at on Battery not found',
      formula: flagged('tariff', 'tariff'),
      advice: `Choose one of the names on ${SHEETS.tariffs}, or clear the cell for today’s.`,
      kind: 'fault',
    },
    {
      name: 'Reserve above the usable capacity',
      formula: whole(`AND(${ref(battery.usableKwh)}>0,${ref(battery.reserveKwh)}>${ref(battery.usableKwh)})`),
      advice: 'Such a battery never gives anything.',
      kind: 'note',
    },
    {
      name: 'Least costs and sizing that an input has outdated',
      formula: `COUNTIFS(${SHEETS.battery}!$${REACHED.status}$${BATTERY_RESULTS.first}:$${REACHED.status}$${BATTERY_RESULTS.last},"${STATUS.stale}")+${whole(`${SHEETS.battery}!$C$${sizingRows(shape).status}="${STATUS.stale}"`)}`,
      advice: 'Run the fill without files: it works them out anew.',
      kind: 'note',
    },
  ];
}

const LAWS: readonly { name: string; line: (span: SpanOfTariff) => Line }[] = [
  { name: 'Tariffs on which the battery’s level leaves its bounds', line: (span) => span.outOfBounds },
  { name: 'Tariffs on which the level is not what went in and out', line: (span) => span.unbalanced },
  {
    name: 'Tariffs whose months with the battery differ from their half-hours',
    line: (span) => span.unrounded,
  },
  {
    name: 'Tariffs on which import changes by other than what the battery takes and gives',
    line: (span) => span.impossible,
  },
];

/** The checks of the battery's sheets. */
export function batteryChecks(book: Book): Check[] {
  const { tariffs } = batterySpan(book);
  return [
    ...inputChecks(book),
    ...LAWS.map(
      ({ name, line }): Check => ({
        name,
        formula: tariffs.map((span) => ref(line(span))),
        advice: 'Energy or money came from nowhere: a formula was changed.',
        kind: 'fault',
      }),
    ),
  ];
}
