import type { Node, Reference } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { DAY_NAMES } from '../../tariffs/weekdays.js';
import { all, areaReference, type Column, f, named, stretch, up } from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import type { TariffDays } from './days.js';
import type { RatesSheets } from './rates.js';
import { BLOCK_ROWS, DAY_RUNS, type Shape, WEEK_ROWS, WEEK_RUNS, WEEK_SLOTS } from './shape.js';

/** Slots of a day, and where its second half begins. */
const SLOTS = WEEK_SLOTS / DAY_NAMES.length;
const NOON = SLOTS / 2;
/** Runs that begin within a day of another one: those of a day, the week's first, and one to stop at. */
const RUNS_AHEAD = DAY_RUNS + 3;
/** Runs of a set with those of the next week that a look ahead from the last can reach. */
export const RING_RUNS = WEEK_RUNS + 2 * RUNS_AHEAD + 2;
/** Rates that differ by less are the same, p/kWh. */
const TOLERANCE = 1e-9;
/** What the battery fills for at the cheapest rates, of the average day's use: days differ. */
const SPARE_FACTOR = 1.3;
/** In place of a share: it fills to the top. */
export const TO_THE_TOP = 2;

/** What each run of half-hours at one rate means to the battery, set after set; places in a day's curve count from its midnight. */
export interface RunsOfTariff {
  /** Run of each row of the grid, days with a clock change included. */
  ofGridRow: Reference;
  /** Beginning of each run and of those that follow in the next week, half-hours from Monday 00:00. */
  ringStart: Column;
  fillShare: Column;
  fillFrom: Column;
  fillUntil: Column;
  sunFrom: Column;
  lessKwh: Column;
  keepsRoom: Column;
  keepFrom: Column;
  keepUntil: Column;
  /** By set of rates. */
  sells: Column;
}

/** The constants beside the runs that tariffs share. */
interface RunTerms {
  /** Of a set: rows of the grid before its first. */
  setBefore: Column;
  ringBefore: Column;
  ringNumber: Column;
  set: Column;
  ringPlace: Column;
  weights: Column;
}

/** Declares the runs of equal rates right of the rates, on the sheet of the grid. */
export function rateRuns(
  rates: RatesSheets,
  days: readonly TariffDays[],
  battery: BatteryFigures,
  shape: Shape,
): RunsOfTariff[] {
  const terms = runTerms(rates);
  return days.map((ofTariff, t) => runsOfTariff(rates, ofTariff, battery, shape, terms, t));
}

function runTerms({ grid: sheet }: RatesSheets): RunTerms {
  const runs = MAX_RATE_PERIODS * WEEK_RUNS;
  const ring = MAX_RATE_PERIODS * RING_RUNS;
  const setOfRun = (row: number): number => Math.floor(row / WEEK_RUNS);
  return {
    setBefore: sheet.numbers(
      'Before the set',
      'rows of the grid',
      'Set by set',
      MAX_RATE_PERIODS,
      (set) => set * WEEK_ROWS,
    ),
    ringBefore: sheet.numbers(
      'Before the set of the run',
      'rows of the grid',
      'Runs of a set, and those that follow in the next week',
      ring,
      (row) => Math.floor(row / RING_RUNS) * WEEK_ROWS,
    ),
    ringNumber: sheet.numbers('Run before', 'count', 'Within its set', ring, (row) => row % RING_RUNS),
    set: sheet.numbers(
      'Set of the run',
      'from 1',
      'Each set has as many as any tariff can',
      runs,
      (row) => setOfRun(row) + 1,
    ),
    ringPlace: sheet.numbers(
      'Its place',
      'among the runs with the next week’s',
      'From 1',
      runs,
      (row) => setOfRun(row) * RING_RUNS + (row % WEEK_RUNS) + 1,
    ),
    // The first of some runs that will do outweighs all that follow: so a sum tells which it is.
    weights: sheet.numbers(
      'Weight of the next runs',
      'number',
      'Powers of 4',
      RUNS_AHEAD,
      (row) => 4 ** (RUNS_AHEAD - 1 - row),
    ),
  };
}

function runsOfTariff(
  { grid: sheet, tariffs, slot, day }: RatesSheets,
  ofTariff: TariffDays,
  battery: BatteryFigures,
  shape: Shape,
  terms: RunTerms,
  tariff: number,
): RunsOfTariff {
  const typed = tariffs[tariff];
  if (typed === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  const { setBefore, ringBefore, ringNumber, set, ringPlace, weights } = terms;
  const column = (
    label: string,
    unit: string,
    description: string,
    style: 'rate' | 'integer' | 'kwhFine' | 'rateFine',
    rows: number,
    is?: Node,
    name?: string,
  ): Column =>
    sheet.column({
      label: `${label}, tariff ${tariff + 1}`,
      unit,
      description,
      style,
      rows,
      ...(is === undefined ? {} : { is }),
      ...(name === undefined ? {} : { name: `${name}_${tariff + 1}` }),
    });
  const rates = all(typed.grid);
  const { grid } = typed;

  const run = column(
    'Run',
    'of its set, from 1',
    'Half-hours that follow each other at one rate; cut at noon and where the week begins',
    'integer',
    slot.rows,
  );
  run.is = f`IF(${slot}=1,1,${up(run)}+IF(MOD(${slot}-1,${SLOTS})=${NOON},1,IF(ABS(${grid}-${up(grid)})>${TOLERANCE},1,0)))`;
  const ofChange = f`MAX(1,INDEX(${all(ofTariff.set)},${day}))`;
  sheet.continued(
    run,
    shape.changes * BLOCK_ROWS,
    f`INDEX(${all(run)},(${ofChange}-1)*${WEEK_ROWS}+${slot})`,
  );

  const ofTariffs = (name: string, is: Node): Node => named(`${name}_${tariff + 1}`, is);
  const week = (name: string, of: Reference, before: Column): Node =>
    ofTariffs(name, f`INDEX(${of},${before}+1):INDEX(${of},${before}+${WEEK_SLOTS})`);
  const setRates = week('rates_of_set', rates, setBefore);
  const refillCost = column(
    'Refilling costs',
    '{minor}/kWh given',
    'The week’s lowest rate after losses and wear',
    'rate',
    MAX_RATE_PERIODS,
    f`MIN(${setRates})/${battery.roundTrip}+${battery.wearPencePerKwh}`,
  );
  const buyingPays = column(
    'Buying pays',
    '1 or 0',
    'It may charge from the grid, and the week’s highest rate repays that',
    'integer',
    MAX_RATE_PERIODS,
    f`IF(MAX(${setRates})>${refillCost}+${TOLERANCE},${battery.chargesFromGrid},0)`,
  );
  const exportRate = f`INDEX(${all(typed.exportRate)},${setBefore}/${WEEK_ROWS}+1)`;
  const sells = column(
    'Sells',
    '1 or 0',
    'It may export, and the export rate beats the refill, wear and every rate of the week',
    'integer',
    MAX_RATE_PERIODS,
    f`IF(AND(${exportRate}>=MAX(${setRates}),${exportRate}>${refillCost}+${TOLERANCE}),${battery.mayExport},0)`,
    'sells',
  );

  const runsOfWeek = f`INDEX(${all(run)},${ringBefore}+${WEEK_SLOTS})`;
  const ringStart = column(
    'Run begins',
    'half-hours from Monday 00:00',
    'Beyond the week’s end in the next week',
    'integer',
    ringNumber.rows,
    f`MATCH(MOD(${ringNumber},${runsOfWeek})+1,${week('runs_of_set', all(run), ringBefore)},0)-1+${WEEK_SLOTS}*INT(${ringNumber}/${runsOfWeek})`,
    'run_starts',
  );
  const ringRate = column(
    'Rate of the run',
    '{minor}/kWh',
    'The same over the run',
    'rate',
    ringNumber.rows,
    f`INDEX(${rates},${ringBefore}+1+MOD(${ringStart},${WEEK_SLOTS}))`,
  );

  const ofRun = (of: Column, place: Node): Node => f`INDEX(${all(of)},${place})`;
  const ofSet = (of: Column): Node => f`INDEX(${all(of)},${set})`;
  const rate = ofRun(ringRate, f`${ringPlace}`);
  const start = ofRun(ringStart, f`${ringPlace}`);
  const end = ofRun(ringStart, f`${ringPlace}+1`);
  /** Rates of a run and of those that follow. */
  const ahead = (name: string, from: Node): Node =>
    ofTariffs(name, f`${ofRun(ringRate, from)}:${ofRun(ringRate, f`${from}+${RUNS_AHEAD - 1}`)}`);
  /** Place of the first of the runs from one on that has a sum of weights; the one after all of them where none has. */
  const firstOf = (from: Node, weighed: Node): Node =>
    f`${from}+${RUNS_AHEAD}-COUNTIFS(${all(weights)},"<="&${weighed})`;
  const weigh = (condition: Node): Node => f`SUMPRODUCT((${condition})*${all(weights)})`;
  const ofRuns = (
    label: string,
    unit: string,
    description: string,
    is: Node,
    name?: string,
    style: 'integer' | 'rateFine' | 'kwhFine' = 'integer',
  ) => column(label, unit, description, style, set.rows, is, name);

  const cheapest = ofRuns(
    'At the cheapest rates',
    '1 or 0',
    'Refilling costs no less',
    f`IF(${rate}<=${ofSet(refillCost)}+${TOLERANCE},1,0)`,
  );
  const isCheapest = f`${cheapest}=1`;
  const repays = f`${rate}/${battery.roundTrip}+${battery.wearPencePerKwh}`;
  const exportOfSet = f`INDEX(${all(typed.exportRate)},${set})`;
  const soldOn = ofRuns(
    'Buys to sell',
    '1 or 0',
    'At the cheapest rates, where the export rate repays them',
    f`IF(AND(${ofSet(sells)}*${ofSet(buyingPays)}=1,${isCheapest},${repays}<${exportOfSet}-${TOLERANCE}),1,0)`,
  );
  const next = f`${ringPlace}+1`;
  const nextRates = ahead('rates_after_run', next);
  const other = ofRuns(
    'Next other rate',
    'run with the next week’s',
    'First of the following runs at another rate',
    firstOf(next, weigh(f`(${nextRates}>${rate}+${TOLERANCE})+(${nextRates}<${rate}-${TOLERANCE})`)),
  );
  const changes = ofRun(ringStart, f`${other}`);
  /** From the change on to the first run whose rates will do, a day at most; half-hours. */
  const afterChange = (condition: Node): Node =>
    f`MIN(${SLOTS},${ofRun(ringStart, firstOf(f`${other}`, weigh(condition)))}-${changes})`;
  const changedRates = ahead('rates_from_change', f`${other}`);
  const day2 = f`${SLOTS}+MOD(${changes},${SLOTS})`;
  const fillFrom = ofRuns(
    'Fills for from',
    'half-hour, of the second day',
    'First rate after the change that repays buying at this one',
    f`${day2}+${afterChange(f`${changedRates}>${repays}+${TOLERANCE}`)}`,
    'run_fills_for_from',
  );
  const fillUntil = ofRuns(
    'Fills for until',
    'half-hour, of the second day',
    'It is as cheap again, or a day has passed',
    f`MAX(${fillFrom},${day2}+${afterChange(f`${changedRates}<=${rate}+${TOLERANCE}`)})`,
    'run_fills_for_until',
  );
  const worth = f`IF(${exportOfSet}>=${rate}-${TOLERANCE},${TO_THE_TOP},IF(${isCheapest},${SPARE_FACTOR},1))`;
  const fillShare = ofRuns(
    'Fills for',
    'share of the likely use',
    '0: it doesn’t charge from the grid; 2: to the top',
    f`IF(${battery.chargesFromGrid}=0,0,IF(${soldOn}=1,${TO_THE_TOP},IF(OR(${changes}-${start}>${SLOTS},${fillFrom}>=${fillUntil}),0,${worth})))`,
    'run_fills_for_share',
    'rateFine',
  );
  const toTheTop = f`${fillShare}=${TO_THE_TOP}`;
  const sunFrom = ofRuns(
    'Sun counts from',
    'half-hour, of the second day',
    'The end of the run, no more than a day before',
    f`IF(OR(${fillShare}=0,${toTheTop}),${fillFrom},${fillFrom}-MIN(${SLOTS},${fillFrom}-${day2}+${changes}-${end}))`,
    'run_sun_from',
  );
  const lessKwh = ofRuns(
    'Less',
    'kWh stored',
    'What the same rate can still buy after the run, less the reserve; below 0 what it fills to the top by',
    f`IF(${fillShare}=0,0,IF(${toTheTop},-${battery.usableKwh},${battery.chargeStepKwh}*(${changes}-${end})-${battery.reserveKwh}))`,
    'run_fills_less',
    'kwhFine',
  );
  const keepsRoom = ofRuns(
    'Keeps what leaves room',
    '1 or 0',
    'At the cheapest rates, where buying pays',
    f`IF(AND(${ofSet(sells)}=0,${isCheapest}),${ofSet(buyingPays)},0)`,
    'run_keeps_room',
  );
  const refills = f`${nextRates}/${battery.roundTrip}+${battery.wearPencePerKwh}<${rate}-${TOLERANCE}`;
  const dearer = ofRuns(
    'Next dearer rate',
    'run with the next week’s',
    'First of the following runs that is dearer, before one whose rate refilling is repaid by',
    firstOf(next, f`INT(1.5*${weigh(f`(${nextRates}>${rate}+${TOLERANCE})-(${refills})`)})`),
  );
  const today = f`MOD(${start},${SLOTS})`;
  const keepFrom = ofRuns(
    'Keeps for from',
    'half-hour, of the first day',
    'The dearer rate; where the run begins if there is none within a day',
    f`${today}+IF(${ofSet(sells)}=1,0,MOD(MIN(${SLOTS + 1},${ofRun(ringStart, f`${dearer}`)}-${start}),${SLOTS + 1}))`,
    'run_keeps_for_from',
  );
  const dearerRuns = ahead('rates_from_dearer', f`${dearer}`);
  const notDearer = firstOf(f`${dearer}`, weigh(f`${dearerRuns}<=${rate}+${TOLERANCE}`));
  const keepUntil = ofRuns(
    'Keeps for until',
    'half-hour, of the first day',
    'It is not dearer any more, or a day has passed',
    f`IF(${keepFrom}=${today},${keepFrom},${keepFrom}+MIN(${SLOTS},${ofRun(ringStart, notDearer)}-${ofRun(ringStart, f`${dearer}`)}))`,
    'run_keeps_for_until',
  );
  return {
    ofGridRow: areaReference(
      {
        ...stretch(run, 0, run.rows - 1).area({ sheet: '', row: 1, column: 1 }),
        lastRow: run.lastRow + shape.changes * BLOCK_ROWS,
      },
      `run_${tariff + 1}`,
    ),
    ringStart,
    fillShare,
    fillFrom,
    fillUntil,
    sunFrom,
    lessKwh,
    keepsRoom,
    keepFrom,
    keepUntil,
    sells,
  };
}
