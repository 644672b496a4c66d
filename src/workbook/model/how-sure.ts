import type { Node } from '../../formula/nodes.js';
import { blockOf, type Column, down, f } from '../book/terms.js';
import { FIRST_ROW } from '../layout.js';
import { WEEK_DAYS, weekRows } from '../sheets/weeks.js';
import type { Book } from './book.js';
import { periodRef } from './period-line.js';
import { ref } from './references.js';
import type { WordLine } from './sentences.js';
import { HELPER_ROW as H, TARIFF_ROW as T } from './tariff-rows.js';

/** How often the range is to hold. */
export const CONFIDENCE = 0.9;
/** A difference under this share of the second's total is close, however steady it is. */
export const CLOSE_SHARE = 0.02;
/** Weeks of a span; how many of them it needs. */
const WEEKS_OF_SPAN = 4;
const FEWEST_WEEKS = 3;
/** Spans and changes between neighbours that a range needs; spans that a year needs. */
const FEWEST_SPANS = 3;
const FEWEST_CHANGES = 2;
const SPANS_OF_YEAR = 12;
const YEAR_DAYS = 365;
/** Days of a period that is a year by itself. */
const [SHORTEST_YEAR, LONGEST_YEAR] = [364, 366];

/** Defined names of the columns that the lines look at; they stand on the chart data sheet. */
export const SURE_COLUMNS = {
  month: 'monthly_difference_of_first_two',
  week: 'weekly_difference_of_first_two',
  mean: 'span_difference_a_day',
  change: 'span_difference_change',
} as const;
/** Defined name of the sentence. */
export const HOW_SURE_NAME = 'how_sure_words';

/** Rows of the columns by week and by span of four weeks. */
export function sureRows({ shape }: Pick<Book, 'shape'>): { weeks: number; spans: number; changes: number } {
  const weeks = weekRows(shape);
  const spans = Math.floor(weeks / WEEKS_OF_SPAN);
  return { weeks, spans, changes: Math.max(1, spans - 1) };
}

/** What a row of tariffs holds at a place, and nothing where there is no such place. */
export const chosen = (across: string, place: string): string => `INDEX(${across},1,MAX(1,${place}))`;
const noPair = 'OR(cheapest_place=0,second_place=0)';

/** Second less first, where both are known. */
export function differenceOf(across: string): string {
  const [first, second] = [chosen(across, 'cheapest_place'), chosen(across, 'second_place')];
  return `IF(${noPair},"",IF(COUNT(${first},${second})<2,"",${second}-${first}))`;
}

/** Mean a day of the span of four weeks of a row. */
export function spanMean(weekly: Column): Node {
  const weeks = blockOf(weekly, WEEKS_OF_SPAN, FIRST_ROW);
  return f`IF(COUNT(${weeks})<${FEWEST_WEEKS},"",AVERAGE(${weeks})/${WEEK_DAYS})`;
}

/** Square of the change from the span of a row to the next. */
export function spanChange(means: Column): Node {
  const change = f`(${down(means)}-${means})`;
  return f`IF(COUNT(${means},${down(means)})<2,"",${change}*${change})`;
}

const amount = (text: string): string => `currency_symbol&FIXED(${text},2)`;
const rounded = (text: string): string => `currency_symbol&FIXED(${text},0)`;

/**
 * How sure it is that the first tariff is cheaper than the second, line by line; the method is that of the library's
 * `differenceRange`, which names its sources.
 *
 * @param book inputs and workings
 * @param tariffRow a row of the tariffs sheet as text
 */
export function sureLines(book: Book, tariffRow: (row: number) => string): WordLine[] {
  const { months, battery } = book.workings;
  const days = periodRef(book, months.days);
  const kwh = periodRef(book, months.importKwh);
  const line = (
    name: string,
    label: string,
    unit: string,
    style: WordLine['style'],
    formula: string,
  ): WordLine => ({ name, label, unit, style, formula });
  const first = (row: number): string => chosen(tariffRow(row), 'cheapest_place');
  const known = (names: string, count: number, then: string): string =>
    `IF(COUNT(${names})<${count},"",${then})`;
  const inMonths = (criterion: string): string =>
    `IF(${noPair},"",COUNTIFS(${SURE_COLUMNS.month},"${criterion}"))`;
  const vatFactor = `IF(${first(T.includesVat)}="yes",1,1+SUM(${ref(book.inputs.vatShare)}))`;
  const lowest = 'difference_ahead_low';
  return [
    line(
      'lead_of_cheapest',
      'Second less first',
      '{major}',
      'money',
      `IF(${noPair},"",ROUND(second_total-cheapest_total,2))`,
    ),
    line(
      'lead_share',
      'Share of the second’s total',
      'share',
      'percent',
      known('lead_of_cheapest', 1, 'IF(second_total>0,lead_of_cheapest/second_total,"")'),
    ),
    line('months_first_cheaper', 'Months in which the first was cheaper', 'count', 'integer', inMonths('>0')),
    line('months_second_cheaper', 'Months in which the second was', 'count', 'integer', inMonths('<0')),
    line(
      'tie_at_rise',
      'They tie where every unit rate of the first rises by',
      '{minor}/kWh',
      'rate',
      known(
        'lead_of_cheapest',
        1,
        `IF(SUM(${first(H.boughtKwh)})>0,lead_of_cheapest*100/${first(H.boughtKwh)}/${vatFactor},"")`,
      ),
    ),
    // As on Tariffs, there against today's.
    line(
      'tie_target_rate',
      'Average rate of the first at which they tie',
      '{minor}/kWh',
      'rate',
      known(
        'lead_of_cheapest',
        1,
        `IF(OR(${kwh}<=0,${ref(battery.usableKwh)}>0),"",(second_total-${first(T.standing)}+${first(T.exportCredit)})*100/${kwh})`,
      ),
    ),
    line(
      'first_peak_rate',
      'Average rate of the first outside off-peak',
      '{minor}/kWh',
      'rateFine',
      `IF(${noPair},"",${first(H.peakRate)})`,
    ),
    line(
      'first_off_peak_rate',
      'Average rate of the first off-peak',
      '{minor}/kWh',
      'rateFine',
      `IF(${noPair},"",${first(H.offPeakRate)})`,
    ),
    line(
      'tie_share_worked_out',
      'Off-peak share of the first at which they tie, were it any number',
      'share',
      'percent',
      known(
        'first_peak_rate,first_off_peak_rate,tie_target_rate',
        3,
        'IF(first_peak_rate<=first_off_peak_rate,"",(first_peak_rate-tie_target_rate)/(first_peak_rate-first_off_peak_rate))',
      ),
    ),
    line(
      'tie_off_peak_share',
      'They tie where the off-peak share of the first is',
      'share',
      'percent',
      known(
        'tie_share_worked_out',
        1,
        'IF(AND(tie_share_worked_out>=0,tie_share_worked_out<=1),tie_share_worked_out,"")',
      ),
    ),
    line('spans_counted', 'Spans of four whole weeks', 'count', 'integer', `COUNT(${SURE_COLUMNS.mean})`),
    line('span_changes', 'Changes from one to the next', 'count', 'integer', `COUNT(${SURE_COLUMNS.change})`),
    line(
      'span_deviation',
      'Standard deviation of a span’s mean',
      '{major}/day',
      'rateFine',
      `IF(OR(spans_counted<${FEWEST_SPANS},span_changes<${FEWEST_CHANGES}),"",SQRT(SUM(${SURE_COLUMNS.change})/span_changes/2))`,
    ),
    line(
      'span_freedom',
      'Degrees of freedom',
      'count',
      'integer',
      'IF(span_changes<1,0,MAX(1,INT(2*span_changes*span_changes/(3*span_changes-1))))',
    ),
    line(
      'days_ahead',
      'Days ahead: a year where there are twelve spans, else as many as these',
      'days',
      'integer',
      known(
        'span_deviation',
        1,
        `IF(AND(spans_counted>=${SPANS_OF_YEAR},OR(${days}<${SHORTEST_YEAR},${days}>${LONGEST_YEAR})),${YEAR_DAYS},${days})`,
      ),
    ),
    line(
      'difference_ahead',
      'Expected difference over them',
      '{major}',
      'money',
      known('lead_of_cheapest,span_deviation', 2, `lead_of_cheapest/${days}*days_ahead`),
    ),
    line(
      'difference_reach',
      'Either way',
      '{major}',
      'money',
      known(
        'difference_ahead',
        1,
        `TINV(1-${CONFIDENCE},span_freedom)*span_deviation*SQRT(1/spans_counted+${WEEKS_OF_SPAN * WEEK_DAYS}/days_ahead)*days_ahead`,
      ),
    ),
    line(
      lowest,
      'From',
      '{major}',
      'money',
      known('difference_ahead', 1, 'difference_ahead-difference_reach'),
    ),
    line(
      'difference_ahead_high',
      'To',
      '{major}',
      'money',
      known('difference_ahead', 1, 'difference_ahead+difference_reach'),
    ),
    line(
      'how_sure',
      'In a word',
      'text',
      'text',
      `IF(COUNT(${lowest})=0,"",IF(${lowest}<=0,"not told apart by these readings",IF(lead_of_cheapest<${CLOSE_SHARE}*ABS(second_total),"close","clear")))`,
    ),
    line(
      'sure_word_words',
      'The word, first',
      'text',
      'text',
      'IF(how_sure="","How sure:",UPPER(LEFT(how_sure,1))&RIGHT(how_sure,LEN(how_sure)-1)&":")',
    ),
    line(
      'sure_amount_words',
      'How much',
      'text',
      'text',
      `IF(SUM(lead_of_cheapest)=0,"the same as",${amount('lead_of_cheapest')}&IF(COUNT(lead_share)=0,""," ("&FIXED(100*lead_share,1)&" %)")&" less than")`,
    ),
    line(
      'months_compared_words',
      'In how many months',
      'text',
      'text',
      `COUNT(${SURE_COLUMNS.month})&IF(COUNT(${SURE_COLUMNS.month})=1," month"," months")`,
    ),
    line(
      'sure_lead_words',
      'The difference',
      'text',
      'text',
      `IF(${noPair},"",cheapest_name&" costs "&sure_amount_words&" "&second_name&", and less in "&months_first_cheaper&" of "&months_compared_words)`,
    ),
    line(
      'days_ahead_words',
      'The days ahead',
      'text',
      'text',
      `IF(spans_counted>=${SPANS_OF_YEAR},"another year of such use","as many days of such use")`,
    ),
    line(
      'sure_from_to_words',
      'From and to',
      'text',
      'text',
      known(
        lowest,
        1,
        `IF(${lowest}>=0,${rounded(lowest)},${rounded(`0-${lowest}`)}&" more")&" to "&${rounded('difference_ahead_high')}&" less"`,
      ),
    ),
    line(
      'sure_range_words',
      'The range',
      'text',
      'text',
      'IF(sure_from_to_words="","","; in "&days_ahead_words&" "&sure_from_to_words&", nine times in ten.")',
    ),
    line(
      'sure_no_range_words',
      'Why there is no range',
      'text',
      'text',
      `IF(OR(${noPair},COUNT(${lowest})=1),"","; how far that may be another on other days is not told: it takes ${FEWEST_SPANS} spans of four whole weeks one after another, and the period has "&spans_counted&IF(spans_counted<${FEWEST_SPANS},"",", with gaps between them")&".")`,
    ),
    line(
      'sure_no_year_words',
      'Why there is none of a year',
      'text',
      'text',
      `IF(OR(COUNT(${lowest})=0,spans_counted>=${SPANS_OF_YEAR}),"","Not enough for a year: it takes ${SPANS_OF_YEAR} spans of four whole weeks, and there are "&spans_counted&".")`,
    ),
    line(
      HOW_SURE_NAME,
      'How sure, in one sentence',
      'text',
      'text',
      `IF(OR(to_do_words<>"",${noPair}),"",sure_word_words&" "&sure_lead_words&sure_range_words&sure_no_range_words&IF(sure_no_year_words="",""," ")&sure_no_year_words)`,
    ),
  ];
}
