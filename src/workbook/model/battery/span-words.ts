import { partLetters, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label, quoted } from '../cells.js';
import { CELL } from '../columns.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { BATTERY_RESULTS } from './battery-rows.js';
import { batterySpan } from './battery-span.js';
import { FIRST_WORD_ROW } from './span-rows.js';
import { yearBlankFormula } from './year-figures.js';

/** Names of the words that other sheets put together. */
export const SPAN_WORDS = {
  channelsMissing: 'channels_missing',
  missingStart: 'channels_missing_words',
  missingEnd: 'channels_missing_advice',
  without: 'looked_at_without',
  with: 'looked_at_with',
  change: 'looked_at_change_words',
  saved: 'looked_at_saved_words',
  charging: 'charging_hours_words',
  answer: 'looked_at_answer_words',
  yearBlank: 'battery_year_blank_words',
} as const;

const MISSING = [
  'A battery ran while this was metered, and its in and out channels are missing: the import already holds its shifting.',
  'Tariffs that are cheap when it charged look cheaper than without it, others dearer, and “with battery” counts shifting twice.',
] as const;

const own = (column: number): string => partLetters('batterySpan', column);

/** Parts of sentences on other sheets, each in a cell of its own. */
export function spanWordCells(book: Book): Cell[] {
  const { workings } = book;
  const { halfHours } = batterySpan(book);
  const { looked, readings, months } = workings;
  const { batteryInKwh, batteryOutKwh } = readings.channels;
  const result = (letters: string): string =>
    `INDEX(${SHEETS.battery}!$${letters}$${BATTERY_RESULTS.first}:$${letters}$${BATTERY_RESULTS.last},MAX(1,${ref(looked)}))`;
  const whereLooked = (text: string): string => `IF(${ref(looked)}=0,0,SUM(${text}))`;
  const amount = (text: string): string => `${CELL.currency}&FIXED(${text},2)`;
  const missing = (words: string): string =>
    `IF(AND(${SPAN_WORDS.channelsMissing}=1,SUM(${ref(months.metered)})>0),${quoted(words)},"")`;
  const lines: readonly (readonly [
    text: string,
    unit: string,
    name: string,
    formula: string,
    style: 'integer' | 'text' | 'money',
  ])[] = [
    [
      'A battery ran, its channels are missing',
      '1: yes',
      SPAN_WORDS.channelsMissing,
      `IF(AND(${CELL.batteryRan}="yes",OR(COUNT(${ref(batteryInKwh)})=0,COUNT(${ref(batteryOutKwh)})=0)),1,0)`,
      'integer',
    ],
    ['What that does', 'text', SPAN_WORDS.missingStart, missing(MISSING[0]), 'text'],
    ['What that does, continued', 'text', SPAN_WORDS.missingEnd, missing(MISSING[1]), 'text'],
    [
      'Total without battery, tariff looked at',
      '{major}',
      SPAN_WORDS.without,
      whereLooked(result('C')),
      'money',
    ],
    ['Total with battery, tariff looked at', '{major}', SPAN_WORDS.with, whereLooked(result('D')), 'money'],
    [
      'What it makes of the total, in words',
      'text',
      SPAN_WORDS.change,
      `"On "&looked_at_name&" this battery makes "&${amount(SPAN_WORDS.without)}&" into "&${amount(SPAN_WORDS.with)}&":"`,
      'text',
    ],
    [
      'What it saves, in words',
      'text',
      SPAN_WORDS.saved,
      `${CELL.currency}&FIXED(ABS(${SPAN_WORDS.without}-${SPAN_WORDS.with}),2)&IF(${SPAN_WORDS.without}<${SPAN_WORDS.with}," more."," saved.")`,
      'text',
    ],
    [
      'When it charges, in words',
      'text',
      SPAN_WORDS.charging,
      'IF(battery_charging_hours="","","On an average day it charges from the grid "&battery_charging_hours&".")',
      'text',
    ],
    [
      'What it changes, in words',
      'text',
      SPAN_WORDS.answer,
      `${SPAN_WORDS.change}&" "&${SPAN_WORDS.saved}&IF(${SPAN_WORDS.charging}="",""," ")&${SPAN_WORDS.charging}`,
      'text',
    ],
    [
      'Why figures of a year are blank',
      'text',
      SPAN_WORDS.yearBlank,
      yearBlankFormula(ref(halfHours)),
      'text',
    ],
  ];
  return lines.flatMap(([text, unit, name, is, style], i) => [
    label(`${own(1)}${FIRST_WORD_ROW + i}`, text, 'label'),
    label(`${own(2)}${FIRST_WORD_ROW + i}`, unit, 'unit'),
    formula(`${own(3)}${FIRST_WORD_ROW + i}`, is, style, { name }),
  ]);
}
