import type { Node } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { FIRST_ROW, SheetBuilder } from '../book/sheet-builder.js';
import { all, type Column, f, named } from '../book/terms.js';
import { type AverageDays, CURVE_ROWS, SLOTS_A_DAY } from './average-days.js';
import type { BatteryFigures } from './battery-figures.js';
import type { Calendar, TariffDays } from './days.js';
import { RING_RUNS, type RunsOfTariff } from './rate-runs.js';
import type { RatesSheets } from './rates.js';
import { type Shape, tariffNumbers, WEEK_ROWS, WEEK_RUNS, WEEK_SLOTS } from './shape.js';
import { FIRST_COLUMN, WORKING_SHEETS } from './sheet-names.js';

/** Keeps this many average days' sun of room free where it fills beyond what the average day takes. */
const SUN_DAYS_OF_ROOM = 3;

/**
 * The battery's two levels on a tariff: a row for each run of equal rates of each stretch of days in one month at one set
 * of rates, stretch after stretch.
 */
export interface LevelsOfTariff {
  fillUpTo: Column;
  keep: Column;
  /** By stretch: 1 where it sells all that it can. */
  sells: Column;
}

export interface LevelTables {
  sheet: SheetBuilder;
  tariffs: readonly LevelsOfTariff[];
}

/** Stretches that so many months can have: a change of rates within a month adds one. */
const stretchesOf = ({ monthRows }: Shape): number => monthRows + MAX_RATE_PERIODS - 1;

export function levelTables(
  calendar: Calendar,
  days: readonly TariffDays[],
  rates: RatesSheets,
  runs: readonly RunsOfTariff[],
  average: AverageDays,
  battery: BatteryFigures,
  shape: Shape,
): LevelTables {
  const sheet = new SheetBuilder(
    WORKING_SHEETS.batteryLevels,
    FIRST_ROW,
    FIRST_COLUMN.batteryLevels,
    'Battery levels',
  );
  const count = stretchesOf(shape);
  const counted = (label: string, unit: string, rows: number, of: (row: number) => number): Column =>
    sheet.numbers(label, unit, 'Counts', rows, of);
  /** Makes columns of a tariff with so many rows. */
  const columnsOf =
    (t: number, rows: number) =>
    (
      label: string,
      unit: string,
      description: string,
      is: Node,
      style: 'integer' | 'kwhFine' = 'integer',
      name?: string,
    ): Column =>
      sheet.column({
        label: `${label}, tariff ${t + 1}`,
        unit,
        description,
        style,
        rows,
        is,
        ...(name === undefined ? {} : { name: `${name}_${t + 1}` }),
      });
  const number = counted('Stretch', 'from 1', count, (row) => row + 1);
  // What a stretch is stands left of all levels: so their formulas stay short.
  const stretches = tariffNumbers(shape).map((t) => {
    const [ofDays, ofRuns, typed] = [days[t], runs[t], rates.tariffs[t]];
    if (ofDays === undefined || ofRuns === undefined || typed === undefined) {
      throw new RangeError(`there is no tariff ${t + 1}`);
    }
    const column = columnsOf(t, count);
    const firstDay = column(
      'First day',
      'row of Days; 0: none',
      'Of the stretch: days of one month at one set of rates',
      f`IFERROR(MATCH(${number},${all(ofDays.stretch)},0),0)`,
    );
    const set = f`MAX(1,INDEX(${all(ofDays.set)},MAX(1,${firstDay})))`;
    const month = f`IF(${firstDay}=0,1,INDEX(${all(calendar.month)},MAX(1,${firstDay})))`;
    const runsBefore = column(
      'Runs of sets before',
      'count',
      'Rows of the sets before',
      f`(${set}-1)*${WEEK_RUNS}`,
    );
    const ringBefore = column(
      'The same with the next week’s',
      'count',
      'Rows of the sets before',
      f`(${set}-1)*${RING_RUNS}`,
    );
    const midnight = column(
      'Midnight',
      'row of the curves',
      'Of the tariff’s clock on the month’s average day',
      f`(${month}-1)*${CURVE_ROWS}+1+${typed.byUtc}*INDEX(${all(average.aheadOfUtc)},${month})`,
    );
    const runsInUse = column(
      'Runs',
      'count',
      'Of a week of the stretch; 0: no such stretch, or no battery',
      f`IF(${firstDay}*${battery.usableKwh}=0,0,INDEX(${ofRuns.ofGridRow},(${set}-1)*${WEEK_ROWS}+${WEEK_SLOTS}))`,
    );
    const dayOfSun = f`INDEX(${all(average.sunCurve)},${midnight}+${SLOTS_A_DAY})-INDEX(${all(average.sunCurve)},${midnight})`;
    const calmKwh = column(
      'Leaves room for the sun',
      'kWh stored',
      'Level that leaves room for three average days’ sun',
      f`MAX(${battery.usableKwh},${battery.reserveKwh})-${SUN_DAYS_OF_ROOM}*(${dayOfSun})`,
      'kwhFine',
    );
    const sells = column(
      'Sells',
      '1 or 0',
      'Wherever it doesn’t charge',
      f`INDEX(${all(ofRuns.sells)},${set})`,
      'integer',
      'selling',
    );
    return { runsBefore, ringBefore, midnight, runsInUse, calmKwh, sells, ofRuns };
  });
  const rows = count * WEEK_RUNS;
  const stretch = counted('Stretch of the run', 'from 1', rows, (row) => Math.floor(row / WEEK_RUNS) + 1);
  const run = counted('Run', 'of its set, from 1', rows, (row) => (row % WEEK_RUNS) + 1);
  const levelsOfTariff = (ofTariff: (typeof stretches)[number], t: number): LevelsOfTariff => {
    const { ofRuns } = ofTariff;
    const column = columnsOf(t, rows);
    const ofStretch = (of: Column): Node => f`INDEX(${all(of)},${stretch})`;
    // Three in four of the rows stand for runs that no week has: working them out would take seconds.
    const row = column(
      'Row among the runs',
      '0: no week has it',
      'Of the set of rates of its stretch',
      f`IF(${run}>${ofStretch(ofTariff.runsInUse)},0,${ofStretch(ofTariff.runsBefore)}+${run})`,
      'integer',
    );
    const level = (label: string, description: string, is: Node, name?: string): Column =>
      column(label, 'kWh stored', description, f`IF(${row}=0,0,${is})`, 'kwhFine', name);
    const of = (part: Column): Node => f`INDEX(${all(part)},${row})`;
    const [midnight, calmKwh] = [ofStretch(ofTariff.midnight), ofStretch(ofTariff.calmKwh)];
    const need = (at: Node): Node => f`INDEX(${all(average.needCurve)},${midnight}+${at})`;
    const sun = (at: Node): Node => f`INDEX(${all(average.sunCurve)},${midnight}+${at})`;
    /** Likely sun until one time less that until another. */
    const sunBetween = (name: string, until: Node, from: Node): Node =>
      named(`${name}_${t + 1}`, f`${sun(until)}-${sun(from)}`);
    /** The most that the home will have needed at a time between two, beyond what it needed until the first. */
    const needed = (label: string, description: string, name: string, from: Node, until: Node): Column =>
      level(
        label,
        description,
        f`MAX(${named(`${name}_${t + 1}`, f`${need(from)}:${need(until)}`)})-${need(from)}`,
      );
    const [fillFrom, keepFrom] = [of(ofRuns.fillFrom), of(ofRuns.keepFrom)];
    const filledFor = needed(
      'Likely use that it fills for',
      'The most until the rates are as cheap again',
      'need_while_it_fills_for',
      fillFrom,
      of(ofRuns.fillUntil),
    );
    const keptFor = needed(
      'Likely use that it keeps for',
      'The most until the rates are not dearer any more',
      'need_while_it_keeps_for',
      keepFrom,
      of(ofRuns.keepUntil),
    );
    const share = of(ofRuns.fillShare);
    const start = f`INDEX(${all(ofRuns.ringStart)},${ofStretch(ofTariff.ringBefore)}+${run})`;
    const today = f`MOD(${start},${SLOTS_A_DAY})`;
    const least = battery.reserveKwh;
    return {
      fillUpTo: level(
        'Fills up to',
        'From the grid; 0: not at all, more than it holds: to the top',
        f`MAX(0,(${share}>1)*${calmKwh},${share}*${filledFor}+${sunBetween('sun_while_it_fills', of(ofRuns.sunFrom), fillFrom)}-${of(ofRuns.lessKwh)})`,
        'level_filled_to',
      ),
      keep: level(
        'Keeps',
        'Serves the home down to this',
        f`MAX(${least},${of(ofRuns.keepsRoom)}*${calmKwh},${least}+${keptFor}+${sunBetween('sun_while_it_keeps', today, keepFrom)})`,
        'level_kept',
      ),
      sells: ofTariff.sells,
    };
  };
  return { sheet, tariffs: stretches.map(levelsOfTariff) };
}
