import type { RuleCase } from './cases.js';

/** A battery that could save less than this in a year has no share to speak of, p. */
const WORTH_PENCE = 500;
/** What the rule is asked to reach of the best schedule's saving. */
export const RULE_AIMS = { median: 0.94, nineOfTen: 0.87, worst: 0.75, below: 0.02, dip: 0.02 } as const;

const share = (one: RuleCase): number => one.ruleSavesPence / one.bestSavesPence;
const earlierShare = (one: RuleCase): number => one.earlierSavesPence / one.bestSavesPence;
const isWorth = (one: RuleCase): boolean => one.bestSavesPence >= WORTH_PENCE;

/** What so many of a hundred cases fall short of. */
function quantile(values: readonly number[], q: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(q * (sorted.length - 1))] ?? Number.NaN;
}

/** Median, worst tenth, worst of a list of shares. */
export function spread(shares: readonly number[]): { median: number; tenth: number; worst: number } {
  return { median: quantile(shares, 0.5), tenth: quantile(shares, 0.1), worst: quantile(shares, 0) };
}

/** Cases in which a bigger battery of the same power saves less, by more than the aim's share. */
export function dips(cases: readonly RuleCase[]): RuleCase[] {
  return cases.filter((one) => {
    const smaller = cases.filter(
      (other) =>
        other.home === one.home &&
        other.tariff === one.tariff &&
        other.powerKw === one.powerKw &&
        other.usableKwh < one.usableKwh,
    );
    const most = Math.max(...smaller.map(({ ruleSavesPence }) => ruleSavesPence), Number.NEGATIVE_INFINITY);
    return isWorth(one) && one.ruleSavesPence < most - RULE_AIMS.dip * Math.abs(most);
  });
}

/** Cases more than the aim's share under the rule before. */
export function underEarlier(cases: readonly RuleCase[]): RuleCase[] {
  return cases.filter((one) => isWorth(one) && share(one) < earlierShare(one) - RULE_AIMS.below);
}

/**
 * The table of the rule beside the rule before it, and each aim beside what was measured.
 *
 * @param all cases from `ruleCases`
 * @returns lines of text, each ended
 */
export function formatRuleCases(all: readonly RuleCase[]): string {
  const cases = all.filter(isWorth);
  const percent = (value: number): string => `${(100 * value).toFixed(1)} %`.padStart(8);
  const row = (name: string, some: readonly RuleCase[]): string => {
    const [now, then] = [spread(some.map(share)), spread(some.map(earlierShare))];
    const parts = [now.median, now.tenth, now.worst, then.median, then.tenth, then.worst].map(percent);
    return `${name.padEnd(34)}${String(some.length).padStart(5)}${parts.join('')}${String(underEarlier(some).length).padStart(6)}${String(dips(some).length).padStart(6)}`;
  };
  const kinds = {
    week: 'by the week',
    price: 'by a half-hourly price',
    sells: 'battery may export',
  } as const;
  const tariffs = [...new Set(cases.map(({ tariff }) => tariff))];
  const homes = [...new Set(cases.map(({ home }) => home))];
  const measured = spread(cases.map(share));
  const aim = (text: string, is: string, isMet: boolean): string =>
    `  ${isMet ? 'met   ' : 'MISSED'} ${text}: ${is}`;
  const under = underEarlier(cases).length;
  const dipped = dips(cases).length;
  return [
    'The battery’s rule: share of the best schedule’s saving, over a year',
    `${'cases'.padStart(39)}  median   tenth   worst  before: median, tenth, worst  under  dips`,
    ...tariffs.map((name) =>
      row(
        name,
        cases.filter(({ tariff }) => tariff === name),
      ),
    ),
    '',
    ...homes.map((name) =>
      row(
        name,
        cases.filter(({ home }) => home === name),
      ),
    ),
    '',
    ...Object.entries(kinds).map(([kind, name]) =>
      row(
        name,
        cases.filter((one) => one.kind === kind),
      ),
    ),
    row('all', cases),
    '',
    aim('median at least 94 %', percent(measured.median), measured.median >= RULE_AIMS.median),
    aim('nine of ten at least 87 %', percent(measured.tenth), measured.tenth >= RULE_AIMS.nineOfTen),
    aim('none under 75 %', percent(measured.worst), measured.worst >= RULE_AIMS.worst),
    aim('none more than 2 points under the rule before', String(under), under === 0),
    aim('a bigger battery never saves over 2 % less', String(dipped), dipped === 0),
    `under: more than 2 points under the rule before; dips: a smaller battery saves over 2 % more. ${all.length - cases.length} cases of less than £5 a year left out.`,
    '',
  ].join('\n');
}
