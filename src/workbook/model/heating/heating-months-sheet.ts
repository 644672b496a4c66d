import { HEATING_MONTH_INPUTS } from '../../../heating/comparison/heating-inputs.js';
import { HEATING_MONTH_LINES } from '../../../heating/comparison/month-lines.js';
import { FIRST_ROW, partLetters, SEED_ROW, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { quoted } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { ref } from '../references.js';
import type { FormulaColumn, SheetModel } from '../sheet-model.js';
import { heatPumpOfReadings } from './heat-pump-readings.js';
import { type HeatingDays, heatingDays } from './heating-days.js';
import { figureName, TARIFF_PLACE } from './heating-figures-rows.js';
import {
  type HelpKey,
  leastPricedFormula,
  METERS_NOTE,
  monthLetters,
  type TakenKey,
} from './heating-months-rows.js';
import {
  DEGREE_DAY_TABLE,
  heatingMonthName,
  monthDegreeDayColumn,
  RATES_TABLE,
  rateColumn,
} from './heating-rows.js';
import { styleOf, unitOf } from './line-looks.js';
import { monthReferences } from './line-references.js';

const NUMBER = '">-1E+300"';
const own = (key: TakenKey | HelpKey, r: number): string => `$${monthLetters(key)}${r}`;

/** What is taken of the other sheets, by row. */
class MonthTerms {
  private readonly days: HeatingDays;

  constructor(private readonly book: Book) {
    this.days = heatingDays(book);
  }

  /** Cell of the month left of the heating's columns, in the same row. */
  of(key: 'number' | 'start' | 'selected' | 'days' | 'expected', r: number): string {
    const column = this.book.workings.months[key];
    return `$${column.letters}${r}`;
  }

  chosen(r: number, then: string): string {
    return `IF(${this.of('selected', r)}=1,${then},"")`;
  }

  get degreeDays(): string {
    return ref(this.days.degreeDays);
  }

  /** Range and criterion of the days of the month. */
  ofDays(r: number): string {
    return `${ref(this.book.workings.calendar.month)},${this.of('number', r)}`;
  }

  sum(key: Exclude<keyof HeatingDays, 'sheet' | 'throughBattery'>, r: number): string {
    return `SUMIFS(${ref(this.days[key])},${this.ofDays(r)})`;
  }

  /** Days of the month that have a figure. */
  count(key: 'degreeDays', r: number): string {
    return `COUNTIFS(${this.ofDays(r)},${ref(this.days[key])},${NUMBER})`;
  }

  get throughBattery(): string {
    return ref(this.days.throughBattery);
  }
}

/** A meter's sum where it covers enough of the month. */
function whole(terms: MonthTerms, count: TakenKey, sum: TakenKey): (r: number) => string {
  return (r) =>
    terms.chosen(
      r,
      `IF(AND(${own(count, r)}>0,${own(count, r)}>=${figureName('leastCoverageShare')}*${terms.of('expected', r)},${own(sum, r)}>=0),${own(sum, r)},"")`,
    );
}

/** Whether too little of what the heat pump took has a price: without import nobody knows what was bought. */
const isHardlyPriced = (r: number): string => `${own('heatPumpPricedShare', r)}<${leastPricedFormula()}`;

/** What the heat pump took in the half-hours of the month that have import too ÷ what it took in all of them. */
function pricedShare(book: Book, terms: MonthTerms, r: number): string {
  const taken = (also?: string): string =>
    heatPumpOfReadings(book, terms.of('start', r), own('nextMonth', r), also);
  const priced = taken(`${ref(book.workings.readings.channels.importKwh)},${NUMBER}`);
  return terms.chosen(r, `IF(${own('heatPumpMeteredKwh', r)}<=0,1,${priced}/${taken()})`);
}

/** A rate of the last set that holds in the month. */
function rate(terms: MonthTerms, letters: string): (r: number) => string {
  return (r) => {
    const sets = own('ratesInForce', r);
    const found = `INDEX(${rateColumn(letters)},${sets})`;
    return terms.chosen(r, `IF(${sets}=0,"",IF(ISNUMBER(${found}),IF(${found}>=0,${found},""),""))`);
  };
}

/** Range and criteria of the degree days that were typed for the month. */
function typed(terms: MonthTerms, r: number): string {
  const months = monthDegreeDayColumn(DEGREE_DAY_TABLE.month);
  const values = monthDegreeDayColumn(DEGREE_DAY_TABLE.degreeDays);
  return `${months},">="&${terms.of('start', r)},${months},"<"&${own('nextMonth', r)},${values},">=0"`;
}

function typedDegreeDays(terms: MonthTerms, r: number): string {
  const [count, start] = [own('typedMonths', r), terms.of('start', r)];
  const sum = `SUMIFS(${monthDegreeDayColumn(DEGREE_DAY_TABLE.degreeDays)},${typed(terms, r)})`;
  const share = `${terms.of('days', r)}/(${own('nextMonth', r)}-${start})`;
  return terms.chosen(r, `IF(${count}=0,"",${sum}/${count}*${share})`);
}

const OWN_TEXTS: Partial<Record<TakenKey, { label: string; unit: string; description: string }>> = {
  heatPumpHalfHours: {
    label: 'Heat pump metered',
    unit: 'half-hours',
    description: 'Half-hours with a reading of the heat pump',
  },
  heatPumpMeteredKwh: { label: 'Heat pump, sum', unit: 'kWh', description: 'Sum of what was metered' },
  heatHalfHours: {
    label: 'Heat metered',
    unit: 'half-hours',
    description: 'Half-hours with a reading of the heat meter',
  },
  heatMeteredKwh: { label: 'Heat, sum', unit: 'kWh', description: 'Sum of what was metered' },
  metersNote: { label: 'Meters', unit: '', description: 'What is missing' },
  degreeDaysTyped: {
    label: 'Degree days typed',
    unit: '°C·day',
    description: 'As typed on Heating, for the days of the month that were metered',
  },
};

type Text = Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>;

/** Makes the columns, each with as many rows as there are months. */
function columnsOf({ shape }: Book) {
  return (key: string, text: Text, formula: FormulaColumn['formula']): FormulaColumn => ({
    letters: monthLetters(key),
    firstRow: FIRST_ROW,
    rows: shape.monthRows,
    ...text,
    name: heatingMonthName(key),
    formula,
  });
}

function textOf(key: TakenKey): Text {
  const line = HEATING_MONTH_INPUTS.find((input) => input.key === key);
  const style = line === undefined ? (key === 'metersNote' ? 'text' : 'kwh') : styleOf(line.format);
  const text = OWN_TEXTS[key] ?? (line === undefined ? undefined : { ...line, unit: unitOf(line) });
  if (text === undefined) throw new RangeError(`nothing says what ${key} is`);
  const { label, unit, description } = text;
  return { label, unit, description, style };
}

function takenColumns(book: Book): FormulaColumn[] {
  const terms = new MonthTerms(book);
  const note = METERS_NOTE;
  const column = columnsOf(book);
  const taken = (key: TakenKey, formula: (r: number) => string): FormulaColumn =>
    column(key, textOf(key), formula);
  return [
    taken('monthSerial', (r) => terms.of('start', r)),
    taken('days', (r) => terms.chosen(r, terms.of('days', r))),
    taken('heatPumpHalfHours', (r) => terms.sum('heatPumpHalfHours', r)),
    taken('heatPumpMeteredKwh', (r) => terms.sum('heatPumpKwh', r)),
    taken('electricityKwh', whole(terms, 'heatPumpHalfHours', 'heatPumpMeteredKwh')),
    taken('heatHalfHours', (r) => terms.sum('heatHalfHours', r)),
    taken('heatMeteredKwh', (r) => terms.sum('heatKwh', r)),
    taken('heatKwh', whole(terms, 'heatHalfHours', 'heatMeteredKwh')),
    taken('metersNote', (r) =>
      terms.chosen(
        r,
        `IF(${own('heatPumpHalfHours', r)}=0,${quoted(note.noReadings)},IF(NOT(ISNUMBER(${own('electricityKwh', r)})),${quoted(note.heatPumpGaps)},` +
          `IF(AND(${own('heatHalfHours', r)}>0,NOT(ISNUMBER(${own('heatKwh', r)}))),${quoted(note.heatGaps)},IF(${isHardlyPriced(r)},${quoted(note.importGaps)},""))))`,
      ),
    ),
    taken('degreeDaysTyped', (r) => typedDegreeDays(terms, r)),
    taken('degreeDays', (r) =>
      terms.chosen(
        r,
        `IF(ISNUMBER(${own('degreeDaysTyped', r)}),${own('degreeDaysTyped', r)},IF(${terms.count('degreeDays', r)}=0,"",${terms.sum('degreeDays', r)}))`,
      ),
    ),
    taken('daysWithTemperature', (r) =>
      terms.chosen(r, `IF(ISNUMBER(${own('degreeDaysTyped', r)}),"",${terms.count('degreeDays', r)})`),
    ),
    taken(
      'costHalfHourlyPounds',
      (r) =>
        `IF(OR(NOT(ISNUMBER(${own('electricityKwh', r)})),${figureName(TARIFF_PLACE)}=0,${isHardlyPriced(r)}),"",${terms.sum('costPence', r)}/100/${own('heatPumpPricedShare', r)})`,
    ),
    // Blank without a battery, and where the battery's sheets look at another tariff than the heating sheets.
    taken(
      'costBatteryPounds',
      (r) =>
        `IF(AND(ISNUMBER(${own('electricityKwh', r)}),${terms.throughBattery}=1,NOT(${isHardlyPriced(r)})),${terms.sum('batteryPence', r)}/100/${own('heatPumpPricedShare', r)},"")`,
    ),
    taken('monthSingleRatePence', rate(terms, RATES_TABLE.singleRate)),
    taken('monthGasRatePence', rate(terms, RATES_TABLE.gasRate)),
    taken('monthGasStandingPencePerDay', rate(terms, RATES_TABLE.gasStanding)),
  ];
}

function helpColumns(book: Book): FormulaColumn[] {
  const terms = new MonthTerms(book);
  const column = columnsOf(book);
  const help = (key: HelpKey, text: Text, formula: (r: number) => string): FormulaColumn =>
    column(key, text, formula);
  return [
    help(
      'nextMonth',
      { label: 'Next month', unit: 'first day', description: 'The day after the month', style: 'month' },
      (r) => {
        const start = terms.of('start', r);
        return `IF(${start}="","",DATE(YEAR(${start}),MONTH(${start})+1,1))`;
      },
    ),
    help(
      'ratesInForce',
      {
        label: 'Rates that changed',
        unit: 'set, 0: none',
        description:
          'The last set of the inputs of Heating that holds in the month; the last of all where rates are to be as they are now',
        style: 'integer',
      },
      (r) =>
        terms.chosen(
          r,
          `COUNTIFS(${rateColumn(RATES_TABLE.from)},"<"&MAX(${own('nextMonth', r)},${ref(book.workings.calendar.ratesAsOf)}))`,
        ),
    ),
    help(
      'typedMonths',
      {
        label: 'Degree days typed',
        unit: 'rows',
        description: 'Rows of the inputs of Heating with degree days of the month',
        style: 'integer',
      },
      (r) => terms.chosen(r, `COUNTIFS(${typed(terms, r)})`),
    ),
    help(
      'fromRoofKwh',
      {
        label: 'Heat pump, from the roof',
        unit: 'kWh',
        description: 'At least: what it took beyond all import, half-hour by half-hour',
        style: 'kwh',
      },
      (r) => `IF(ISNUMBER(${own('electricityKwh', r)}),${terms.sum('fromRoofKwh', r)},"")`,
    ),
    ...rangeColumns(book, terms),
    help(
      'heatPumpPricedShare',
      {
        label: 'Heat pump, with import',
        unit: 'share of its kWh',
        description:
          'In half-hours whose import was metered: they are priced, and what lacks import costs the same a kWh',
        style: 'percent',
      },
      (r) => pricedShare(book, terms, r),
    ),
  ];
}

/** What the range over what nobody measured is made of: (a) and (b) weigh as in the mean of the month. */
function rangeColumns(book: Book, terms: MonthTerms): FormulaColumn[] {
  const column = columnsOf(book);
  const of = (key: string, r: number): string => `$${monthLetters(key)}${r}`;
  const line = (
    key: HelpKey,
    text: string,
    unit: string,
    style: Text['style'],
    description: string,
    formula: (r: number) => string,
  ): FormulaColumn => column(key, { label: text, unit, description, style }, formula);
  const [meter, heat] = ['differenceFromMeterPounds', 'differenceFromHeatPounds'] as const;
  const weight =
    (key: string) =>
    (r: number): string =>
      `IF(COUNT(${of(key, r)})=0,0,1/COUNT(${of(meter, r)},${of(heat, r)}))`;
  /** Something × the weight of an estimate; 0 where the month has none. */
  const weighed = (key: HelpKey, text: string) => (r: number) =>
    `IF(${own(key, r)}=0,0,${own(key, r)}*${text})`;
  const gas = (r: number): string => `${of('days', r)}*${of('gasRateUsedPence', r)}/100`;
  const isCompared = (r: number): string => `COUNT(${of('differenceBestPounds', r)})=0`;
  const lower = figureName('baseEitherWayC');
  return [
    line('weightOfMeter', 'Weight of (a)', 'share', 'rate', 'In the month’s difference', weight(meter)),
    line('weightOfHeat', 'Weight of (b)', 'share', 'rate', 'In the month’s difference', weight(heat)),
    line(
      'weighedGasOfMeter',
      'A kWh of gas a day, (a)',
      '{major}',
      'rate',
      'Over the month, × weight of (a)',
      (r) => weighed('weightOfMeter', gas(r))(r),
    ),
    line(
      'weighedGasOfHeat',
      'A kWh of gas a day, (b)',
      '{major}',
      'rate',
      'Over the month, × weight of (b)',
      (r) => weighed('weightOfHeat', gas(r))(r),
    ),
    line(
      'weighedHeat',
      'Boiler’s heat at the gas rate',
      '{major}',
      'money',
      'At an efficiency of 100 %, × weight of (b)',
      (r) => weighed('weightOfHeat', of('boilerHeatAtGasRatePounds', r))(r),
    ),
    line(
      'comparedDays',
      'Days compared',
      'days',
      'integer',
      'Of months with a comparison',
      (r) => `IF(${isCompared(r)},0,${of('days', r)})`,
    ),
    line(
      'comparedPaid',
      'A kWh of electricity a day',
      '{major}',
      'rate',
      'Over the month, at the average rate paid',
      (r) =>
        `IF(OR(${isCompared(r)},COUNT(${of('averageRatePence', r)})=0),0,${of('days', r)}*SUM(${of('averageRatePence', r)})/100)`,
    ),
    line(
      'lowerBaseDegreeDays',
      'Degree days at the lower base',
      '°C·day',
      'oneDecimal',
      'Exact for days by their mean, else approximate; scaled as those of the month; blank where they were typed',
      (r) => {
        const range = `${terms.ofDays(r)},${terms.degreeDays},">"&${lower}`;
        const scale = `${of('degreeDaysUsed', r)}/${of('degreeDays', r)}`;
        return (
          `IF(OR(COUNT(${of('degreeDaysUsed', r)},${of('degreeDays', r)})<2,COUNT(${own('degreeDaysTyped', r)})=1),"",` +
          `IF(${of('degreeDays', r)}=0,0,(SUMIFS(${terms.degreeDays},${range})-${lower}*COUNTIFS(${range}))*${scale}))`
        );
      },
    ),
    line(
      'lowerBaseGasKwh',
      'Boiler’s gas (a) at the lower base',
      'kWh',
      'kwh',
      'By the line through last year’s gas at that base',
      (r) => {
        const degreeDays = `(${of('meterDegreeDays', r)}+${own('lowerBaseDegreeDays', r)}-${of('degreeDaysUsed', r)})`;
        const perDay = `(lower_base_gas_per_day-${figureName('leaveOutGasKwhPerDay')})`;
        return (
          `IF(COUNT(${own('lowerBaseDegreeDays', r)},${of('meterDegreeDays', r)},lower_base_gas_per_day,lower_base_gas_per_degree_day)<4,"",` +
          `MAX(0,${perDay}*${of('days', r)}+lower_base_gas_per_degree_day*${degreeDays}))`
        );
      },
    ),
    line(
      'lowerBaseChange',
      'Boiler’s gas (a) more at the lower base',
      '{major}',
      'money',
      '× weight of (a)',
      (r) =>
        `IF(OR(${own('weightOfMeter', r)}=0,COUNT(${own('lowerBaseGasKwh', r)})=0),"",${own('weightOfMeter', r)}*(${own('lowerBaseGasKwh', r)}-${of('gasFromMeterKwh', r)})*${of('gasRateUsedPence', r)}/100)`,
    ),
  ];
}

/** Workings: every line of the comparison that has a figure a month. */
export function heatingMonthsSheet(book: Book): SheetModel {
  const column = columnsOf(book);
  const columns: FormulaColumn[] = [
    ...takenColumns(book),
    ...HEATING_MONTH_LINES.map((line) =>
      column(
        line.key,
        {
          label: line.label,
          unit: unitOf(line),
          description: line.description,
          style: styleOf(line.format),
        },
        (r) => line.formula(monthReferences(r)),
      ),
    ),
    ...helpColumns(book),
  ];
  return {
    name: SHEETS.heatingMonths,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, c.style === 'text' ? 44 : 14])),
    heights: { [FIRST_ROW - 3]: 48, [FIRST_ROW - 2]: 26 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Heating months',
        'Workings: heat pump and boiler, one row a month of the chosen period. Nothing to fill in.',
        partLetters('heatingMonths', 1),
      ),
      ...columnHeaders(columns),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
