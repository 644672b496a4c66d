import { MAX_RATE_PERIODS, MAX_WINDOWS, type Tariff } from '../../tariffs/tariff.js';
import { formatDays } from '../../tariffs/weekdays.js';
import type { CellValue } from '../model/sheet-model.js';
import type { TariffCells } from './workbook-inputs.js';

/**
 * A tariff as the cells of its column on the tariffs sheet.
 *
 * @param tariff a valid tariff
 * @returns the cells, blank where the tariff has nothing
 * @throws RangeError when the tariff has more windows or rate periods than a column holds
 */
export function tariffCells(tariff: Tariff): TariffCells {
  if (tariff.windows.length > MAX_WINDOWS || tariff.ratePeriods.length > MAX_RATE_PERIODS) {
    throw new RangeError(`"${tariff.name}" has more windows or rate periods than a column holds`);
  }
  const cells = blankTariffCells();
  cells.name = tariff.name;
  cells.clock = tariff.clock === 'utc' ? 'UTC' : 'local';
  cells.includesVat = yesNo(tariff.includesVat);
  cells.halfHourlyPriced = yesNo(tariff.halfHourlyPriced);
  cells.priceIncludesVat = yesNo(tariff.priceIncludesVat);
  cells.exitFee = tariff.exitFeePounds === 0 ? null : tariff.exitFeePounds;
  tariff.windows.forEach((window, k) => {
    const to = window.toMinutes === 0 ? 1440 : window.toMinutes;
    cells.windows[k] = { from: window.fromMinutes / 1440, to: to / 1440, days: formatDays(window.days) };
  });
  tariff.ratePeriods.forEach((period, p) => {
    cells.periods[p] = {
      validFrom: p === 0 ? null : period.validFromSerial,
      standing: period.standingChargePencePerDay,
      base: period.baseRatePence,
      windowRates: Array.from(
        { length: MAX_WINDOWS },
        (_, k): CellValue => period.windowRatesPence[k] ?? null,
      ),
      exportRate: period.exportRatePence,
    };
  });
  return cells;
}

/** A blank column of the tariffs sheet. */
export function blankTariffCells(): TariffCells {
  return {
    name: null,
    clock: 'local',
    includesVat: 'yes',
    halfHourlyPriced: 'no',
    priceIncludesVat: 'yes',
    exitFee: null,
    windows: Array.from({ length: MAX_WINDOWS }, () => ({ from: null, to: null, days: null })),
    periods: Array.from({ length: MAX_RATE_PERIODS }, () => ({
      validFrom: null,
      standing: null,
      base: null,
      windowRates: Array.from({ length: MAX_WINDOWS }, () => null),
      exportRate: null,
    })),
  };
}

function yesNo(flag: boolean): string {
  return flag ? 'yes' : 'no';
}
