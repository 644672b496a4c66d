import type { Node, Reference } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { DAY_NAMES, LONG_NAMES } from '../../tariffs/weekdays.js';
import { SheetBuilder } from '../book/sheet-builder.js';
import { across, all, areaReference, Column, cellOf, f, type Line, stretch } from '../book/terms.js';
import type { InputTerms, TariffTerms } from './input-terms.js';
import { type LatestRates, latestRates } from './latest-rates.js';
import { BLOCK_ROWS, type Shape, tariffNumbers, WEEK_ROWS, WEEK_SLOTS } from './shape.js';
import { WORKING_SHEETS } from './sheet-names.js';

/** Bands of a tariff: the base rate and its windows. */
export const BANDS = MAX_WINDOWS + 1;
const DAYS = DAY_NAMES.length;

/** One tariff's rates with VAT, and where they hold. */
export interface TariffRates {
  name: Line;
  vatFactor: Line;
  /** Factor on the half-hourly price, 0 where the tariff does not follow it. */
  priceFactor: Line;
  /** 1 where the windows run by UTC. */
  byUtc: Line;
  /** Windows whose days are no list of days. */
  unreadableDays: readonly Line[];
  /** Rates of all bands, set after set. */
  bandRates: Column;
  /** The same, with the base rate for a window that is not used. */
  usedRates: Column;
  validFrom: Column;
  standing: Column;
  exportRate: Column;
  base: Column;
  /** What turns pence at earlier rates into pence at the latest. */
  latest: LatestRates;
  /** Lowest rate of each set where there is more than one, else a text. */
  offPeak: Column;
  /** Half-hours of the week that more than one window covers. */
  overlap: Line;
  band: Column;
  /** Rate by set and slot of the week, then by half-hour of each day with a clock change. */
  grid: Column;
}

export interface RatesSheets {
  rates: SheetBuilder;
  grid: SheetBuilder;
  tariffs: readonly TariffRates[];
  /** Slot of the week of each row of the grid, from 1. */
  slot: Column;
  /** Set of each row; the rows of days with a clock change have 0, and a number, a half-hour and a day instead. */
  setOf: Column;
  changeNumber: Column;
  halfHour: Column;
  day: Column;
  /** All tariffs' rates side by side. */
  gridBlock: ReturnType<typeof across>;
  /** Right of them, in the rows of days with a clock change, the rates of the bill of the day as they were. */
  billed: Column;
  billedBlock: Reference;
}

/** Lines of all tariffs, each in one rectangle with a column a tariff, by the names that other sheets ask for them by. */
const SIDE_BY_SIDE = {
  priceFactor: 'price_factors',
  byUtc: 'all_by_UTC',
  bandRates: 'all_band_rates',
  usedRates: 'all_used_rates',
  validFrom: 'all_valid_from',
  standing: 'all_standing_charges',
  exportRate: 'all_export_rates',
} as const satisfies Partial<Record<keyof TariffRates, string>>;

/**
 * The same line of all tariffs, a column a tariff.
 *
 * @param rates where the tariffs stand
 * @param of which line
 */
export function ofAllTariffs(
  { tariffs }: Pick<RatesSheets, 'tariffs'>,
  of: keyof typeof SIDE_BY_SIDE,
): Reference {
  return across(
    tariffs.map((tariff) => tariff[of]),
    SIDE_BY_SIDE[of],
  );
}

/** Rows of the grid before the days with a clock change. */
export const SET_ROWS = MAX_RATE_PERIODS * WEEK_ROWS;

const NAMES = DAY_NAMES.join('').toUpperCase();

/** The text of a days cell in upper case without blanks, each day by three letters. */
function plainDays(days: Line): Node {
  const plain = f`SUBSTITUTE(SUBSTITUTE(UPPER(${days})," ",""),"–","-")`;
  const short = Object.entries(LONG_NAMES).reduce<Node>(
    (rest, [long, name]) => f`SUBSTITUTE(${rest},${long},${name})`,
    plain,
  );
  return f`SUBSTITUTE(${short},"DAY","")`;
}

/** Stands for the name of a day: taken out, the letters around it could make another. */
const NAME_MARK = '|';
const RANGE_MARKS = `${NAME_MARK}-${NAME_MARK}`;

function namesMarked(text: Node): Node {
  return DAY_NAMES.reduce<Node>(
    (rest, name) => f`SUBSTITUTE(${rest},${name.toUpperCase()},${NAME_MARK})`,
    f`SUBSTITUTE(${text},${NAME_MARK},"?")`,
  );
}

/** Declares the rates; the grid's rows of clock changes are filled in once the days are known. */
export function ratesSheets(inputs: InputTerms, shape: Shape): RatesSheets {
  const rates = new SheetBuilder(WORKING_SHEETS.rates);
  const grid = new SheetBuilder(WORKING_SHEETS.rateGrid);
  const changeRows = shape.changes * BLOCK_ROWS;
  const gridRows = SET_ROWS + changeRows;
  const slot = grid.numbers(
    'Slot of the week',
    'from 1',
    'Half-hour of the week, Monday 00:00 is 1; it goes on into the next week so that a day never wraps',
    SET_ROWS,
    (row) => ((row % WEEK_ROWS) % WEEK_SLOTS) + 1,
  );
  const setOf = grid.numbers(
    'Set of rates',
    'from 1; 0: as of the day',
    'A stretch for each set; then a stretch for each day with a clock change',
    gridRows,
    (row) => (row < SET_ROWS ? Math.floor(row / WEEK_ROWS) + 1 : 0),
  );
  const inChanges = (row: number): number => row - SET_ROWS;
  const changeNumber = grid.numbers('Clock change', 'no.', '0: any week', gridRows, (row) =>
    row < SET_ROWS ? 0 : Math.floor(inChanges(row) / BLOCK_ROWS) + 1,
  );
  const halfHour = grid.numbers(
    'Half-hour of the day',
    'from 0',
    'Of days with a clock change',
    gridRows,
    (row) => (row < SET_ROWS ? 0 : inChanges(row) % BLOCK_ROWS),
  );
  const day = grid.numbers('Day of the change', 'row of Days', '0: any week', SET_ROWS, () => 0);
  const layout = new RatesLayout(rates, shape);
  const numbers = tariffNumbers(shape);
  const typed = numbers.map((tariff) => tariffRates(inputs, tariff, layout, grid));
  const tariffs = typed.map((ofTariff, tariff) => ({
    ...ofTariff,
    grid: grid.column({
      label: `Rate, tariff ${tariff + 1}`,
      unit: '{minor}/kWh',
      description: 'With VAT; without the half-hourly price',
      style: 'rate',
      rows: gridRows,
      name: `rates_${tariff + 1}`,
    }),
  }));
  const billed = grid.column({
    label: 'Rate, bill of the day',
    unit: '{minor}/kWh',
    description: 'On days with a clock change: with VAT, as it was, whatever rates price the period',
    style: 'rate',
    rows: SET_ROWS,
  });
  const grids = tariffs.map(({ grid: column }) => column);
  return {
    rates,
    grid,
    tariffs,
    billed,
    billedBlock: areaReference(
      {
        ...across(grids).area({ sheet: '', row: 1, column: 1 }),
        lastColumn: billed.column,
      },
      'billed_rate_grid',
    ),
    slot,
    setOf,
    changeNumber,
    halfHour,
    day,
    gridBlock: across(grids, 'rate_grid'),
  };
}

/** Where the lines of the rates sheet stand: a row a line, a column a tariff. */
class RatesLayout {
  private readonly rowsByLabel = new Map<string, number>();
  private readonly numbers = new Map<string, Reference>();
  private next = 4;

  constructor(
    private readonly sheet: SheetBuilder,
    private readonly shape: Shape,
  ) {}

  /** A column of values beside a block: 1 as often as asked, then 2, and so on. */
  numbersBeside(label: string, count: number, each: number): Reference {
    // All tariffs look at the same ones.
    const known = this.numbers.get(label);
    if (known !== undefined) return known;
    const row = this.rowsByLabel.get(label);
    if (row === undefined) throw new RangeError(`no line is called "${label}"`);
    const column = 3 + this.shape.tariffs;
    for (let i = 0; i < count * each; i++) {
      this.sheet.label(row + i, column, Math.floor(i / each) + 1, 'integer');
    }
    const area = {
      sheet: this.sheet.name,
      firstRow: row,
      lastRow: row + count * each - 1,
      firstColumn: column,
      lastColumn: column,
    };
    const numbers = areaReference(area, 'window_numbers');
    this.numbers.set(label, numbers);
    return numbers;
  }

  private rowOf(label: string, unit: string, rows: number): number {
    const known = this.rowsByLabel.get(label);
    if (known !== undefined) return known;
    const row = this.next;
    this.next += rows;
    this.rowsByLabel.set(label, row);
    if (rows === 1) {
      this.sheet.label(row, 1, label, 'label');
      this.sheet.label(row, 2, unit, 'unit');
    }
    return row;
  }

  line(
    tariff: number,
    label: string,
    unit: string,
    is: Node,
    style: 'rateFine' | 'integer' | 'header' | 'date' | 'text' = 'rateFine',
    name?: string,
  ): Line {
    const row = this.rowOf(label, unit, 1);
    return this.sheet.line(row, 3 + tariff, {
      label,
      unit,
      style,
      is,
      ...(name === undefined ? {} : { name: `${name}_${tariff + 1}` }),
    });
  }

  /** Cells one below the other that other lines look at together. */
  block(
    tariff: number,
    label: string,
    unit: string,
    parts: readonly { label: string; is: Node }[],
    style: 'rateFine' | 'integer' | 'date',
    name: string,
  ): Column {
    const row = this.rowOf(label, unit, parts.length);
    parts.forEach((part, i) => {
      if (tariff === 0) {
        this.sheet.label(row + i, 1, `${label}, ${part.label}`, 'label');
        this.sheet.label(row + i, 2, unit, 'unit');
      }
      this.sheet.line(row + i, 3 + tariff, { label: part.label, unit, style, is: part.is });
    });
    return new Column(
      this.sheet.name,
      3 + tariff,
      row,
      parts.length,
      style,
      { label, unit, description: '' },
      `${name}_${tariff + 1}`,
    );
  }
}

function tariffRates(
  inputs: InputTerms,
  tariff: number,
  layout: RatesLayout,
  grid: SheetBuilder,
): Omit<TariffRates, 'grid'> {
  const typed = inputs.tariffs[tariff];
  if (typed === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  const name = layout.line(
    tariff,
    'Tariff',
    'name',
    f`IF(${typed.name}="","",${typed.name})`,
    'header',
    'tariff_name',
  );
  const vatUnless = (isIncluded: Line): Node => f`IF(${isIncluded}="yes",1,1+SUM(${inputs.vatShare}))`;
  const vatFactor = layout.line(
    tariff,
    'VAT factor on the rates as typed',
    'factor',
    vatUnless(typed.includesVat),
  );
  const priceFactor = layout.line(
    tariff,
    'Factor on the half-hourly price, 0 where it is not used',
    'factor',
    f`IF(${typed.halfHourlyPriced}="yes",${vatUnless(typed.priceIncludesVat)},0)`,
    'rateFine',
    'factor',
  );
  const byUtc = layout.line(
    tariff,
    'Windows run by UTC',
    '1 or 0',
    f`IF(${typed.clock}="UTC",1,0)`,
    'integer',
    'by_UTC',
  );

  const sets = typed.periods.map((_, p) => (p === 0 ? 'first rates' : `change ${p}`));
  const ofSets = (
    label: string,
    unit: string,
    style: 'rateFine' | 'date',
    blockName: string,
    is: (period: TariffTerms['periods'][number], p: number) => Node,
  ): Column =>
    layout.block(
      tariff,
      label,
      unit,
      typed.periods.map((period, p) => ({ label: sets[p] ?? '', is: is(period, p) })),
      style,
      blockName,
    );
  const bandRates = layout.block(
    tariff,
    'Rate with VAT',
    '{minor}/kWh',
    typed.periods.flatMap((period, p) =>
      [period.base, ...period.windowRates].map((rate, band) => ({
        label: `${band === 0 ? 'base' : `window ${band}`}, ${sets[p]}`,
        is: f`SUM(${rate})*${vatFactor}`,
      })),
    ),
    'rateFine',
    'band_rates',
  );
  const rateAt = (p: number, band: number): Node => f`${cellOf(bandRates, p * BANDS + band)}`;
  const usedRates = layout.block(
    tariff,
    'Rate that holds at some time',
    '{minor}/kWh',
    typed.periods.flatMap((_, p) => [
      { label: `base, ${sets[p]}`, is: rateAt(p, 0) },
      ...typed.windows.map(({ from }, k) => ({
        label: `window ${k + 1}, ${sets[p]}; the base rate where it is not used`,
        is: f`IF(ISNUMBER(${from}),${rateAt(p, k + 1)},${rateAt(p, 0)})`,
      })),
    ]),
    'rateFine',
    'used_rates',
  );
  const offPeak = ofSets(
    'Lowest rate, where there is more than one',
    '{minor}/kWh',
    'rateFine',
    'off_peak_rates',
    (_, p) => {
      const rates = stretch(usedRates, p * BANDS, (p + 1) * BANDS - 1);
      return f`IF(OR(${priceFactor}<>0,MIN(${rates})=MAX(${rates})),"none",MIN(${rates}))`;
    },
  );

  const { band, overlap, unreadableDays } = weekOfBands(typed, tariff, layout, grid);
  const validFrom = ofSets('Valid from', 'date', 'date', 'valid_from', ({ validFrom: from }) =>
    from === undefined ? f`0` : f`SUM(${from})`,
  );
  const standing = ofSets(
    'Standing charge with VAT',
    '{minor}/day',
    'rateFine',
    'standing_charges',
    (period) => f`SUM(${period.standing})*${vatFactor}`,
  );
  const exportRate = ofSets(
    'Export rate',
    '{minor}/kWh',
    'rateFine',
    'export_rates',
    (period) => f`SUM(${period.exportRate})`,
  );
  const base = ofSets('Base rate with VAT', '{minor}/kWh', 'rateFine', 'base_rates', (_, p) => rateAt(p, 0));
  const latest = latestRates(tariff, layout, { priceFactor, usedRates, validFrom, exportRate }, BANDS);
  return {
    name,
    vatFactor,
    priceFactor,
    byUtc,
    unreadableDays,
    bandRates,
    usedRates,
    validFrom,
    standing,
    exportRate,
    base,
    latest,
    offPeak,
    overlap,
    band,
  };
}

/** Which band holds in each half-hour of the week. */
function weekOfBands(
  typed: TariffTerms,
  tariff: number,
  layout: RatesLayout,
  grid: SheetBuilder,
): Pick<TariffRates, 'band' | 'overlap' | 'unreadableDays'> {
  const windows = typed.windows.map(({ from, to, days }, k) => {
    const window = `Window ${k + 1}`;
    const text = layout.line(tariff, `${window}, days`, 'text', plainDays(days), 'text');
    const rest = layout.line(
      tariff,
      `${window}, days, each name as ${NAME_MARK}`,
      'text',
      namesMarked(f`SUBSTITUTE(${text},",","")`),
      'text',
    );
    const rangeFrom = layout.line(
      tariff,
      `${window}, first day of a range of days`,
      'Monday 1; 0: no range',
      f`IF(AND(LEFT(RIGHT(${text},4),1)="-",LEN(${text})=7,${rest}=${RANGE_MARKS}),(SEARCH(LEFT(${text},3),${NAMES})+2)/3,0)`,
      'integer',
    );
    const rangeDays = layout.line(
      tariff,
      `${window}, days after the first of the range`,
      'count',
      f`IF(${rangeFrom}=0,0,MOD((SEARCH(RIGHT(${text},3),${NAMES})+2)/3-${rangeFrom},7))`,
      'integer',
    );
    const unreadable = layout.line(
      tariff,
      `${window}, days can’t be read`,
      '1 or 0',
      f`IF(OR(${text}="",${text}="EVERY",${rangeFrom}>0,AND(${rest}<>"",SUBSTITUTE(${rest},${NAME_MARK},"")="")),0,1)`,
      'integer',
    );
    const start = layout.line(
      tariff,
      `${window}, start`,
      'half-hours after midnight',
      f`IF(ISNUMBER(${from}),ROUND(${from}*48,0),0)`,
      'integer',
    );
    const length = layout.line(
      tariff,
      `${window}, length`,
      'half-hours; 0: not used',
      f`IF(ISNUMBER(${from}),IF(ROUND(SUM(${to})*48,0)>${start},0,48)+ROUND(SUM(${to})*48,0)-${start},0)`,
      'integer',
    );
    return { text, rangeFrom, rangeDays, unreadable, start, length };
  });
  const starts = layout.block(
    tariff,
    'Window begins',
    'slot of the week, from 0',
    windows.flatMap(({ start }, k) =>
      DAY_NAMES.map((name, day) => ({ label: `window ${k + 1} on ${name}`, is: f`${day * 48}+${start}` })),
    ),
    'integer',
    'window_starts',
  );
  const ends = layout.block(
    tariff,
    'Window ends',
    'slot of the week, from 0',
    windows.flatMap(({ text, rangeFrom, rangeDays, unreadable, length }, k) =>
      DAY_NAMES.map((name, day) => {
        const begins = cellOf(starts, k * DAYS + day);
        const holds = f`OR(${text}="",${text}="EVERY",IF(${rangeFrom}>0,MOD(${day + 1}-${rangeFrom},7)<=${rangeDays},ISNUMBER(SEARCH(${name},${text}))))`;
        return {
          label: `window ${k + 1} on ${name}`,
          is: f`${begins}+IF(${unreadable}=1,0,IF(${holds},${length},0))`,
        };
      }),
    ),
    'integer',
    'window_ends',
  );
  const windowNumbers = layout.numbersBeside('Window begins', windows.length, DAYS);
  // A slot counts from 1, a start from 0: what has begun is below the slot, what has ended is below it too.
  const band = grid.column({
    label: `Band, tariff ${tariff + 1}`,
    unit: `0 base, 1–${MAX_WINDOWS} window`,
    description: 'Which of the tariff’s rates holds in this half-hour of the week',
    style: 'integer',
    rows: WEEK_SLOTS,
    name: `bands_${tariff + 1}`,
  });
  const slotHere = areaOfSlot(grid);
  const covering = (slot: Node): Node => f`(${all(starts)}<${slot})*(${all(ends)}>=${slot})`;
  const thisWeek = covering(slotHere);
  const nextWeek = covering(f`${slotHere}+${WEEK_SLOTS}`);
  band.is = f`MIN(${MAX_WINDOWS},SUMPRODUCT((${thisWeek}+${nextWeek})*${windowNumbers}))`;
  const overlap = layout.line(
    tariff,
    'Half-hours of the week in more than one window',
    'count',
    f`SUM(${all(ends)})-SUM(${all(starts)})-COUNTIFS(${all(band)},">0")`,
    'integer',
  );
  return { band, overlap, unreadableDays: windows.map(({ unreadable }) => unreadable) };
}

/** The slot of the week in the same row of the grid. */
function areaOfSlot(grid: SheetBuilder): Node {
  const [slot] = grid.columns;
  if (slot === undefined) throw new RangeError('the grid has no slots yet');
  return f`${slot}`;
}
