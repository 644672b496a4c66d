import type { Node, Reference } from '../../formula/nodes.js';
import { call, f, type Term } from '../book/terms.js';

/** A number between bounds; `from` and `to` count, `above` and `below` do not. */
export interface NumberLimits {
  readonly kind: 'number';
  readonly from?: number;
  readonly above?: number;
  readonly to?: number;
  readonly below?: number;
}

/** What a cell may hold, beside nothing. */
export type Limits =
  | NumberLimits
  /** One of some words, case aside. */
  | { readonly kind: 'choice'; readonly choices: readonly string[] }
  /** One of the names in some cells; what none means. */
  | { readonly kind: 'listed'; readonly list: Reference; readonly blankMeans?: string }
  /** A day as a serial number, first and last that may be; of whole days where no time of day may stand with it. */
  | { readonly kind: 'date'; readonly from: number; readonly to: number; readonly whole: boolean }
  /** A time of day on the half-hour as a fraction of a day; only as an end, midnight may be 24:00. */
  | { readonly kind: 'time'; readonly mayBeMidnightAfter: boolean }
  | { readonly kind: 'text' }
  /** Whatever stands there; what it has to be, a rule of its own says. */
  | { readonly kind: 'any' };

const SECONDS_A_DAY = 86_400;
const SECONDS_A_HALF_HOUR = 1800;

/** Seconds after midnight, as the library counts them. */
export const secondsOf = (cell: Term): Node => f`ROUND(${cell}*${SECONDS_A_DAY},0)`;

/** The first and last day that a date may be: 1 January 1990, 31 December 2099. */
export const USUAL_DAYS_OF_DATES = { from: 32_874, to: 73_050 } as const;

/**
 * Whether a cell is outside its limits, as a formula that gives 1 or 0.
 *
 * @param limits what it may hold
 * @param mayBeBlank whether it may hold nothing
 * @param cell the cell
 */
export function isOutside(limits: Limits, mayBeBlank: boolean, cell: Term): Node {
  const otherwise = mayBeBlank ? f`COUNTA(${cell})` : f`1`;
  const numberIf = (bounds: readonly Node[]): Node => {
    const [first, ...more] = bounds;
    const wrong = first === undefined ? f`0` : f`IF(${more.length === 0 ? first : call('AND', bounds)},0,1)`;
    return f`IF(ISNUMBER(${cell}),${wrong},${otherwise})`;
  };
  switch (limits.kind) {
    case 'number':
      return numberIf(boundsOf(limits, cell));
    case 'date':
      return numberIf([
        f`${cell}>=${limits.from}`,
        f`${cell}<=${limits.to}`,
        ...(limits.whole ? [f`${cell}=INT(${cell})`] : []),
      ]);
    case 'time': {
      const seconds = secondsOf(cell);
      return numberIf([
        f`${cell}>=0`,
        limits.mayBeMidnightAfter ? f`${seconds}<=${SECONDS_A_DAY}` : f`${seconds}<${SECONDS_A_DAY}`,
        f`MOD(${seconds},${SECONDS_A_HALF_HOUR})=0`,
      ]);
    }
    case 'choice': {
      const known = limits.choices.map((choice) => f`${cell}=${choice}`);
      return f`IF(${call('OR', mayBeBlank ? [f`ISBLANK(${cell})`, ...known] : known)},0,1)`;
    }
    case 'listed':
      return f`IF(ISNUMBER(MATCH(${cell},${limits.list},0)),0,${otherwise})`;
    case 'text':
      return f`IF(ISTEXT(${cell}),0,${otherwise})`;
    case 'any':
      return mayBeBlank ? f`0` : f`1-COUNTA(${cell})`;
  }
}

function boundsOf({ from, above, to, below }: NumberLimits, cell: Term): Node[] {
  return [
    ...(from === undefined ? [] : [f`${cell}>=${from}`]),
    ...(above === undefined ? [] : [f`${cell}>${above}`]),
    ...(to === undefined ? [] : [f`${cell}<=${to}`]),
    ...(below === undefined ? [] : [f`${cell}<${below}`]),
  ];
}
