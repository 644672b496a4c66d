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
  if (Math.max(Math.abs(lowPounds), Math.abs(highPounds)) <= sameWithinPounds) return SAME;
  if (highPounds < 0) return COST + poundsRange(-highPounds, -lowPounds) + LESS;
  if (lowPounds > 0) return COST + poundsRange(lowPounds, highPounds) + MORE;
  return `${CLOSE}£${roundHalfAway(-lowPounds)}${CHEAPER}£${roundHalfAway(highPounds)}${DEARER}`;
}

const SAME = 'The heat pump cost about the same as the boiler would have.';
const COST = 'The heat pump cost ';
const LESS = ' less than the boiler would have.';
const MORE = ' more than the boiler would have.';
const CLOSE = 'Too close to call: from ';
const CHEAPER = ' less to ';
const DEARER = ' more than the boiler.';
const ABOUT = 'about ';
const TO = ' to ';

function poundsRange(nearPounds: number, farPounds: number): string {
  const near = roundHalfAway(nearPounds);
  const far = roundHalfAway(farPounds);
  return near === far ? `${ABOUT}£${near}` : `£${near}${TO}£${far}`;
}

function poundsRangeFormula(near: string, far: string): string {
  return `IF(ROUND(${near},0)=ROUND(${far},0),"${ABOUT}£"&ROUND(${near},0),"£"&ROUND(${near},0)&"${TO}£"&ROUND(${far},0))`;
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
  formula: ([low, high, same]) =>
    `IF(MAX(ABS(${low}),ABS(${high}))<=${same},"${SAME}",` +
    `IF(${high}<0,"${COST}"&${poundsRangeFormula(`0-(${high})`, `0-(${low})`)}&"${LESS}",` +
    `IF(${low}>0,"${COST}"&${poundsRangeFormula(low!, high!)}&"${MORE}",` +
    `"${CLOSE}£"&ROUND(0-(${low}),0)&"${CHEAPER}£"&ROUND(${high},0)&"${DEARER}")))`,
};
