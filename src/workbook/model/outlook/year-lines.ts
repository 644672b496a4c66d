import type { Node } from '../../../formula/nodes.js';
import { MONTH_DAYS } from '../../../outlook/calendar-year.js';
import {
  BEYOND_COLDEST,
  COMMON,
  FEWEST_MONTHS,
  LEAST_APART,
  OTHER_YEAR_C,
  YEAR_CONFIDENCE,
} from '../../../outlook/year-cost.js';
import { across, all, areaReference, f, Line, type Term } from '../../book/terms.js';
import { columnNumber } from '../../cell-address.js';
import { HOME_FIELDS } from '../../fields/home-fields.js';
import { FIRST_ROW, SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { FIRST_TARIFF_LETTERS, TARIFF_ROW } from '../tariff-rows.js';
import { LEAST_DAYS, LEAST_METERED, type YearColumns, yearColumns } from './year-columns.js';

const YEAR_DAYS = MONTH_DAYS.reduce((sum, days) => sum + days, 0);
/** Figures that a fit has. */
const FITTED = 3;
/** Row of the first line below the twelve months. */
const FIRST_LINE = FIRST_ROW + MONTH_DAYS.length + 2;

/** A line with what it is; those of tariffs stand side by side. */
export interface YearLine {
  line: Line;
  label: string;
  unit: string;
}

/** What a year costs, tariff by tariff. */
export interface YearAhead {
  columns: YearColumns;
  /** Every line, a label of each row once. */
  lines: readonly YearLine[];
  monthsMetered: Line;
  /** 1 where all twelve degree days are known. */
  byWeather: Line;
  /** Why there is no year, in words. */
  reason: Line;
  /** The year in a sentence, or why there is none. */
  words: Line;
  tariffs: readonly { pounds: Line; low: Line; high: Line; notMeteredReach: Line; saved: Line }[];
}

/**
 * Declares the year of every tariff: the method is that of the library's `yearCost`, as sums of products.
 * Source: prediction interval of multiple linear regression, common textbook; from memory.
 *
 * @param book inputs and workings
 * @returns columns and lines, {major} a year where no unit stands beside them; the year in words
 * @throws RangeError when the book has fewer tariffs than its workings
 * @example yearAhead(book).words.name // 'year_words'
 */
export function yearAhead(book: Book): YearAhead {
  const { workings, inputs } = book;
  const columns = yearColumns(book);
  const { days, shortness, shape, turned, usualCold, isMetered, missingDays, degreeDays, cold, month } =
    columns;
  const lines: YearLine[] = [];
  let row = FIRST_LINE;
  const place = (at: number, of: number, style: StyleName, name: string, is?: Node): Line => {
    const line = new Line({ sheet: SHEETS.yearAhead, row: at, column: of }, style, name);
    line.is = is;
    return line;
  };
  const line = (label: string, unit: string, style: StyleName, name: string, is?: Node): Line => {
    const made = place(row++, shortness.column, style, name, is);
    lines.push({ line: made, label, unit });
    return made;
  };

  const [k, S, d, missing] = [isMetered, shortness, days, missingDays].map(all);
  if (k === undefined || S === undefined || d === undefined || missing === undefined)
    throw new RangeError('the year has no columns');
  const C = all(cold);
  const sumOf = (what: Node): Node => f`SUMPRODUCT(${what})`;

  const coldest = line(
    'Coldest month',
    '1 or 7; blank: not known',
    'integer',
    'year_coldest_month',
    // The clock goes forward in spring.
    f`IF(SUM(${all(turned)})=0,"",IF(SUM(${all(turned)})<0,1,7))`,
  );
  usualCold.is = f`IF(${coldest}="","",IF(${coldest}=1,${shape},INDEX(${all(shape)},MOD(${month}+5,12)+1)))`;
  const n = line('Calendar months metered', 'count', 'integer', 'year_months_metered', f`SUM(${k})`);
  const byWeather = line(
    'All degree days are known',
    '1 or 0',
    'integer',
    'year_by_degree_days',
    f`IF(COUNT(${all(degreeDays)})=${MONTH_DAYS.length},1,0)`,
  );
  cold.is = f`IF(${byWeather}=1,${degreeDays},${usualCold})`;
  const can = line(
    'Enough for a fit',
    '1 or 0',
    'integer',
    'year_can_be_fitted',
    f`IF(AND(${n}>=${FEWEST_MONTHS},COUNT(${C})=${MONTH_DAYS.length}),1,0)`,
  );
  const whereFit = (is: Node, otherwise: Term = 0): Node => f`IF(${can}=0,${otherwise},${is})`;
  const figure = (label: string, unit: string, name: string, is: Node): Line =>
    line(label, unit, 'rateFine', name, whereFit(is));
  const meanS = figure('Shortness, mean', '−1 to 1', 'year_mean_shortness', f`SUMPRODUCT(${k},${S})/${n}`);
  const meanC = figure('Cold, mean', '°C', 'year_mean_cold', f`SUMPRODUCT(${k},${C})/${n}`);
  const fromS = f`(${S}-${meanS})`;
  const fromC = f`(${C}-${meanC})`;
  const SS = figure(
    'Shortness, squares',
    'sum',
    'year_squares_of_shortness',
    sumOf(f`${k}*${fromS}*${fromS}`),
  );
  const CC = figure('Cold, squares', 'sum', 'year_squares_of_cold', sumOf(f`${k}*${fromC}*${fromC}`));
  const SC = figure('Their products', 'sum', 'year_products', sumOf(f`${k}*${fromS}*${fromC}`));
  const D = figure('How far they are apart', 'number', 'year_apart', f`${SS}*${CC}-${SC}*${SC}`);
  const isFitted = line(
    'They can be told apart',
    '1 or 0',
    'integer',
    'year_is_fitted',
    f`IF(AND(${can}=1,${D}>${LEAST_APART}*${SS}*${CC}),1,0)`,
  );
  const factor = (label: string, unit: string, name: string, is: Node): Line =>
    line(label, unit, 'rateFine', name, f`IF(${isFitted}=0,0,${is})`);
  const N = line('Days not metered', 'days', 'integer', 'year_days_missing', f`SUM(${missing})`);
  const u = factor(
    'Shortness of those days',
    'sum',
    'year_missing_shortness',
    f`SUMPRODUCT(${missing},${S})-${N}*${meanS}`,
  );
  const v = factor(
    'Cold of those days',
    'sum',
    'year_missing_cold',
    f`SUMPRODUCT(${missing},${C})-${N}*${meanC}`,
  );
  const missingSquares = line(
    'Days not metered, squares',
    'sum',
    'integer',
    'year_missing_squares',
    f`SUMPRODUCT(${missing},${missing})`,
  );
  const meteredSquares = line(
    'Days metered, squares',
    'sum',
    'integer',
    'year_metered_squares',
    f`SUMPRODUCT(${k},${d},${d})`,
  );
  const spread = (squares: Line, of: Node, common: Term): Node =>
    f`(1-${common})*${squares}+${common}*${of}*${of}`;
  const common = line(
    'Scatter that they have in common',
    'share',
    'rate',
    'year_common_scatter',
    f`IF(${byWeather}=1,${COMMON.byWeather},${COMMON.bySeason})`,
  );
  const ofFit = factor(
    'Scatter of what is fitted',
    'days²',
    'year_scatter_fitted',
    f`${N}*${N}/${n}+(${CC}*${u}*${u}-2*${SC}*${u}*${v}+${SS}*${v}*${v})/${D}+${spread(missingSquares, f`${N}`, common)}`,
  );
  const meteredDays = f`(${YEAR_DAYS}-${N})`;
  const again = factor(
    'Scatter of another year',
    'days²',
    'year_scatter_again',
    f`2*(${spread(meteredSquares, meteredDays, COMMON.habits)})`,
  );
  const weatherOf = (squares: Node, of: Node): Node =>
    f`(${BEYOND_COLDEST}*SUM(${all(columns.coldBeyond)}))^2+IF(${byWeather}=0,0,${OTHER_YEAR_C * OTHER_YEAR_C}*((1-${COMMON.weather})*${squares}+${COMMON.weather}*${of}*${of}))`;
  const weatherMissing = factor(
    'Weather of the days not metered, and cold not seen',
    '(°C·day)²',
    'year_weather_missing',
    weatherOf(f`${missingSquares}`, f`${N}`),
  );
  const weatherAll = factor(
    'Weather of another year, and cold not seen',
    '(°C·day)²',
    'year_weather_again',
    weatherOf(f`(${missingSquares}+${meteredSquares})`, f`${YEAR_DAYS}`),
  );
  const t = line(
    'Student’s t',
    'number',
    'rateFine',
    'year_t',
    f`IF(${n}<=${FITTED},0,TINV(${Number((1 - YEAR_CONFIDENCE).toFixed(10))},${n}-${FITTED}))`,
  );
  const firstDay = line(
    'First day of the period',
    'row of Days; 0: none',
    'integer',
    'year_first_day',
    f`IFERROR(MATCH(MATCH(1,${all(workings.months.selected)},0),${all(workings.calendar.month)},0),0)`,
  );

  const usable = workings.battery.usableKwh;
  const firstOfTariffs = row;
  const tariffs = workings.tariffs.map((tariff, i) => {
    let at = firstOfTariffs;
    const Y = columns.pounds[i];
    const input = inputs.tariffs[i];
    if (Y === undefined || input === undefined) throw new RangeError(`there is no tariff ${i + 1}`);
    const ofTariff = (label: string, unit: string, style: StyleName, name: string, is: Node): Line => {
      const made = place(at++, Y.column, style, `${name}_${i + 1}`, is);
      lines.push({ line: made, label: i === 0 ? label : '', unit });
      return made;
    };
    const { standing, latest } = tariff.rates;
    const { sets } = latest;
    const firstSet = ofTariff(
      'Rates on the first day',
      'set, from 1',
      'integer',
      'year_first_set',
      f`IF(${firstDay}=0,1,INDEX(${all(tariff.days.set)},MAX(1,${firstDay})))`,
    );
    const told = ofTariff(
      'Has a year',
      '1 or 0; −1: its earlier rates say nothing of the latest',
      'integer',
      'year_is_told',
      f`IF(OR(${isFitted}=0,SUM(${input.priced})=0,${firstDay}=0),0,IF(INDEX(${all(latest.isKnownFrom)},${firstSet})=1,1,-1))`,
    );
    const number = (label: string, unit: string, name: string, is: Node): Line =>
      ofTariff(label, unit, 'rateFine', name, f`IF(${told}<1,0,${is})`);
    const mean = number(
      'Use a day, mean',
      '{major}/day',
      'year_mean_use',
      f`SUMPRODUCT(${k},${all(Y)})/${n}`,
    );
    const fromY = f`(${all(Y)}-${mean})`;
    const SY = number('With shortness', 'sum', 'year_use_by_shortness', sumOf(f`${k}*${fromS}*${fromY}`));
    const CY = number('With cold', 'sum', 'year_use_by_cold', sumOf(f`${k}*${fromC}*${fromY}`));
    const YY = number('Use, squares', 'sum', 'year_squares_of_use', sumOf(f`${k}*${fromY}*${fromY}`));
    const perS = number(
      'A day more for its shortness',
      '{major}/day',
      'year_per_shortness',
      f`(${CC}*${SY}-${SC}*${CY})/${D}`,
    );
    const perC = number(
      'A day more for cold',
      '{major}/day',
      'year_per_cold',
      f`(${SS}*${CY}-${SC}*${SY})/${D}`,
    );
    const variance = number(
      'Scatter about the fit',
      'squared',
      'year_variance',
      f`MAX(0,${YY}-${perS}*${SY}-${perC}*${CY})/(${n}-${FITTED})`,
    );
    const money = (label: string, name: string, is: Node): Line =>
      ofTariff(label, '{major}', 'money', name, f`IF(${told}<1,"",${is})`);
    const metered = money('Months metered', 'year_metered', f`SUMPRODUCT(${k},${d},${all(Y)})`);
    const fitted = money('Months fitted', 'year_fitted', f`${N}*${mean}+${u}*${perS}+${v}*${perC}`);
    const charge = money(
      'Standing charge',
      'year_standing',
      f`${YEAR_DAYS}*SUM(INDEX(${all(standing)},${sets}))/100`,
    );
    const pounds = money('A year', 'year_cost', f`${metered}+${fitted}+${charge}`);
    const notMeteredReach = money(
      'Either way, months fitted',
      'year_reach_fitted',
      f`${t}*SQRT(${variance}*${ofFit}+${perC}^2*${weatherMissing})`,
    );
    const reach = money(
      'Either way, a year to come',
      'year_reach',
      f`${t}*SQRT(${variance}*(${ofFit}+${again})+${perC}^2*${weatherAll})`,
    );
    const low = money('From', 'year_low', f`${pounds}-${reach}`);
    const high = money('To', 'year_high', f`${pounds}+${reach}`);
    const Z = columns.saved[i];
    if (Z === undefined) throw new RangeError(`there is no tariff ${i + 1}`);
    // Carried by season as the cost is: winter's months say something of summer's only through the fit.
    const saving = (label: string, name: string, is: Node): Line =>
      ofTariff(
        label,
        '{major}',
        'rateFine',
        name,
        f`IF(OR(${told}<1,${usable}=0,${firstSet}<${sets}),"",${is})`,
      );
    const ofSaving = f`${all(Z)}`;
    const savedMean = saving(
      'Battery saves a day, mean',
      'year_saved_mean',
      f`SUMPRODUCT(${k},${ofSaving})/${n}`,
    );
    const fromZ = f`(${ofSaving}-${savedMean})`;
    const SZ = saving('With shortness', 'year_saved_by_shortness', sumOf(f`${k}*${fromS}*${fromZ}`));
    const CZ = saving('With cold', 'year_saved_by_cold', sumOf(f`${k}*${fromC}*${fromZ}`));
    const saved = saving(
      'The battery saves in a year',
      'year_battery_saves',
      f`SUMPRODUCT(${k},${d},${ofSaving})+${N}*${savedMean}+(${u}*(${CC}*${SZ}-${SC}*${CZ})+${v}*(${SS}*${CZ}-${SC}*${SZ}))/${D}`,
    );
    const byPrice = ofTariff(
      'Has a year at half-hourly prices',
      '1 or 0',
      'integer',
      'year_by_price',
      f`IF(AND(${told}=1,${tariff.rates.priceFactor}<>0),1,0)`,
    );
    const savingLacks = ofTariff(
      'Has a year, but not what the battery saves',
      '1 or 0',
      'integer',
      'year_saving_lacks',
      f`IF(AND(${told}=1,${usable}>0,${firstSet}<${sets}),1,0)`,
    );
    row = Math.max(row, at);
    return { column: Y.column, told, pounds, low, high, notMeteredReach, saved, byPrice, savingLacks };
  });

  const text = (label: string, name: string, is?: Node): Line => line(label, 'text', 'text', name, is);
  const acrossTariffs = (key: 'told' | 'pounds' | 'low' | 'high' | 'savingLacks' | 'byPrice') =>
    across(tariffs.map((tariff) => tariff[key]));
  const { selected } = workings.months;
  const counted = columns.ofMonths.counts;
  const counting = text(
    'Months that do not count, in words',
    'year_counting_words',
    f`IF(SUM(${all(counted)})>=SUM(${all(selected)}),"",SUM(${all(counted)})&" of "&SUM(${all(selected)})&" months count"&IF(SUM(${all(counted)})=1,"s","")&${`: a month needs ${LEAST_DAYS} days and ${100 * LEAST_METERED} % of them metered.`})`,
  );
  const then = (of: Line): Node => f`IF(${of}="",""," ")&${of}`;
  const few = text(
    'Where months are too few',
    'year_few_words',
    f`IF(OR(${n}>=${FEWEST_MONTHS},SUM(${all(selected)})=0),"",${`Not enough for a year’s cost: it takes ${FEWEST_MONTHS} calendar months of readings, and the period has `}&${n}&"."&${then(counting)})`,
  );
  const reason = text(
    'Why there is no year',
    'year_reason',
    f`IF(OR(${few}<>"",${n}=0),${few},IF(${can}=0,"Not enough for a year: how cold the other months usually are is not known. Fill in a year of outdoor temperatures.",IF(${isFitted}=0,"Not enough for a year: these months are too alike.","")))`,
  );
  const cheapest = line(
    'Cheapest over a year',
    'column on Tariffs; 0: none',
    'integer',
    'year_cheapest_place',
    f`IF(COUNT(${acrossTariffs('pounds')})=0,0,MATCH(MIN(${acrossTariffs('pounds')}),${acrossTariffs('pounds')},0))`,
  );
  const others = tariffs.map(({ pounds, column }, i) => {
    const made = place(
      row,
      column,
      'money',
      `year_other_${i + 1}`,
      f`IF(OR(${pounds}="",${cheapest}=${i + 1}),"",${pounds})`,
    );
    lines.push({ line: made, label: i === 0 ? 'The others' : '', unit: '{major}' });
    return made;
  });
  row++;
  const second = line(
    'Next over a year',
    'column on Tariffs; 0: none',
    'integer',
    'year_second_place',
    f`IF(COUNT(${across(others)})=0,0,MATCH(MIN(${across(others)}),${across(others)},0))`,
  );
  const lead = line(
    'By so much less than the next',
    '{major}',
    'money',
    'year_lead',
    f`IF(${second}=0,"",MIN(${across(others)})-MIN(${acrossTariffs('pounds')}))`,
  );
  const ofCheapest = (key: 'pounds' | 'low' | 'high'): Node =>
    f`INDEX(${acrossTariffs(key)},1,MAX(1,${cheapest}))`;
  const names = across(
    inputs.tariffs.map(({ name }) => name),
    'tariff_names',
  );
  const nameAt = (at: Line): Node => f`INDEX(${names},1,MAX(1,${at}))`;
  const firstTariff = columnNumber(FIRST_TARIFF_LETTERS);
  const ranks = areaReference({
    sheet: SHEETS.tariffs,
    firstRow: TARIFF_ROW.rank,
    lastRow: TARIFF_ROW.rank,
    firstColumn: firstTariff,
    lastColumn: firstTariff + tariffs.length - 1,
  });
  const currency = HOME_FIELDS.currency.cell;
  // The sign before the currency, as a year may earn.
  const amountWords = (label: string, name: string, key: 'pounds' | 'low' | 'high'): Line =>
    text(
      label,
      name,
      f`IF(${cheapest}=0,"",IF(ROUND(${ofCheapest(key)},0)<0,"−","")&${currency}&FIXED(ABS(${ofCheapest(key)}),0))`,
    );
  const cost = amountWords('The cheapest in words', 'year_cost_words', 'pounds');
  const low = amountWords('From, in words', 'year_low_words', 'low');
  const high = amountWords('To, in words', 'year_high_words', 'high');
  const isTimed = f`${workings.timers.car.figures.isOn}+${workings.halfHours.hotWater.figures.isOn}`;
  const world = text(
    'The world of the year, in words',
    'year_world_words',
    f`IF(${usable}>0,IF(${isTimed}>0,"With the battery and the timers, at","With the battery, at"),IF(${isTimed}>0,"With the timers, at","At"))&" the latest rates,"`,
  );
  const leadWords = text(
    'Against the next, in words',
    'year_lead_words',
    f`IF(${second}=0,"",IF(ROUND(${lead},0)=0,", the same as ",", "&${currency}&FIXED(${lead},0)&" less than ")&${nameAt(second)})`,
  );
  const range = text(
    'The range of the cheapest in words',
    'year_range_words',
    f`IF(${cheapest}=0,"","; in a year to come "&${low}&" to "&${high}&", four times in five.")`,
  );
  const overlap = text(
    'Where ranges overlap',
    'year_overlap_words',
    f`IF(${second}=0,"",IF(${ofCheapest('high')}<INDEX(${acrossTariffs('low')},1,MAX(1,${second})),"","The ranges of the two cheapest overlap, but both move with the same year: the lines at the top say how sure their difference is."))`,
  );
  const headline = line(
    'First of the headline',
    'column on Tariffs; 0: none',
    'integer',
    'year_headline_place',
    f`IFERROR(MATCH(1,${ranks},0),0)`,
  );
  const tolds = acrossTariffs('told');
  const isUntold = (at: Term): Node => f`INDEX(${tolds},1,MAX(1,${at}))=-1`;
  const other = text(
    'Where the headline names another',
    'year_other_words',
    f`IF(OR(${cheapest}=0,${headline}=0,${headline}=${cheapest}),"",IF(${isUntold(headline)},${nameAt(headline)}&", the cheapest above, has no year.","Other than above, where "&IF(${workings.calendar.ratesAsOf}>0,"only the period counts.","rates are as they were.")))`,
  );
  const prices = text(
    'Half-hourly prices, in words',
    'year_price_words',
    f`IF(SUM(${acrossTariffs('byPrice')})=0,"","Half-hourly prices are those of the months metered: other prices are not in the range.")`,
  );
  const from = text(
    'What it rests on, in words',
    'year_from_words',
    f`IF(${n}=${MONTH_DAYS.length},"All twelve months are metered.",${n}&" months are metered, the others fitted to "&IF(${byWeather}=1,"degree days","the season")&" and the day’s length.")`,
  );
  // What it says follows below all others, which stay where they are.
  const changed = text('Where rates have changed, in words', 'year_rates_words');
  const savingLacks = text(
    'Where the battery’s saving is blank, in words',
    'year_saving_words',
    f`IF(SUM(${acrossTariffs('savingLacks')})=0,"","“Battery saves about” is blank where rates changed: choose “as they are now” at Rates on Answer.")`,
  );
  const told = text('The cheapest of a year, in a sentence', 'year_cheapest_words');
  const resting = text(
    'What it rests on and leaves out, in words',
    'year_rests_words',
    f`IF(${cheapest}=0,"",${from}&${then(counting)}&${then(prices)}&${then(savingLacks)})`,
  );
  const words = text(
    'The year in words',
    'year_words',
    f`IF(OR(${n}=0,${reason}<>""),${reason},${told}&IF(${told}="",""," ")&${resting}&IF(OR(${resting}="",${changed}=""),""," ")&${changed})`,
  );
  const untold = line(
    'Tariffs with a total but no year',
    'count',
    'integer',
    'year_untold',
    f`COUNTIFS(${tolds},-1)`,
  );
  const least = text(
    'What the cheapest is, in words',
    'year_least_words',
    f`IF(${untold}=0,"costs least",IF(${second}=0,"is the only tariff with a year","costs least of the "&COUNT(${acrossTariffs('pounds')})&" tariffs with a year"))`,
  );
  told.is = f`IF(${cheapest}=0,"",${world}&" "&${nameAt(cheapest)}&" "&${least}&": "&${cost}&${leadWords}&${range}&${then(overlap)}&${then(other)})`;
  const { todaysPlace } = inputs;
  const untoldToday = text(
    'Today’s tariff, where it has no year',
    'year_untold_today',
    f`IF(${todaysPlace}=0,"",IF(${isUntold(todaysPlace)},INDEX(${names},1,MAX(1,${todaysPlace}))&" (today’s tariff)",""))`,
  );
  // Today's first: whoever asks whether to switch looks for it.
  let untoldNames = untoldToday;
  for (const [i, tariff] of tariffs.entries()) {
    const before = untoldNames;
    const name = inputs.tariffs[i]?.name;
    if (name === undefined) throw new RangeError(`there is no tariff ${i + 1}`);
    untoldNames = place(
      row,
      tariff.column,
      'text',
      `year_untold_${i + 1}`,
      f`${before}&IF(OR(${tariff.told}<>-1,${todaysPlace}=${i + 1}),"",IF(${before}="","",", ")&${name})`,
    );
    lines.push({
      line: untoldNames,
      label: i === 0 ? 'The tariffs without a year, one more each' : '',
      unit: 'text',
    });
  }
  row++;
  changed.is = f`IF(${untold}=0,"","No year for "&${untoldNames}&": rates did not all change alike in these months; choose “as they are now” at Rates on Answer.")`;
  return { columns, lines, monthsMetered: n, byWeather, reason, words, tariffs };
}
