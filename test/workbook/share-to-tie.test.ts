import { beforeAll, describe, expect, it } from 'vitest';
import { SHEETS } from '../../src/workbook/layout.js';
import { TARIFF_ROW, tariffLetters } from '../../src/workbook/model/tariff-rows.js';
import { inputsOf, smallMonth, workedOut } from './small-month.js';

const SINGLE_RATE = 'Single rate';

describe('the off-peak share at which a tariff ties with today’s', () => {
  let home: ReturnType<typeof inputsOf>;
  beforeAll(async () => {
    home = inputsOf(await smallMonth());
  });

  /** Shares of the two-rate tariffs, with a single rate of so many times what it is as today’s. */
  const shares = (times: number): unknown[] => {
    const { inputs, calculated } = workedOut(home, (given) => ({
      ...given,
      todaysTariff: SINGLE_RATE,
      tariffs: given.tariffs.map((tariff) =>
        tariff.name !== SINGLE_RATE
          ? tariff
          : {
              ...tariff,
              periods: tariff.periods.map((period) => ({
                ...period,
                base: typeof period.base === 'number' ? period.base * times : period.base,
              })),
            },
      ),
    }));
    return inputs.tariffs.flatMap(({ name, windows }, t) =>
      name === null || windows.every(({ from }) => from === null)
        ? []
        : [calculated.at(SHEETS.tariffs, `${tariffLetters(t)}${TARIFF_ROW.breakEvenShare}`)],
    );
  };

  const isShare = (share: unknown): boolean => typeof share === 'number' && share >= 0 && share <= 1;

  it('is a share where there is one', () => {
    expect(shares(1).filter(isShare).length).toBeGreaterThan(0);
  });

  it.each([5, 0.05])('is told as none where no share ties: today’s rate times %s', (times) => {
    const found = shares(times);
    expect(found).toContain('none');
    expect(found.filter((share) => share !== 'none' && share !== '' && !isShare(share))).toEqual([]);
  });
});
