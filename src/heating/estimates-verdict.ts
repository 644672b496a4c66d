import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { roundHalfAway } from './round-half-away.js';

/**
 * Says in words whether two independent estimates of the boiler agree.
 * Source: common practice, no source (where the two limits lie is the user's choice).
 *
 * @param shareApart how far apart they are, from `estimatesApart`
 * @param agreeWithinShare up to here they agree, for example 0.1
 * @param disagreeBeyondShare beyond this they disagree, for example 0.25
 * @returns one sentence
 * @throws InputError when a share is negative
 * @example estimatesVerdict(0.04, 0.1, 0.25) // 'The two boiler estimates agree: 4% apart.'
 */
export function estimatesVerdict(
  shareApart: number,
  agreeWithinShare: number,
  disagreeBeyondShare: number,
): string {
  requireNumber(shareApart, 'shareApart', 0);
  requireNumber(agreeWithinShare, 'agreeWithinShare', 0);
  requireNumber(disagreeBeyondShare, 'disagreeBeyondShare', agreeWithinShare);
  const { estimates, agree, differ, disagree, apart, advice } = ESTIMATES_WORDS;
  const [how, then] =
    shareApart <= agreeWithinShare
      ? [agree, advice.agree]
      : shareApart <= disagreeBeyondShare
        ? [differ, advice.differ]
        : [disagree, advice.disagree];
  return `${estimates}${how}: ${roundHalfAway(shareApart * 100)}${apart}${then}`;
}

/** What {@link estimatesVerdict} is put together of. */
export const ESTIMATES_WORDS = {
  estimates: 'The two boiler estimates ',
  agree: 'agree',
  differ: 'differ',
  disagree: 'disagree',
  apart: '% apart',
  advice: {
    agree: '.',
    differ: '. Take the answer as a range.',
    disagree: '. Check boiler efficiency, heat meter, hot water and last year’s gas before you rely on it.',
  },
} as const;

const args = [
  {
    name: 'shareApart',
    unit: 'share',
    kind: 'number',
    shape: 'cell',
    description: 'Difference of the two as a share of their mean.',
  },
  {
    name: 'agreeWithinShare',
    unit: 'share',
    kind: 'number',
    shape: 'cell',
    description: 'Up to here they agree.',
  },
  {
    name: 'disagreeBeyondShare',
    unit: 'share',
    kind: 'number',
    shape: 'cell',
    description: 'Beyond this they disagree.',
  },
] as const;

export const estimatesVerdictDescribed: DescribedFunction = {
  name: 'estimatesVerdict',
  cellName: 'ESTIMATES_VERDICT',
  category: 'heating',
  summary: 'Says whether the two independent estimates of the boiler agree.',
  arguments: args,
  result: { unit: 'none', shape: 'cell', description: 'One sentence.' },
  source: 'common practice, no source',
  example: { arguments: [0.04, 0.1, 0.25], result: 'The two boiler estimates agree: 4% apart.' },
  compute: (a) => estimatesVerdict(numberAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  formula: ([apart, agree, disagree]) => {
    const { estimates, apart: unit, advice, ...how } = ESTIMATES_WORDS;
    const sentence = (words: string, then: string): string =>
      `"${estimates}${words}: "&ROUND(${apart}*100,0)&"${unit}${then}"`;
    return (
      `IF(${apart}<=${agree},${sentence(how.agree, advice.agree)},` +
      `IF(${apart}<=${disagree},${sentence(how.differ, advice.differ)},${sentence(how.disagree, advice.disagree)}))`
    );
  },
};
