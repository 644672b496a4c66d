import type { Node } from '../../../formula/nodes.js';
import { degreeDaysFromDailyMeanDescribed } from '../../../heating/degree-days-from-daily-mean.js';
import { degreeDaysFromTemperaturesDescribed } from '../../../heating/degree-days-from-temperatures.js';
import { LOOK_UP_MARGIN_DAYS } from '../../../time/serial.js';
import { SheetBuilder } from '../../book/sheet-builder.js';
import { all, type Column, call, f, type Line, named, namedOf, type Term } from '../../book/terms.js';
import { BLOCK_ROWS, FIRST_COLUMN, FIRST_ROW, SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import { dayBlocks } from '../../sheets/day-blocks.js';
import { ofAllTariffs } from '../../sheets/rates.js';
import type { Book } from '../book.js';
import { figureLine, TARIFF_PLACE } from './heating-figures-rows.js';
import { temperatureRange } from './heating-rows.js';

/** The heat pump and the weather by day. */
export interface HeatingDays {
  sheet: SheetBuilder;
  heatPumpHalfHours: Column;
  heatPumpKwh: Column;
  degreeDays: Column;
  /** From the temperatures by day, blank on days of the readings' own. */
  tableDegreeDays: Column;
  fitDegreeDays: Column;
  fitKwh: Column;
  chartDegreeDays: Column;
  chartKwh: Column;
  heatHalfHours: Column;
  heatKwh: Column;
  /** Pence of the heat pump at the rates of the tariff of the heating sheets. */
  costPence: Column;
  /** Pence of the heat pump through the battery; 0 where the battery looks at another tariff. */
  batteryPence: Column;
  /** 1 where there is a battery and its sheets look at the tariff of the heating sheets. */
  throughBattery: Line;
  /** What the heat pump took beyond what was imported. */
  fromRoofKwh: Column;
}

interface Text {
  label: string;
  unit: string;
  description: string;
  style: StyleName;
  name?: string;
}

const NUMBER = '>-1E+300';
/** Days with fewer degree days are days without heating, °C·day (common practice, no source). */
export const HEATING_FROM_DEGREE_DAYS = 1;
/** What a start may miss its day by, as a fraction that reads well. */
const MARGIN = f`1/${Math.round(1 / LOOK_UP_MARGIN_DAYS)}`;

/** Declares the heating days: right of the days, in their rows. */
export function heatingDays({ shape, workings }: Book): HeatingDays {
  const { readings, calendar, halfHours, realCost, rates, tariffs, looked, battery } = workings;
  const { channels } = readings;
  const sheet = new SheetBuilder(SHEETS.heatingDays, FIRST_ROW, FIRST_COLUMN.heatingDays, 'Heating days');
  const column = (text: Text, is?: Node): Column =>
    sheet.column({ ...text, rows: shape.days, ...(is === undefined ? {} : { is }) });
  const number = (
    label: string,
    unit: string,
    description: string,
    style: StyleName,
    name?: string,
  ): Column => column({ label, unit, description, style, ...(name === undefined ? {} : { name }) });

  const { date } = calendar;
  const onDays = (is: Node): Node => f`IF(${date}="","",${is})`;
  const heatPumpHalfHours = number(
    'Heat pump metered',
    'half-hours',
    'Half-hours with a reading of the heat pump',
    'integer',
    'heat_pump_half_hours',
  );
  const heatPumpKwh = number(
    'Heat pump',
    'kWh',
    'Electricity of the day; blank where nothing was metered',
    'rate',
    'heat_pump_of_day',
  );
  const temperatureHalfHours = number(
    'Temperature metered',
    'half-hours',
    'Half-hours with an outdoor temperature',
    'integer',
  );
  const meanC = number('Mean outdoors', '°C', 'Mean of the half-hours that have a temperature', 'oneDecimal');
  const degreeDays = number(
    'Degree days',
    '°C·day',
    'From the half-hours where none is missing, else from the temperatures by day, else blank: nothing is filled in',
    'rate',
    'degree_days_of_day',
  );
  const inFit = number(
    'In the fit',
    '1 or 0',
    'Whole day of the heat pump’s meter, and degree days known',
    'integer',
    'day_is_in_fit',
  );
  const fitDegreeDays = number(
    'Degree days, fitted',
    '°C·day',
    'Of days in the fit on which it heated',
    'rate',
    'fitted_degree_days',
  );
  const fitKwh = number('Heat pump, fitted', 'kWh', 'Of days in the fit', 'rate', 'fitted_heat_pump_kWh');
  const chartDegreeDays = number(
    'Degree days, charted',
    '°C·day',
    'A chart wants numbers on every row: a day that is not in the fit takes the place of the first that is',
    'rate',
  );
  const chartKwh = number('Heat pump, charted', 'kWh', 'As beside', 'rate');

  const rowsOfDay = dayBlocks(calendar).whole(halfHours.readingRow);
  const count = column(
    {
      label: 'Readings of the day',
      unit: 'count',
      description: 'Half-hours that were metered',
      style: 'integer',
    },
    onDays(f`COUNTIFS(${rowsOfDay},">0")`),
  );
  const first = column(
    { label: 'First reading', unit: 'row of Readings', description: '0: none', style: 'integer' },
    onDays(f`IF(${count}=0,0,SMALL(${rowsOfDay},1+COUNTIFS(${rowsOfDay},0)))`),
  );
  const last = column(
    { label: 'Last reading', unit: 'row of Readings', description: '0: none', style: 'integer' },
    onDays(f`MAX(${rowsOfDay})`),
  );
  const together = column(
    {
      label: 'Readings stand together',
      unit: '1 or 0',
      description: '0 where other rows stand among them: then they are searched for by their date',
      style: 'integer',
    },
    onDays(f`IF(AND(${count}>0,${last}-${first}+1=${count}),1,0)`),
  );

  const stretch = (channel: Column): Node =>
    namedOf(channel, 'of_day', f`INDEX(${all(channel)},${first}):INDEX(${all(channel)},${last})`);
  const start = all(readings.start);
  const from = f`">="&${date}-${MARGIN}`;
  const to = f`"<"&${date}+1-${MARGIN}`;
  const byDate: readonly Term[] = [start, from, start, to];
  /** A figure of the day's readings: of their stretch, or of all rows with the day's date. */
  const ofReadings = (quick: Node, slow: Node): Node =>
    f`IF(${count}=0,0,IF(${together}=1,${quick},${slow}))`;
  const countOf = (channel: Column): Node =>
    ofReadings(f`COUNT(${stretch(channel)})`, call('COUNTIFS', [...byDate, all(channel), NUMBER]));
  const sumOf = (channel: Column): Node =>
    ofReadings(f`SUM(${stretch(channel)})`, call('SUMIFS', [all(channel), ...byDate]));
  const whereMetered = (metered: Column, is: Node): Node => f`IF(SUM(${metered})=0,"",${is})`;

  heatPumpHalfHours.is = onDays(countOf(channels.heatPumpKwh));
  heatPumpKwh.is = whereMetered(heatPumpHalfHours, sumOf(channels.heatPumpKwh));
  temperatureHalfHours.is = onDays(countOf(channels.outdoorC));
  meanC.is = whereMetered(temperatureHalfHours, f`(${sumOf(channels.outdoorC)})/${temperatureHalfHours}`);
  const heatHalfHours = column(
    {
      label: 'Heat metered',
      unit: 'half-hours',
      description: 'Half-hours with a reading of the heat meter',
      style: 'integer',
      name: 'heat_half_hours',
    },
    onDays(countOf(channels.heatOutputKwh)),
  );
  const heatKwh = column(
    {
      label: 'Heat',
      unit: 'kWh',
      description: 'Heat of the day; blank where nothing was metered',
      style: 'rate',
      name: 'heat_of_day',
    },
    whereMetered(heatHalfHours, sumOf(channels.heatOutputKwh)),
  );

  const base = figureLine('degreeDayBaseC');
  const isWhole = f`${temperatureHalfHours}>=${calendar.length}`;
  const below = f`"<"&${base}`;
  const byHalfHours = column(
    {
      label: 'Degree days by half-hours',
      unit: '1 or 0',
      description: 'Where that was chosen and no temperature is missing',
      style: 'integer',
    },
    onDays(f`IF(AND(${figureLine('degreeDayMethod')}="half-hours",${isWhole}),1,0)`),
  );
  const whereByHalfHours = (is: Node): Node => f`IF(${byHalfHours}=1,${is},0)`;
  const belowHalfHours = column(
    {
      label: 'Below the base',
      unit: 'half-hours',
      description: 'Half-hours colder than the base of degree days, where they are counted',
      style: 'integer',
    },
    whereByHalfHours(
      ofReadings(
        f`COUNTIFS(${stretch(channels.outdoorC)},${below})`,
        call('COUNTIFS', [...byDate, all(channels.outdoorC), below]),
      ),
    ),
  );
  const belowSum = column(
    {
      label: 'Their temperatures',
      unit: '°C, sum',
      description: 'Sum over the half-hours colder than the base',
      style: 'rate',
    },
    whereByHalfHours(
      ofReadings(
        f`SUMIF(${stretch(channels.outdoorC)},${below})`,
        call('SUMIFS', [all(channels.outdoorC), ...byDate, all(channels.outdoorC), below]),
      ),
    ),
  );
  const [days, table] = [temperatureRange('date'), temperatureRange('degreeDays')];
  const found = f`COUNTIFS(${days},${date},${table},${NUMBER})`;
  const typed = column(
    {
      label: 'Degree days, Temperatures',
      unit: '°C·day',
      description: 'From the temperatures by day, for days whose half-hours are not whole',
      style: 'rate',
    },
    onDays(f`IF(OR(${isWhole},${found}=0),"",SUMIFS(${table},${days},${date})/${found})`),
  );
  const fromMean = withTerms(degreeDaysFromDailyMeanDescribed.formula, [meanC, base]);
  degreeDays.is = onDays(
    f`IF(${byHalfHours}=1,${fromHalfHours(belowHalfHours, belowSum, base)},IF(${isWhole},${fromMean},${typed}))`,
  );
  inFit.is = onDays(f`IF(AND(${heatPumpHalfHours}>=${calendar.length},ISNUMBER(${degreeDays})),1,0)`);
  // Without heating it makes hot water alone: such days would bend the line.
  fitDegreeDays.is = f`IF(${inFit}=0,"",IF(${degreeDays}>=${HEATING_FROM_DEGREE_DAYS},${degreeDays},""))`;
  fitKwh.is = f`IF(ISNUMBER(${fitDegreeDays}),${heatPumpKwh},"")`;
  const firstInFit = sheet.line(3, 2, {
    label: 'First in fit',
    unit: 'day from 1; 0: none',
    style: 'integer',
    is: f`IFERROR(MATCH(1,${all(inFit)},0),0)`,
  });
  const charted = (of: Column): Node =>
    f`IF(${inFit}=1,${of},IF(${firstInFit}=0,0,INDEX(${all(of)},${firstInFit})))`;
  chartDegreeDays.is = charted(degreeDays);
  chartKwh.is = charted(heatPumpKwh);

  const place = figureLine(TARIFF_PLACE);
  const factors = ofAllTariffs(rates, 'priceFactor');
  const priceFactor = sheet.line(3, 5, {
    label: 'Factor on the half-hourly price',
    unit: 'of the heating tariff',
    style: 'rate',
    name: 'heating_price_factor',
    is: f`IF(${place}=0,0,INDEX(${factors},1,${place}))`,
  });
  const throughBattery = sheet.line(4, 2, {
    label: 'Through the battery',
    unit: '1 or 0',
    style: 'integer',
    name: 'heating_through_battery',
    is: f`IF(AND(${battery.usableKwh}>0,${place}>0,${looked}=${place}),1,0)`,
  });
  const at = column(
    {
      label: 'Begins in the grid, heating tariff',
      unit: 'row of Rate grid',
      description: 'Where the day’s rates begin on the tariff of the heating sheets',
      style: 'integer',
    },
    onDays(call('CHOOSE', [f`MAX(1,${place})`, ...tariffs.map((tariff) => tariff.days.at)])),
  );
  const ofDay = dayBlocks(calendar).whole;
  const used = ofDay(halfHours.heatPumpKwh);
  const grid = rates.gridBlock;
  const slice = named(
    'heating_rates_of_day',
    f`INDEX(${grid},${at},${place}):INDEX(${grid},${at}+${BLOCK_ROWS - 1},${place})`,
  );
  const costPence = column(
    {
      label: 'Cost of the heat pump',
      unit: '{minor}',
      description: 'Half-hour by half-hour at the rates of the tariff of the heating sheets',
      style: 'pence',
      name: 'heat_pump_cost_of_day',
    },
    onDays(
      f`IF(OR(${heatPumpHalfHours}=0,${place}=0),0,SUMPRODUCT(${used},${slice})+IF(${priceFactor}=0,0,${priceFactor}*SUMPRODUCT(${used},${ofDay(halfHours.pricePence)})))`,
    ),
  );
  const batteryPence = column(
    {
      label: 'Cost through the battery',
      unit: '{minor}',
      description: 'Its part of grid, stored energy and sun, each at what it cost',
      style: 'pence',
      name: 'heat_pump_battery_cost_of_day',
    },
    onDays(f`IF(${throughBattery}=0,0,${realCost.heatPumpPence})`),
  );
  const imported = ofDay(halfHours.importKwh);
  const fromRoofKwh = column(
    {
      label: 'Heat pump, from the roof',
      unit: 'kWh',
      description:
        'At least: half-hour by half-hour what the heat pump took beyond all import without a battery',
      style: 'rate',
      name: 'heat_pump_from_roof_of_day',
    },
    onDays(f`SUMPRODUCT((${used}>${imported})*(${used}-${imported}))`),
  );
  return {
    sheet,
    fromRoofKwh,
    heatPumpHalfHours,
    heatPumpKwh,
    degreeDays,
    tableDegreeDays: typed,
    fitDegreeDays,
    fitKwh,
    chartDegreeDays,
    chartKwh,
    heatHalfHours,
    heatKwh,
    costPence,
    batteryPence,
    throughBattery,
  };
}

type FormulaText = ((cells: readonly string[]) => string) | undefined;

/** Stands in the library's text of a formula where a term belongs. */
const markOf = (index: number): string => String.fromCharCode(0xe000 + index);

/** A formula of the library with terms for its arguments. */
function withTerms(formula: FormulaText, terms: readonly Term[]): Node {
  if (formula === undefined) throw new RangeError('the function has no formula');
  return fromText(formula(terms.map((_, i) => markOf(i))), terms);
}

function fromText(text: string, terms: readonly Term[]): Node {
  const pieces: string[] = [];
  const found: Term[] = [];
  let piece = '';
  for (const sign of text) {
    const term = terms[sign.charCodeAt(0) - 0xe000];
    if (term === undefined) piece += sign;
    else {
      pieces.push(piece);
      found.push(term);
      piece = '';
    }
  }
  return f(Object.assign([...pieces, piece], { raw: [] }), ...found);
}

/** The library's sum over temperatures below the base, from their count and sum. */
function fromHalfHours(count: Column, sum: Column, base: Line): Node {
  const { formula } = degreeDaysFromTemperaturesDescribed;
  if (formula === undefined) throw new RangeError('degree days from temperatures have no formula');
  const text = formula(['@', markOf(2), '0.5'])
    .replace(/COUNTIF\(@,[^)]*\)/, markOf(0))
    .replace(/SUMIF\(@,[^)]*\)/, markOf(1));
  return fromText(text, [count, sum, base]);
}
