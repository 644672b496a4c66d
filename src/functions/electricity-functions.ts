import { breakEvenOffPeakShareFunction } from '../break-even/break-even-off-peak-share.js';
import { breakEvenRateFunction } from '../break-even/break-even-rate.js';
import { addVatFunction } from '../charges/add-vat.js';
import { allInUnitCostFunction } from '../charges/all-in-unit-cost.js';
import { energyCostFunction } from '../charges/energy-cost.js';
import { energyCostOnTariffFunction } from '../charges/energy-cost-on-tariff.js';
import { exportCreditFunction } from '../charges/export-credit.js';
import { monthBillFunction } from '../charges/month-bill.js';
import { removeVatFunction } from '../charges/remove-vat.js';
import { standingChargeFunction, standingChargeOnTariffFunction } from '../charges/standing-charge.js';
import { offPeakKwhFunction } from '../shares/off-peak-kwh.js';
import { offPeakShareFunction } from '../shares/off-peak-share.js';
import { isInWindowFunction } from '../tariffs/is-in-window.js';
import { unitRateAtFunction } from '../tariffs/unit-rate-at.js';
import { unitRatesAtFunction } from '../tariffs/unit-rates-at.js';
import { windowShareFunction } from '../tariffs/window-share.js';
import { halfHoursInDayFunction } from '../time/half-hours-in-day.js';
import type { DescribedFunction } from './described-function.js';

/** Functions about rates, charges, windows and shares, in the order in which people meet them. */
export const ELECTRICITY_FUNCTIONS: readonly DescribedFunction[] = [
  unitRateAtFunction,
  unitRatesAtFunction,
  isInWindowFunction,
  windowShareFunction,
  halfHoursInDayFunction,
  energyCostFunction,
  energyCostOnTariffFunction,
  standingChargeFunction,
  standingChargeOnTariffFunction,
  addVatFunction,
  removeVatFunction,
  exportCreditFunction,
  monthBillFunction,
  allInUnitCostFunction,
  offPeakKwhFunction,
  offPeakShareFunction,
  breakEvenOffPeakShareFunction,
  breakEvenRateFunction,
];
