import { absoluteRow } from '../cell-address.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import {
  AS_METERED_WORDS_NAME,
  asMeteredWordsFormula,
  meteredKwhWords,
  STANDS_APART_NAME,
  standsApartFormula,
} from './as-metered-row.js';
import { askedForLines } from './battery/asked-for-words.js';
import { batterySpan } from './battery/battery-span.js';
import { leftOutLines } from './battery/left-out-words.js';
import { SUN_WORDS_NAME, sunWordsFormula } from './battery/sun-words.js';
import { priceBlankLine } from './battery/year-figures.js';
import type { Book } from './book.js';
import { quoted } from './cells.js';
import { channelGapsLine } from './channel-checks.js';
import { sureLines } from './how-sure.js';
import { periodRef } from './period-line.js';
import { ref } from './references.js';
import {
  FIRST_TARIFF_LETTERS,
  HELPER_ROW as H,
  hasTotalName,
  LAST_TARIFF_LETTERS,
  pricedName,
  TARIFF_ROW as T,
  TODAYS_IS_PRICED_NAME,
  TODAYS_PLACE_NAME,
  TODAYS_TARIFF_CELL,
  tariffLetters,
} from './tariff-rows.js';
import { whyNoTotalFormula } from './why-no-total.js';
import { worlds } from './worlds.js';

/** A row of the tariffs sheet, across all tariffs. */
export function tariffRow(row: number): string {
  return absoluteRow(SHEETS.tariffs, FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, row);
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const MONTH_LIST = MONTHS.map(quoted).join(',');

/** `Oct 2025` as a formula that does not depend on the language of the program. */
export function monthTextFormula(cell: string): string {
  return `CHOOSE(MONTH(${cell}),${MONTH_LIST})&" "&YEAR(${cell})`;
}

/** `31 Mar 2026`, likewise. */
export function dateText(cell: string): string {
  return `DAY(${cell})&" "&${monthTextFormula(cell)}`;
}

/** Pounds in a sentence, `1,234.50`: FIXED rounds and sets separators as the program does. */
const amount = (text: string): string => `currency_symbol&FIXED(${text},2)`;

const NO_READINGS = `No readings in the period yet: paste half-hours into ${SHEETS.readings}, or run the fill.`;
const NONE_CHOSEN = 'The chosen months have no readings';
/** Defined name of the cell that says whether the from-month is after the to-month. */
export const WRONG_WAY_NAME = 'months_wrong_way_round';
const WRONG_WAY = 'The from-month is after the to-month';
const CHOOSE_OTHERS = ': choose others, or clear both.';
const NO_TARIFF = `Type today’s tariff on ${SHEETS.tariffs}, from column ${FIRST_TARIFF_LETTERS} on: a name, the standing charge and the rates; then choose it in cell ${TODAYS_TARIFF_CELL}.`;
const NO_TODAYS = `Choose today’s tariff on ${SHEETS.tariffs}, cell ${TODAYS_TARIFF_CELL}.`;

/** Days of a period that is a year: twelve months, or whole weeks. */
const [SHORTEST_YEAR, LONGEST_YEAR] = [364, 366];

/** A part of the sentences on the answer sheet, in a cell of its own. */
export interface WordLine {
  /** Defined name. */
  name: string;
  label: string;
  unit: string;
  /** Without `=`. */
  formula: string;
  style: 'text' | 'month' | 'integer' | 'money' | 'percent' | 'rate' | 'rateFine';
}

const lackingName = (tariff: number): string => `lacking_to_tariff_${tariff + 1}`;

/** The tariffs without a total and why, one more in each line. */
function lackingLines(): WordLine[] {
  return Array.from({ length: TARIFF_COUNT }, (_, t): WordLine => {
    const cell = (row: number): string => `${SHEETS.tariffs}!$${tariffLetters(t)}$${row}`;
    const before = t === 0 ? '""' : lackingName(t - 1);
    const comma = t === 0 ? '""' : `IF(${before}="","","; ")`;
    const why = whyNoTotalFormula(cell(H.unpriced));
    return {
      name: lackingName(t),
      label: `Without a total, up to tariff ${t + 1}`,
      unit: 'text',
      formula: `${before}&IF(OR(${cell(T.name)}="",${pricedName(t)}=1),"",${comma}&${cell(T.name)}&" ("&${why}&")")`,
      style: 'text',
    };
  });
}

/** What the sentences are made of, in the order in which they need one another. */
export function wordLines(book: Book): WordLine[] {
  const { months, calendar, timers, halfHours } = book.workings;
  const [start, selected] = [ref(months.start), ref(months.selected)];
  const metered = periodRef(book, months.metered);
  const days = periodRef(book, months.days);
  const first = `MATCH(1,${selected},0)`;
  const place = (name: string, label: string, formula: string): WordLine => ({
    name,
    label,
    unit: 'no. from 1; 0: none',
    formula,
    style: 'integer',
  });
  const text = (name: string, label: string, formula: string): WordLine => ({
    name,
    label,
    unit: 'text',
    formula,
    style: 'text',
  });
  const money = (name: string, label: string, formula: string): WordLine => ({
    name,
    label,
    unit: '{major}',
    formula,
    style: 'money',
  });
  const month = (name: string, label: string, formula: string): WordLine => ({
    name,
    label,
    unit: 'month',
    formula,
    style: 'month',
  });
  const ranked = (rank: number): string => `IFERROR(MATCH(${rank},${tariffRow(T.rank)},0),0)`;
  const at = (row: number, placeName: string): string =>
    `IF(${placeName}=0,"",INDEX(${tariffRow(row)},1,MAX(1,${placeName})))`;
  return [
    month('first_chosen', 'First month of the period', `IFERROR(INDEX(${start},${first}),"")`),
    month(
      'last_chosen',
      'Last month of the period',
      `IFERROR(INDEX(${start},${first}+SUM(${selected})-1),"")`,
    ),
    text(
      'first_month_words',
      'First month in words',
      `IF(first_chosen="","",${monthTextFormula('first_chosen')})`,
    ),
    text(
      'last_month_words',
      'Last month in words',
      `IF(last_chosen="","",${monthTextFormula('last_chosen')})`,
    ),
    text(
      'period_words',
      'Period in words',
      'IF(first_chosen=last_chosen,first_month_words,first_month_words&" to "&last_month_words)',
    ),
    place('cheapest_place', 'Column of the cheapest tariff', ranked(1)),
    text('cheapest_name', 'Cheapest tariff', at(T.name, 'cheapest_place')),
    money('cheapest_total', 'Its total', at(T.total, 'cheapest_place')),
    place('second_place', 'Column of the second cheapest tariff', ranked(2)),
    text('second_name', 'Second cheapest tariff', at(T.name, 'second_place')),
    money('second_total', 'Its total', at(T.total, 'second_place')),
    text('todays_name', 'Today’s tariff', at(T.name, TODAYS_PLACE_NAME)),
    money('todays_total', 'Its total', at(T.total, TODAYS_PLACE_NAME)),
    text(
      'runner_up_name',
      'Best of the others, where today’s tariff is the cheapest',
      `IF(cheapest_place=${TODAYS_PLACE_NAME},second_name,cheapest_name)`,
    ),
    money(
      'runner_up_lead',
      'What it costs more',
      `IF(cheapest_place=${TODAYS_PLACE_NAME},SUM(second_total)-SUM(todays_total),0)`,
    ),
    text(
      'todays_lead_words',
      'What today’s tariff leads by',
      `IF(OR(second_place=0,${TODAYS_IS_PRICED_NAME}=0),"",IF(runner_up_lead=0,", as is "&runner_up_name,", "&${amount('runner_up_lead')}&" less than "&runner_up_name))`,
    ),
    text(
      'todays_is_cheapest_words',
      'Where today’s tariff is the cheapest',
      `IF(OR(${TODAYS_IS_PRICED_NAME}*cheapest_place=0,todays_total>cheapest_total),"",todays_name&", today’s tariff, is the cheapest at "&${amount('todays_total')}&todays_lead_words&".")`,
    ),
    money(
      'exit_fee_of_today',
      'Exit fee of today’s tariff, where another is the cheapest',
      `IF(OR(${TODAYS_IS_PRICED_NAME}=0,todays_total<=cheapest_total),0,SUM(INDEX(${tariffRow(T.exitFee)},1,MAX(1,${TODAYS_PLACE_NAME}))))`,
    ),
    money(
      'switch_saves',
      'What a switch to the cheapest saves after the exit fee',
      `IF(OR(${TODAYS_IS_PRICED_NAME}=0,todays_total<=cheapest_total),0,ROUND(todays_total-cheapest_total-exit_fee_of_today,2))`,
    ),
    text(
      'fee_counts_over_words',
      'The time that the fee is set against',
      `IF(AND(${days}>=${SHORTEST_YEAR},${days}<=${LONGEST_YEAR}),"in the first year","over "&IF(${days}=1,"this day","these "&FIXED(${days},0)&" days"))`,
    ),
    text(
      'after_exit_fee_words',
      'What the exit fee makes of a switch',
      `IF(exit_fee_of_today=0,"","; with the exit fee of "&${amount('exit_fee_of_today')}&", "&IF(switch_saves=0,"the same",${amount('ABS(switch_saves)')}&IF(switch_saves>0," less"," more"))&" "&fee_counts_over_words)`,
    ),
    text(
      'cheapest_amount_words',
      'What the cheapest costs, and how much less that is',
      `IF(${TODAYS_IS_PRICED_NAME}*cheapest_place=0,"",${amount('cheapest_total')}&", "&${amount('todays_total-cheapest_total')}&" less")`,
    ),
    text(
      'other_is_cheapest_words',
      'Where another is the cheapest',
      `IF(OR(${TODAYS_IS_PRICED_NAME}=0,todays_total<=cheapest_total),"",cheapest_name&" would have cost "&cheapest_amount_words&" than today’s tariff "&todays_name&" ("&${amount('todays_total')}&")"&after_exit_fee_words&".")`,
    ),
    text(
      'rates_used_words',
      'The rates that price it',
      `IF(${ref(calendar.ratesAsOf)}>0,", rates as they are now",", rates as they were")`,
    ),
    text(
      'compared_with_words',
      'The world that is compared',
      `${worlds(book).whereBattery('", with the battery"')}&IF(${ref(timers.car.figures.isOn)}+${ref(halfHours.hotWater.figures.isOn)}>0,", with the timers","")`,
    ),
    text(
      'todays_lacks_words',
      'Where today’s tariff has no total',
      `IF(OR(${TODAYS_PLACE_NAME}=0,${TODAYS_IS_PRICED_NAME}=1),"",todays_name&", today’s tariff, has no total, so that nothing is compared with it.")`,
    ),
    ...lackingLines(),
    text(
      'no_total_words',
      'Tariffs without a total',
      `IF(${lackingName(TARIFF_COUNT - 1)}="","","No total: "&${lackingName(TARIFF_COUNT - 1)}&".")`,
    ),
    {
      name: STANDS_APART_NAME,
      label: 'The bill as metered is another than today’s tariff has in the comparison',
      unit: '1 or 0',
      formula: standsApartFormula(book),
      style: 'integer',
    },
    text(AS_METERED_WORDS_NAME, 'The bill as metered', asMeteredWordsFormula(book)),
    text('compared_kwh_words', 'What is compared, where it is not what was metered', comparedFormula(book)),
    text('period_holds_words', 'What the period holds', periodFormula(book)),
    text(
      'not_counted_words',
      'Readings that the workbook has no room for',
      `IF(readings_below+days_beyond=0,"","Not counted: readings below the last row of ${SHEETS.readings}: "&FIXED(readings_below,0)&"; days after the last that the workbook holds: "&FIXED(days_beyond,0)&".")`,
    ),
    text('no_tariff_words', 'Where no tariff is typed', `IF(${hasNoTariff()},${quoted(NO_TARIFF)},"")`),
    text(
      'no_readings_words',
      'Where nothing is metered',
      `IF(${metered}>0,"",IF(COUNT(from_month,to_month)*SUM(${ref(months.metered)})>0,none_chosen_words&${quoted(CHOOSE_OTHERS)},${quoted(NO_READINGS)}))`,
    ),
    text(
      'to_do_words',
      'What to do before there is an answer',
      `no_tariff_words&IF(OR(no_tariff_words="",no_readings_words=""),""," ")&no_readings_words` +
        `&IF(OR(no_tariff_words<>"",no_readings_words<>"",${TODAYS_PLACE_NAME}>0),"",${quoted(NO_TODAYS)})`,
    ),
    text('answer_sentence', 'The result in one sentence', sentenceFormula()),
    ...sureLines(book, tariffRow),
    // Below all others, so that those stay where they are.
    text(
      'readings_end_words',
      'Where the readings end before the period',
      `IF(COUNT(period_from,last_day)<2,"",IF(period_from>last_day,"The readings end with "&${monthTextFormula('last_day')}&", before the from-month",""))`,
    ),
    text(
      'readings_begin_words',
      'Where they begin after it',
      `IF(COUNT(period_to,first_day)<2,"",IF(period_to<first_day-DAY(first_day)+1,"The readings begin with "&${monthTextFormula('first_day')}&", after the to-month",""))`,
    ),
    text(
      'none_chosen_words',
      'Where the chosen months have no readings',
      `IF(${WRONG_WAY_NAME}=1,${quoted(WRONG_WAY)},IF(readings_end_words<>"",readings_end_words,IF(readings_begin_words<>"",readings_begin_words,${quoted(NONE_CHOSEN)})))`,
    ),
    text('period_days_words', 'Days of the period', `FIXED(${days},0)&IF(${days}=1," day"," days")`),
    ...leftOutLines(book),
    ...Array.from(
      { length: TARIFF_COUNT },
      (_, t): WordLine => ({
        name: hasTotalName(t),
        label: `Tariff ${t + 1} has a total`,
        unit: '1 or 0',
        formula: `IF(${metered}>0,${pricedName(t)},0)`,
        style: 'integer',
      }),
    ),
    text(SUN_WORDS_NAME, 'What sun is worth, where a channel meters it', sunWordsFormula(book)),
    ...askedForLines(),
    priceBlankLine(ref(batterySpan(book).halfHours)),
    channelGapsLine(book),
    {
      name: WRONG_WAY_NAME,
      label: 'The chosen months are the wrong way round',
      unit: '1 or 0',
      formula: 'IF(COUNT(from_month,to_month)<2,0,IF(SUM(period_from)>SUM(period_to),1,0))',
      style: 'integer',
    },
  ];
}

/** Whether no tariff has a name, as a condition. */
export function hasNoTariff(): string {
  return `SUMPRODUCT((${tariffRow(T.name)}<>"")*1)=0`;
}

/** The result in one sentence. */
export function sentenceFormula(): string {
  return (
    'IF(to_do_words<>"",to_do_words,period_words&rates_used_words&compared_with_words&": "&todays_lacks_words' +
    '&todays_is_cheapest_words&other_is_cheapest_words)'
  );
}

/** What the period holds, in one line. */
function periodFormula(book: Book): string {
  const { months } = book.workings;
  const [expected, metered] = [months.expected, months.metered].map((c) => periodRef(book, c));
  return (
    `IF(${expected}=0,"",period_days_words&", ${meteredKwhWords(book)}; import metered in "` +
    `&FIXED(100*${metered}/${expected},1)&" % of half-hours."&IF(compared_kwh_words="",""," ")&compared_kwh_words)`
  );
}

/** What the tariffs are compared on where storage ran and none is entered: all that it moved is taken out. */
function comparedFormula(book: Book): string {
  const { months, battery } = book.workings;
  const [imported, exported] = [months.importKwh, months.exportKwh].map((c) => periodRef(book, c));
  return (
    `IF(OR(${STANDS_APART_NAME}=0,${ref(battery.usableKwh)}>0),"","Compared is what storage would not have moved: "` +
    `&FIXED(${imported},0)&" kWh bought, "&FIXED(${exported},0)&" kWh exported.")`
  );
}
