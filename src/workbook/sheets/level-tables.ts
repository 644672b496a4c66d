import type { Node, Reference } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { FIRST_ROW, SheetBuilder } from '../book/sheet-builder.js';
import { across, all, type Column, cellOf, f, inOwnColumn, named } from '../book/terms.js';
import { type AverageDays, CURVE_ROWS, SLOTS_A_DAY } from './average-days.js';
import type { BatteryFigures } from './battery-figures.js';
import type { Calendar, TariffDays } from './days.js';
import { RUN_ROWS, type RunsOfTariff, WEEK_RUNS } from './rate-runs.js';
import type { RatesSheets } from './rates.js';
import { type Shape, tariffNumbers, WEEK_ROWS, WEEK_SLOTS } from './shape.js';
import { FIRST_COLUMN, WORKING_SHEETS } from './sheet-names.js';

/** Keeps this many average days' sun of room free where it fills beyond what the average day takes. */
const SUN_DAYS_OF_ROOM = 3;

/** The battery's two levels on a tariff: a row a run of equal rates, a column a stretch of days in one month at one set of rates. */
export interface LevelsOfTariff {
  fillUpTo: Reference;
  keep: Reference;
  /** By stretch: 1 where it sells all that it can. */
  sells: Column;
}

export interface LevelTables {
  sheet: SheetBuilder;
  tariffs: readonly LevelsOfTariff[];
}

/** Above the first row of a column of levels: the number of its stretch. */
const STRETCH_ROW = FIRST_ROW - 1;

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
  const numbers = (label: string, unit: string, rows: number): Column =>
    sheet.numbers(label, unit, 'Counts', rows, (row) => row + 1);
  const run = numbers('Run', 'of its set, from 1', WEEK_RUNS);
  const number = numbers('Stretch', 'from 1', count);
  // What a stretch is stands left of all levels: so their formulas stay short.
  const stretches = tariffNumbers(shape).map((t) => {
    const [ofDays, ofRuns, typed] = [days[t], runs[t], rates.tariffs[t]];
    if (ofDays === undefined || ofRuns === undefined || typed === undefined) {
      throw new RangeError(`there is no tariff ${t + 1}`);
    }
    const column = (
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
        rows: count,
        is,
        ...(name === undefined ? {} : { name: `${name}_${t + 1}` }),
      });
    const firstDay = column(
      'First day',
      'row of Days; 0: none',
      'Of the stretch: days of one month at one set of rates',
      f`IFERROR(MATCH(${number},${all(ofDays.stretch)},0),0)`,
    );
    const set = f`MAX(1,INDEX(${all(ofDays.set)},MAX(1,${firstDay})))`;
    const month = f`IF(${firstDay}=0,1,INDEX(${all(calendar.month)},MAX(1,${firstDay})))`;
    const runsBefore = column(
      'Runs before',
      'count',
      'Rows of the sets before',
      f`(${set}-1)*${RUN_ROWS.ofSet}`,
    );
    const ringBefore = column(
      'The same with the next week’s',
      'count',
      'Rows of the sets before',
      f`(${set}-1)*${RUN_ROWS.ofRing}`,
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
  return {
    sheet,
    tariffs: stretches.map((ofTariff, t): LevelsOfTariff => {
      const { ofRuns } = ofTariff;
      const rows = across(
        [
          ofRuns.fillFrom,
          ofRuns.fillUntil,
          ofRuns.fillShare,
          ofRuns.sunFrom,
          ofRuns.lessKwh,
          ofRuns.keepsRoom,
          ofRuns.dearer,
          ofRuns.keepFrom,
          ofRuns.keepUntil,
        ],
        `runs_${t + 1}`,
      );
      const columnsOf = (label: string, description: string, is: (s: number) => Node): Column[] =>
        Array.from({ length: count }, (_, s) => {
          const column = sheet.column({
            label: `${label}, tariff ${t + 1}, stretch ${s + 1}`,
            unit: 'kWh stored',
            description,
            style: 'kwhFine',
            rows: WEEK_RUNS,
            // Three in four of the cells stand for runs that no week has: working them out would take seconds.
            is: f`IF(${run}>${cellOf(ofTariff.runsInUse, s)},0,${is(s)})`,
          });
          sheet.labelAbove(column, STRETCH_ROW, s + 1);
          return column;
        });
      const table = (label: string, description: string, name: string, is: (s: number) => Node): Reference =>
        across(columnsOf(label, description, is), `${name}_${t + 1}`);
      /** The most that the home will have needed at a time between two, beyond what it needed until the first. */
      const needed = (
        label: string,
        description: string,
        name: string,
        from: number,
        until: number,
      ): Column[] =>
        columnsOf(label, description, (s) => {
          const { of, need } = terms(s);
          return f`MAX(${needBetween(name, from, until)})-${need(of(from))}`;
        });
      /** The same for all stretches: which one it is stands above the column. */
      const needBetween = (name: string, from: number, until: number): Node => {
        const stretch = inOwnColumn(sheet.name, STRETCH_ROW);
        const ofStretch = (of: Column): Node => f`INDEX(${all(of)},${stretch})`;
        const at = (place: number): Node =>
          f`INDEX(${all(average.needCurve)},${ofStretch(ofTariff.midnight)}+INDEX(${rows},${ofStretch(ofTariff.runsBefore)}+${run},${place}))`;
        return named(`${name}_${t + 1}`, f`${at(from)}:${at(until)}`);
      };
      const terms = (s: number) => {
        const [runsBefore, ringBefore, midnight, calmKwh] = [
          cellOf(ofTariff.runsBefore, s),
          cellOf(ofTariff.ringBefore, s),
          cellOf(ofTariff.midnight, s),
          cellOf(ofTariff.calmKwh, s),
        ];
        return {
          calmKwh,
          of: (place: number): Node => f`INDEX(${rows},${runsBefore}+${run},${place})`,
          start: f`INDEX(${all(ofRuns.ringStart)},${ringBefore}+${run})`,
          need: (at: Node): Node => f`INDEX(${all(average.needCurve)},${midnight}+${at})`,
          sun: (at: Node): Node => f`INDEX(${all(average.sunCurve)},${midnight}+${at})`,
        };
      };
      const filledFor = needed(
        'Likely use that it fills for',
        'The most until the rates are as cheap again',
        'need_while_it_fills_for',
        1,
        2,
      );
      const keptFor = needed(
        'Likely use that it keeps for',
        'The most until the rates are not dearer any more',
        'need_while_it_keeps_for',
        8,
        9,
      );
      const cell = (columns: readonly Column[], s: number): Column => {
        const found = columns[s];
        if (found === undefined) throw new RangeError(`there is no stretch ${s + 1}`);
        return found;
      };
      return {
        fillUpTo: table(
          'Fills up to',
          'From the grid; 0: not at all, more than it holds: to the top',
          'fill_up_to',
          (s) => {
            const { of, sun, calmKwh } = terms(s);
            const [from, share, sunFrom, less] = [of(1), of(3), of(4), of(5)];
            return f`MAX(0,(${share}>1)*${calmKwh},${share}*${cell(filledFor, s)}+${sun(sunFrom)}-${sun(from)}-${less})`;
          },
        ),
        keep: table('Keeps', 'Serves the home down to this', 'keep', (s) => {
          const { of, start, sun, calmKwh } = terms(s);
          const [keepsRoom, from] = [of(6), of(8)];
          const today = f`MOD(${start},${SLOTS_A_DAY})`;
          return f`MAX(${battery.reserveKwh},${keepsRoom}*${calmKwh},${battery.reserveKwh}+${cell(keptFor, s)}+${sun(today)}-${sun(from)})`;
        }),
        sells: ofTariff.sells,
      };
    }),
  };
}
