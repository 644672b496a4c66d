import type { Line } from '../../book/terms.js';
import { TIMER_FIELDS } from '../../fields/timer-fields.js';
import type { StyleName } from '../../look/styles.js';
import { WHERE_METERED } from '../../sheets/readings.js';
import type { TimedLoad } from '../../sheets/timers.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { ref } from '../references.js';
import { dateText } from '../sentences.js';
import type { Cell } from '../sheet-model.js';

/** Sessions and half-hours of all readings are counted, whatever the period. */
export const LIMITS_HEADING = 'Limits, over all readings';

/** Defined name of the half-hour with the largest import. */
const LARGEST_IMPORT_AT = 'largest_import_at';

const FIRST = 6;
const LETTERS = { label: 'G', car: 'K', hotWater: 'L', unit: 'M' } as const;

interface Row {
  text: string;
  car?: string;
  hotWater?: string;
  unit: string;
  /** Whether the unit is a formula. */
  isUnitFormula?: boolean;
  style: StyleName;
  /** Ends the defined names. */
  name: string;
}

type OfSessions = (sessions: TimedLoad['sessions'], kwh: string) => string;

const ofLoad = (load: TimedLoad, text: OfSessions): string =>
  `IF(${ref(load.figures.isKnown)}=0,"",${text(load.sessions, ref(load.sessions.kwh))})`;
const count = (kwh: string): string => `COUNTIFS(${kwh},">0")`;

function limitRows(book: Book): Row[] {
  const { halfHours, timers, timerLeast, battery } = book.workings;
  const { hotWater, start, usedKwh } = halfHours;
  const imported = ref(halfHours.importKwh);
  const limit: Line = TIMER_FIELDS.supply.limitKw.cell;
  // Whether the battery charges in that very half-hour differs by tariff: at its full power it is never more.
  const isBeside = `AND(${ref(battery.usableKwh)}>0,${ref(battery.chargesFromGrid)}=1)`;
  const besideKw = `IF(${isBeside},${ref(battery.chargeKw)},0)`;
  const whereMetered = (text: string): string => `IF(COUNT(${ref(start)})=0,"",${text})`;
  const both = (text: OfSessions) => ({ car: ofLoad(timers.car, text), hotWater: ofLoad(hotWater, text) });
  return [
    {
      text: 'Largest half-hour of import, with the timers',
      car: whereMetered(`2*MAX(${imported})+${besideKw}`),
      unit: `IF(${isBeside},"kW at most, battery charging","kW, without battery")`,
      isUnitFormula: true,
      style: 'oneDigit',
      name: 'largest_import_kw',
    },
    {
      text: 'its day',
      car: whereMetered(dateText(LARGEST_IMPORT_AT)),
      unit: 'a mean over the half-hour',
      style: 'textCentre',
      name: 'largest_import_day',
    },
    {
      text: 'Half-hours above what the supply carries',
      car: `IF(OR(ISBLANK(${ref(limit)}),SUM(supply_timer_flags)>0),"",COUNTIFS(${imported},">"&((SUM(${ref(limit)})-${besideKw})/2+0.000001),${ref(usedKwh)},"${WHERE_METERED}"))`,
      unit: `IF(${isBeside},"at most; ","")&"blank: not checked"`,
      isUnitFormula: true,
      style: 'count',
      name: 'half_hours_above_supply',
    },
    {
      text: 'Sessions, from noon to noon',
      ...both((_, kwh) => count(kwh)),
      unit: 'count',
      style: 'count',
      name: 'sessions',
    },
    {
      text: 'that get less by the timer alone',
      ...both(({ staysKwh, canMove }) => `COUNTIFS(${ref(staysKwh)},">"&1E-9,${ref(canMove)},1)`),
      unit: 'the rest stays as metered',
      style: 'count',
      name: 'sessions_short',
    },
    {
      text: 'kWh that do not fit',
      ...both(({ staysKwh, canMove }) => `SUMIFS(${ref(staysKwh)},${ref(canMove)},1)`),
      unit: 'kWh',
      style: 'oneDigit',
      name: 'not_fitting',
    },
    {
      text: 'that stay as metered',
      ...both(({ canMove }, kwh) => `${count(kwh)}-SUM(${ref(canMove)})`),
      unit: 'gaps, or more power',
      style: 'count',
      name: 'sessions_unmoved',
    },
    {
      text: 'whose cheapest is not told, and counts as it is',
      car: ofLoad(timers.car, (_, kwh) => `${count(kwh)}-SUM(${ref(timerLeast.car.counts)})`),
      hotWater: ofLoad(hotWater, (_, kwh) => `${count(kwh)}-SUM(${ref(timerLeast.water.counts)})`),
      unit: 'noon, clock changes, no fit',
      style: 'count',
      name: 'sessions_untold',
    },
    {
      text: 'that took less than assumed',
      hotWater: ofLoad(hotWater, (_, kwh) => `COUNTIFS(${kwh},">0",${kwh},"<"&(tank_kWh-0.000001))`),
      unit: 'too little was metered',
      style: 'count',
      name: 'sessions_less',
    },
  ];
}

/** When the largest half-hour of import was, among the lines of words. */
export function largestImportLine({ workings: { halfHours } }: Book) {
  const [start, imported] = [ref(halfHours.start), ref(halfHours.importKwh)];
  return {
    name: LARGEST_IMPORT_AT,
    formula: `IF(COUNT(${start})=0,"",INDEX(${start},MATCH(MAX(${imported}),${imported},0)))`,
    style: 'dateTime',
  } as const;
}

/** What limits the timers: the supply, what does not fit, and what can't be told. */
export function timerLimitCells(book: Book): Cell[] {
  const { label: words, car: ofCar, hotWater: ofWater, unit: units } = LETTERS;
  return [
    label(`${words}${FIRST - 1}`, LIMITS_HEADING, 'section', { mergeTo: `J${FIRST - 1}` }),
    label(`${ofCar}${FIRST - 1}`, 'Car, or all', 'header'),
    label(`${ofWater}${FIRST - 1}`, 'Hot water', 'header'),
    ...limitRows(book).flatMap(({ text, unit, isUnitFormula, style, name, car, hotWater }, i) => {
      const row = FIRST + i;
      return [
        label(`${words}${row}`, text, 'label'),
        ...(car === undefined ? [] : [formula(`${ofCar}${row}`, car, style, { name: `car_${name}` })]),
        ...(hotWater === undefined
          ? []
          : [formula(`${ofWater}${row}`, hotWater, style, { name: `water_${name}` })]),
        isUnitFormula
          ? formula(`${units}${row}`, unit, 'unitBeside')
          : label(`${units}${row}`, unit, 'unitBeside'),
      ];
    }),
  ];
}
