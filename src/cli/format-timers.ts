import { plainText } from '../plain-text.js';
import { SHEETS } from '../workbook/layout.js';
import {
  TIMER_WORDS_NAME,
  TIMERS_ON_NAME,
  type TimerColumn,
  timerCell,
  UTC_HOURS_NAME,
} from '../workbook/model/timers/timer-places.js';
import type { WorkbookValues } from '../workbook/workbook-values.js';
import { wrapped } from './format-comparison.js';
import { textTable } from './text-table.js';

const NAME_WIDTH = 24;
/** Column of what the timers save. */
const SAVED = 1;
/** The cautions of the sheet in short. */
const CAUTION =
  'Estimates, no promise. Keep a tank hot enough against legionella; chargers, immersion heaters and their circuits are work for licensed people under local codes.';

/**
 * What the timers change, as text for a terminal: the sentence, the cheapest hours on every tariff, and a caution.
 *
 * @param values a workbook, worked out
 * @returns lines of at most 80 columns without colour, with what the timers save where one is on; empty where there is
 *   nothing to move or no hours are typed
 * @example formatTimers(values).split('\n')[0]
 */
export function formatTimers({ inputs, calculated }: WorkbookValues): string {
  if (calculated.named('timer_missing_words') !== '') return '';
  const minor = String(inputs.home.minorUnit ?? '');
  const currency = String(inputs.home.currency ?? '');
  // With both timers off nothing is saved on any tariff: a column of zeros would read as if moving use saved nothing.
  const isOn = calculated.named(TIMERS_ON_NAME) !== 0;
  const rows = inputs.tariffs.flatMap(({ name }, t) => {
    const cell = (key: TimerColumn): unknown => calculated.at(SHEETS.timers, timerCell(key, t));
    const number = (key: TimerColumn): string => {
      const value = cell(key);
      return typeof value === 'number' ? (value + 0).toFixed(2) : '';
    };
    if (typeof cell('asMetered') !== 'number') return [];
    return [
      [
        plainText(String(name)),
        number('saved'),
        number('carPays'),
        number('carLeast'),
        number('carCould'),
        String(cell('carHours')),
      ],
    ];
  });
  const table = [
    ['Timers', 'Saved', 'Car', 'Cheapest', 'More', 'Cheapest hours'],
    ['', currency, `${minor}/kWh`, `${minor}/kWh`, currency, 'of the car'],
    ...rows,
  ].map((row) => row.filter((_, column) => isOn || column !== SAVED));
  const byUtc = String(calculated.named(UTC_HOURS_NAME));
  return [
    ...wrapped(String(calculated.named(TIMER_WORDS_NAME))),
    '',
    ...textTable(table, 1, NAME_WIDTH),
    ...(byUtc === '' ? [] : wrapped(byUtc)),
    ...wrapped(CAUTION),
  ].join('\n');
}
