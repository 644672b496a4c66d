import type { Node, Reference } from '../../formula/nodes.js';
import {
  across,
  all,
  type Column,
  call,
  down,
  f,
  type Line,
  named,
  sameRow,
  type Term,
  up,
} from '../book/terms.js';
import type { StyleName } from '../look/styles.js';
import type { Calendar } from './days.js';
import { type ReadingsSheet, WHERE_METERED } from './readings.js';
import { BLOCK_ROWS, type Shape } from './shape.js';
import type { TimerFigures } from './timer-figures.js';
import type { AllowedHours, TimerGrid } from './timer-grid.js';

/** Far from every half-hour, and a number of few digits, days. */
const MARGIN = 0.01;
/** kWh below this are none: sums of readings differ in their last digits. */
const NO_KWH = 1e-9;

/**
 * Sessions from noon to noon: in the row of the day at whose noon they begin. The one of the night before the first day
 * stands a row above the first.
 */
export interface TimerSessions {
  /** kWh that the load took; 0 where its hours are not known. */
  kwh: Column;
  /** Share of what it could have taken that it took; undefined where it has a meter of its own. */
  part: Column | undefined;
  /** Half-hours in which it may run. */
  allowed: Column;
  /** 1 where the timer can move the session. */
  canMove: Column;
  /** kWh that stay outside the hours, and the share of what was metered there. */
  staysKwh: Column;
  share: Column;
  /** kWh that are to be had in the hours from midnight on, and from noon on: of the day of the row. */
  left: Reference;
  fitsKwh: Column;
}

/** Where a load's kWh come from. */
export interface LoadSource {
  start: Column;
  kwh: Column;
  /** Whether they are readings as they stand, of half-hours without import too, which do not count. */
  isRead?: boolean;
  /** Most kWh of a session, where the load is a share of them. */
  mostKwh?: Line;
}

/** Readings, and how many of their rows have no import. */
export type SessionReadings = Pick<ReadingsSheet, 'start' | 'channels'> & { rowsWithoutImport: Line };

/** Noons at which sessions begin, beside the days. */
export function sessionNoons({ sheet, date, firstDay }: Calendar, shape: Shape): Column {
  const noon = sheet.column({
    label: 'Session begins',
    unit: 'noon, local time',
    description: 'A session of a car or a tank lasts from noon to noon; the first began on the day before',
    style: 'dateTime',
    rows: shape.days,
    is: f`IF(${date}="","",${date}+0.5)`,
  });
  sheet.seed(noon, f`IF(${firstDay}="","",${firstDay}-0.5)`);
  return noon;
}

/**
 * Declares the sessions of a load.
 *
 * @param calendar the days, on whose sheet they stand
 * @param noon when they begin
 * @param grid the days of the timers
 * @param hours the load's hours on them
 * @param timer its timer
 * @param readings where half-hours were metered
 * @param source its kWh and the times that they belong to; where it is a share of them, at most so many kWh a session
 * @param key begins the defined names
 * @param what the load in words
 * @param shape how much the workbook holds
 */
export function timerSessions(
  calendar: Calendar,
  noon: Column,
  grid: TimerGrid,
  hours: AllowedHours,
  timer: TimerFigures,
  { start, channels, rowsWithoutImport }: SessionReadings,
  source: LoadSource,
  key: string,
  what: string,
  shape: Shape,
): TimerSessions {
  const { sheet } = calendar;
  const column = (
    label: string,
    unit: string,
    description: string,
    style: StyleName,
    name: string,
    is: Node,
    above = 1,
  ): Column =>
    sheet.column({
      label: `${label}, ${what}`,
      unit,
      description,
      style: style as 'kwhFine',
      rows: shape.days + above,
      above,
      name: `${key}_${name}`,
      is,
    });
  /** Readings from so many half-hours after noon to so many. */
  const between = (times: Column, from: Term, to: Term): readonly Node[] => [
    f`${all(times)}`,
    f`">="&(${noon}+${from}/48-${MARGIN})`,
    f`${all(times)}`,
    f`"<"&(${noon}+${to}/48-${MARGIN})`,
  ];
  const whole = (times: Column): readonly Node[] => [
    f`${all(times)}`,
    f`">="&(${noon}-${MARGIN})`,
    f`${all(times)}`,
    f`"<"&(${noon}+1-${MARGIN})`,
  ];
  const stretch = (times: Column) => between(times, timer.stretchFrom, timer.stretchTo);
  /** Where every row has import, which is usual, nobody asks for it: a criterion more in every session takes half a second. */
  const withImport = (is: (more: readonly Term[]) => Node): Node =>
    f`IF(${rowsWithoutImport}=0,${is([])},${is([f`${all(channels.importKwh)}`, WHERE_METERED])})`;
  const sum = (where: (times: Column) => readonly Node[]): Node => {
    const is = (more: readonly Term[]): Node =>
      call('SUMIFS', [all(source.kwh), ...where(source.start), ...more]);
    return source.isRead === true ? withImport(is) : is([]);
  };
  const count = (where: readonly Node[]): Node => withImport((more) => call('COUNTIFS', [...where, ...more]));
  const whereKnown = (is: Node): Node => f`IF(OR(${noon}="",${timer.isKnown}=0),0,${is})`;
  const couldBe =
    source.mostKwh === undefined
      ? undefined
      : column(
          'Session could have taken',
          'kWh',
          'What was metered in the hours at which it is heated, beside the car',
          'kwhFine',
          'could_be_kWh',
          whereKnown(sum(whole)),
        );
  const kwh = column(
    'Session takes',
    'kWh',
    'From noon to noon, in half-hours with import',
    'kwhFine',
    'session_kWh',
    couldBe === undefined ? whereKnown(sum(whole)) : f`MIN(${couldBe},${source.mostKwh ?? 0})`,
  );
  const part =
    couldBe === undefined
      ? undefined
      : column(
          'Share of that',
          'share',
          'Of the use in each of those half-hours',
          'rateFine',
          'part',
          f`IF(${couldBe}=0,0,${kwh}/${couldBe})`,
        );
  /** What is of the timer's hours, given what is of the whole session and of that stretch of it. */
  const ofHours = (ofSession: Term, ofStretch: Node): Node =>
    f`IF(${timer.spansNoon}=1,${ofSession}-${ofStretch},${ofStretch})`;
  const scaled = (is: Node): Node => (part === undefined ? is : f`${part}*${is}`);
  const inHours = named(`${key}_kWh_in_its_hours`, sum(stretch));
  const inside = column(
    'Of it in the hours',
    'kWh',
    'As metered',
    'kwhFine',
    'inside_kWh',
    f`IF(${kwh}=0,0,${ofHours(kwh, scaled(inHours))})`,
  );
  const ofDay = (counts: Column, at: Reference): Node =>
    f`IF(SUM(${at})=0,0,INDEX(${all(counts)},INT(${at}/${BLOCK_ROWS})+1))`;
  const allowed = column(
    'Half-hours in which it may run',
    'count',
    'Of the session, by the clock',
    'count',
    'allowed',
    f`IF(${kwh}=0,0,${ofDay(hours.after, sameRow(grid.at))}+${ofDay(hours.before, down(grid.at))})`,
  );
  const metered = named(`${key}_readings_of_session`, count(whole(start)));
  const meteredInHours = named(`${key}_readings_in_its_hours`, count(stretch(start)));
  const meteredHalfHours = column(
    'Of these metered',
    'count',
    'Where one is missing, the session stays as it was metered',
    'count',
    'allowed_metered',
    f`IF(${kwh}=0,0,${ofHours(metered, meteredInHours)})`,
  );
  const roomKwh = f`${allowed}*${timer.stepKwh}`;
  // A half-hour that stands twice, once without import, would be metered by its count and not by its row.
  const rowsInHours = named(`${key}_rows_in_its_hours`, call('COUNTIFS', stretch(start)));
  const rowsOfHours = ofHours(call('COUNTIFS', whole(start)), rowsInHours);
  const canMove = column(
    'Can be moved',
    '1 or 0',
    'All of its hours are metered, and no more was metered in them than they hold at this power',
    'integer',
    'moves',
    f`IF(OR(${kwh}<=0,${meteredHalfHours}<>${allowed},${inside}>${roomKwh}+${NO_KWH}),0,IF(${rowsWithoutImport}=0,1,IF(${rowsOfHours}=${allowed},1,0)))`,
  );
  const staysKwh = column(
    'Does not fit',
    'kWh',
    'Stays at the hours at which it was metered',
    'kwhFine',
    'stays_kWh',
    f`IF(${canMove}=0,${kwh}-${inside},IF(${kwh}-${roomKwh}>${NO_KWH},MIN(${kwh}-${roomKwh},${kwh}-${inside}),0))`,
  );
  const share = column(
    'Share that stays',
    'of what was metered outside the hours',
    'The same for each half-hour',
    'rateFine',
    'stays',
    f`IF(${canMove}*${staysKwh}=0,0,${staysKwh}/(${kwh}-${inside}))`,
  );
  const leftAtMidnight = column(
    'To be had from midnight on',
    'kWh',
    'Of the session that began on the day before, after its half-hours before midnight',
    'kwhFine',
    'left_at_midnight',
    f`${up(kwh)}-${up(staysKwh)}-${timer.stepKwh}*${ofDay(hours.after, up(grid.at))}`,
    0,
  );
  const fitsKwh = column(
    'To be had from noon on',
    'kWh',
    'Of the session that begins on the day',
    'kwhFine',
    'left_at_noon',
    f`${kwh}-${staysKwh}`,
    0,
  );
  return {
    kwh,
    part,
    allowed,
    canMove,
    staysKwh,
    share,
    left: across([leftAtMidnight, fitsKwh], `${key}_left`),
    fitsKwh,
  };
}
