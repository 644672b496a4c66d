import type { TariffCells } from '../../src/workbook/inputs/workbook-inputs.js';

/** All unit rates of a tariff by so much more, pence as they are typed. */
export const dearerBy = (tariff: TariffCells, pence: number): TariffCells => {
  const more = (rate: unknown) => (typeof rate === 'number' ? rate + pence : rate);
  return {
    ...tariff,
    periods: tariff.periods.map((period) => ({
      ...period,
      base: more(period.base),
      windowRates: period.windowRates.map(more),
    })),
  } as TariffCells;
};
