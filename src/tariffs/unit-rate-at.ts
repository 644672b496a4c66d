import { InputError } from '../errors.js';
import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { tableColumn } from '../functions/table-column.js';
import { isInWindow } from './is-in-window.js';
import { ratePeriodIndexAt } from './rate-period-at.js';
import type { Tariff } from './tariff.js';
import { tariffFromCells } from './tariff-from-cells.js';
import { TARIFF_TABLE_COLUMNS } from './tariff-table.js';
import { inWindowFormula, secondsFormula } from './window-formula.js';

/** What the wall clock alone does not say about a half-hour. */
export interface HalfHourFacts {
  /** Offset of local time from UTC, minutes; needed where the tariff's windows are in UTC. */
  utcOffsetMinutes?: number;
  /** Half-hourly price, p/kWh; needed where the tariff is half-hourly priced. */
  pricePence?: number;
}

/**
 * What a kWh costs at a time.
 * Source: common practice, no source.
 *
 * @param tariff a valid tariff
 * @param localSerial local time, spreadsheet serial; counts to the second
 * @param facts offset from UTC and half-hourly price, where the tariff needs them
 * @returns p/kWh, with or without VAT as the tariff's own rates are
 * @throws InputError when the time is no number, or a fact that the tariff needs is missing
 * @example unitRateAt(tariff, 46023.0208333) // 13.5: in the window at 00:30
 */
export function unitRateAt(tariff: Tariff, localSerial: number, facts: HalfHourFacts = {}): number {
  requireNumber(localSerial, 'localTime', 0);
  const seconds = Math.floor(localSerial * 86_400 + 0.5);
  const period = tariff.ratePeriods[ratePeriodIndexAt(tariff.ratePeriods, seconds / 86_400)];
  if (period === undefined)
    throw new InputError(`the tariff "${tariff.name}" has no rate`, 'Give it a unit rate.');
  let clockSerial = localSerial;
  if (tariff.clock === 'utc') {
    if (facts.utcOffsetMinutes === undefined) {
      throw new InputError(
        `the windows of "${tariff.name}" are in UTC and the offset of this time is not given`,
        'Give the offset from UTC in minutes.',
      );
    }
    clockSerial -= facts.utcOffsetMinutes / 1440;
  }
  const window = tariff.windows.findIndex((candidate) => isInWindow(clockSerial, candidate));
  const rate = window === -1 ? period.baseRatePence : period.windowRatesPence[window];
  if (rate === undefined) {
    throw new InputError(
      `the tariff "${tariff.name}" has no rate for its window ${window + 1}`,
      'Give one rate for each window.',
    );
  }
  if (!tariff.halfHourlyPriced) return rate;
  if (facts.pricePence === undefined || !Number.isFinite(facts.pricePence)) {
    throw new InputError(
      `the tariff "${tariff.name}" takes its rate from half-hourly prices and there is none for this time`,
      'Give the price in p/kWh.',
    );
  }
  return rate + facts.pricePence;
}

/** A tariff as a cell function is given it. */
export const TARIFF_TABLE_ARGUMENT: ArgumentDescription = {
  name: 'tariffTable',
  unit: 'none',
  kind: 'number',
  shape: 'table',
  columns: TARIFF_TABLE_COLUMNS,
  description:
    'One row a rate: from, to, days, p/kWh, valid from, and p/day beside it (may be left out). From and to blank: the base ' +
    'rate. Rates that change: all rows once more with the date from which they hold.',
};

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'localTime',
    unit: 'date and time',
    kind: 'dateTime',
    shape: 'cell',
    description: 'The time to ask about, by the clock of the windows.',
  },
  TARIFF_TABLE_ARGUMENT,
];

/** A two-rate tariff that the examples use: 27.5 p, nights 13.5 p, 50 p a day. */
export const EXAMPLE_TARIFF_TABLE = [
  [null, null, null, 27.5, null, 50],
  [0.5 / 24, 4.5 / 24, 'Every day', 13.5, null, null],
] as const;

export const unitRateAtFunction: DescribedFunction = {
  name: 'unitRateAt',
  cellName: 'UNIT_RATE',
  category: 'rates',
  summary: 'Says what a kWh costs at a time.',
  arguments: ARGUMENTS,
  result: {
    unit: 'p/kWh',
    shape: 'cell',
    description: 'The rate as the table gives it, with or without VAT.',
  },
  source: 'common practice, no source',
  example: { arguments: [46023.0208333, EXAMPLE_TARIFF_TABLE], result: 13.5 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return unitRateAt(tariffFromCells(read), read.number('localTime'));
  },
  formula: ([time, table]: readonly [string, string]) => {
    const from = tableColumn(table, 1);
    const to = tableColumn(table, 2);
    const days = tableColumn(table, 3);
    const rate = tableColumn(table, 4);
    const validFrom = tableColumn(table, 5);
    const day = `INT(${secondsFormula(time)}/86400)`;
    // The latest date not after the day, or the first date where the day is before all of them.
    const since =
      `MAX(SUMPRODUCT(MAX((${validFrom}<=${day})*${validFrom})),` +
      `SUMPRODUCT(MIN(${validFrom}+(${rate}="")*1000000)))`;
    const holds = `(${validFrom}+0=${since})*(${rate}<>"")`;
    const inside = `${holds}*(${from}<>"")*${inWindowFormula(time, from, to, days)}`;
    return (
      `SUMPRODUCT(${inside}*${rate})` + `+(1-SUMPRODUCT(${inside}))*SUMPRODUCT(${holds}*(${from}="")*${rate})`
    );
  },
};
