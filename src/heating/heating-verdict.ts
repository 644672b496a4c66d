import { InputError } from '../errors.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { roundHalfAway } from './round-half-away.js';

/**
 * Says in words whether the heat pump cost more or less than the boiler would have.
 * Source: common practice, no source.
 *
 * @param lowPounds lowest estimate of heat pump less boiler, £; negative: the heat pump is cheaper
 * @param highPounds highest estimate, £, not below the lowest
 * @param sameWithinPounds differences up to this count as none, £, at least 0
 * @returns one sentence
 * @throws InputError when the highest is below the lowest or a figure is no number
 * @example heatingVerdict(-20, -12, 3) // 'The heat pump cost £12 to £20 less than the boiler would have.'
 */
export function heatingVerdict(lowPounds: number, highPounds: number, sameWithinPounds: number): string {
  requireNumber(lowPounds, 'lowPounds');
  requireNumber(highPounds, 'highPounds');
  requireNumber(sameWithinPounds, 'sameWithinPounds', 0);
  if (highPounds < lowPounds) {
    throw new InputError(`the range ${lowPounds} to ${highPounds} runs backwards`, 'Swap the two.');
  }
  if (Math.max(Math.abs(lowPounds), Math.abs(highPounds)) <= sameWithinPounds) return VERDICT_WORDS.same;
  const words = differenceInWords(lowPounds, highPounds);
  return highPounds < 0 || lowPounds > 0
    ? VERDICT_WORDS.cost + words + VERDICT_WORDS.thanBoiler
    : VERDICT_WORDS.close + words + VERDICT_WORDS.thanTheBoiler;
}

/** What {@link heatingVerdict} is put together of. */
export const VERDICT_WORDS = {
  same: 'The heat pump cost about the same as the boiler would have.',
  cost: 'The heat pump cost ',
  thanBoiler: ' than the boiler would have.',
  close: 'Too close to call: from ',
  thanTheBoiler: ' than the boiler.',
  less: ' less',
  more: ' more',
  about: 'about ',
  to: ' to ',
} as const;

/** How far from 0 two estimates of the same sign are, to the pound: `£12 to £20`, or `about £12`. */
export function amountInWords(lowPounds: number, highPounds: number): string {
  const ends = [Math.abs(lowPounds), Math.abs(highPounds)];
  const near = roundHalfAway(Math.min(...ends));
  const far = roundHalfAway(Math.max(...ends));
  return near === far ? `${VERDICT_WORDS.about}£${near}` : `£${near}${VERDICT_WORDS.to}£${far}`;
}

/** The same with the direction, on one side of 0 or on both: `£12 to £20 less`, `£5 less to £3 more`. */
export function differenceInWords(lowPounds: number, highPounds: number): string {
  const { less, more, to } = VERDICT_WORDS;
  if (highPounds < 0) return amountInWords(lowPounds, highPounds) + less;
  if (lowPounds > 0) return amountInWords(lowPounds, highPounds) + more;
  return `£${roundHalfAway(-lowPounds)}${less}${to}£${roundHalfAway(highPounds)}${more}`;
}

function poundsRangeFormula(near: string, far: string): string {
  return `IF(ROUND(${near},0)=ROUND(${far},0),"${VERDICT_WORDS.about}£"&ROUND(${near},0),"£"&ROUND(${near},0)&"${VERDICT_WORDS.to}£"&ROUND(${far},0))`;
}

const args = [
  {
    name: 'lowPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Lowest estimate of heat pump less boiler; negative: the heat pump is cheaper.',
  },
  { name: 'highPounds', unit: '£', kind: 'number', shape: 'cell', description: 'Highest estimate.' },
  {
    name: 'sameWithinPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Differences up to this count as none.',
  },
] as const;

export const heatingVerdictDescribed: DescribedFunction = {
  name: 'heatingVerdict',
  cellName: 'HEATING_VERDICT',
  category: 'heating',
  summary: 'Says whether the heat pump cost more or less than the boiler would have.',
  arguments: args,
  result: { unit: 'none', shape: 'cell', description: 'One sentence.' },
  source: 'common practice, no source',
  example: {
    arguments: [-20, -12, 3],
    result: 'The heat pump cost £12 to £20 less than the boiler would have.',
  },
  compute: (a) => heatingVerdict(numberAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  // 0-x, not -x: some programs show -0 as "-0".
  formula: ([low, high, same]) => {
    const { same: alike, cost, thanBoiler, close, thanTheBoiler, less, more, to } = VERDICT_WORDS;
    return (
      `IF(MAX(ABS(${low}),ABS(${high}))<=${same},"${alike}",` +
      `IF(${high}<0,"${cost}"&${poundsRangeFormula(`0-(${high})`, `0-(${low})`)}&"${less}${thanBoiler}",` +
      `IF(${low}>0,"${cost}"&${poundsRangeFormula(low!, high!)}&"${more}${thanBoiler}",` +
      `"${close}£"&ROUND(0-(${low}),0)&"${less}${to}£"&ROUND(${high},0)&"${more}${thanTheBoiler}")))`
    );
  },
};
