import { beforeAll, expect, it } from 'vitest';
import { ruleInput } from '../../../scripts/lib/bench/battery-rule/cases.js';
import { type BenchHome, benchHomes } from '../../../scripts/lib/bench/battery-rule/homes.js';
import { BENCH_TARIFFS } from '../../../scripts/lib/bench/battery-rule/tariffs.js';

let home: BenchHome;
beforeAll(() => {
  [home] = benchHomes() as [BenchHome];
});

it.each(BENCH_TARIFFS.map(({ tariff, sells }) => [tariff.name, tariff, sells] as const))(
  'the best schedule on %s has no loop through the meter to gain by',
  (_, tariff, sells) => {
    const { unitRatePence, exportRatePence } = ruleInput(home, tariff, sells);
    const own = tariff.ratePeriods[0]!.exportRatePence;
    const toSell = (i: number): number => unitRatePence[i]! / 0.95 ** 2;
    const capped = [...unitRatePence.keys()].filter((i) => exportRatePence[i] !== own);
    expect(capped.every((i) => sells && toSell(i) < own && exportRatePence[i] === unitRatePence[i])).toBe(
      true,
    );
    const loops = [...unitRatePence.keys()].filter((i) => toSell(i) < exportRatePence[i]!);
    expect(sells ? loops.length : 0).toBe(0);
  },
);

it('some of the tariffs would have had one', () => {
  const capped = BENCH_TARIFFS.filter(({ tariff, sells }) =>
    ruleInput(home, tariff, sells).exportRatePence.some(
      (pence) => pence !== tariff.ratePeriods[0]!.exportRatePence,
    ),
  );
  expect(capped.map(({ tariff }) => tariff.name)).toEqual([
    'sells, narrow',
    'sells all day',
    'night, sells what is left',
    'night and peak, sells what is left',
  ]);
});
