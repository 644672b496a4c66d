import { roundMoney } from '../charges/round-money.js';
import { InputError } from '../errors.js';
import type { BillFigures, ByRate } from './bill-figures.js';

/** A bill as it was printed. */
export interface PrintedBill {
  /** kWh and unit rates, p/kWh: the base rate, that of the first window, every other; 0 kWh where there is no such line. */
  rates: ByRate<{ kwh: number; ratePence: number }>;
  /** Days of standing charge. */
  days: number;
  standingChargePencePerDay: number;
  /** £, where VAT is a line of its own: rates and standing charge are then without it. Undefined: they hold it. */
  vatPounds?: number;
  /** What is paid for export, where it is on the bill. */
  export?: { kwh: number; ratePence: number };
  /** £ of these days, with VAT, less export. */
  totalPounds: number;
  /** kWh that the registers advanced, where all that belong to the rates are printed. */
  registersKwh?: number;
  /** Whether the bill, or a reading of its days, is marked as estimated. */
  isEstimated: boolean;
}

/** Lines that a difference can lie in. */
export const BILL_PARTS = ['kwh', 'rates', 'days', 'standingCharge', 'export', 'vat', 'sum'] as const;
export type BillPart = (typeof BILL_PARTS)[number];

/** Why the kWh of a bill are others than those of the readings. */
export type KwhCause = 'other clock' | 'registers' | 'estimated' | 'missing half-hours' | 'other';

/** How a bill is held against the readings. */
export interface ReconcileOptions {
  /** VAT as a share, 0.05 for 5 %. */
  vatShare: number;
  /** Where the bill rounds; each line where nothing is said. */
  rounding?: 'each line' | 'total only';
  /** £ that are no difference; 0 where nothing is said. */
  agreesWithinPounds?: number;
}

/** A bill held against the readings. */
export interface ReconciledBill {
  /** What the days come to by the readings, £. */
  ownTotalPounds: number;
  /** £, billed less own. */
  differencePounds: number;
  agrees: boolean;
  /** £ of the difference that lies in each line; they add up to it but for rounding. */
  partsPounds: Readonly<Record<BillPart, number>>;
  /** The part that explains most. */
  main: BillPart;
  kwhMore: number;
  kwhCause: KwhCause;
  /** £ that half-hours missing from the readings can be worth at most. */
  missingAtMostPounds: number;
}

/** Digits of a part of a difference, £. */
const PART_DIGITS = 6;
/** kWh that registers and bill may differ by: registers are printed whole. */
const REGISTER_KWH = 1;

/**
 * Holds a bill against what its days come to by the readings, and says in which line the difference lies.
 *
 * A difference of kWh is weighed at the tariff's rate, one of rates at the billed kWh, so that the parts add up.
 * Source: common practice, no source; the rest is arithmetic.
 *
 * @param bill as printed; £, p/kWh, p/day, kWh
 * @param own what its days come to, of {@link billFigures}
 * @param options VAT, where the bill rounds, what is no difference
 * @returns £ by line, the line that explains most, and why the kWh differ
 * @throws InputError when a figure of the bill is no number
 * @example reconcileBill({ ...bill, days: own.days + 6 }, own, { vatShare: 0.05 }).main // 'days'
 */
export function reconcileBill(
  bill: PrintedBill,
  own: BillFigures,
  options: ReconcileOptions,
): ReconciledBill {
  assertNumbers(bill);
  const { vatShare, rounding = 'each line', agreesWithinPounds = 0 } = options;
  const line = (pounds: number): number => (rounding === 'each line' ? roundMoney(pounds) : pounds);
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  const separate = bill.vatPounds !== undefined;
  const factor = separate ? 1 + vatShare : 1;

  const billedExport = bill.export === undefined ? 0 : (bill.export.kwh * bill.export.ratePence) / 100;
  const exportRate = own.exportKwh > 0 ? own.exportRatePence : (bill.export?.ratePence ?? 0);
  const ownExport = bill.export === undefined ? 0 : (own.exportKwh * exportRate) / 100;
  const ownStanding = own.standingChargePencePerDay / factor;

  const billedNet =
    sum(bill.rates.map(({ kwh, ratePence }) => line((kwh * ratePence) / 100))) +
    line((bill.days * bill.standingChargePencePerDay) / 100);
  const ownNet =
    sum(own.energyPence.map((pence) => line(pence / factor / 100))) + line((own.days * ownStanding) / 100);
  const ownVat = separate ? line(vatShare * ownNet) : 0;
  const ownTotalPounds = roundMoney(ownNet + ownVat - line(ownExport));
  const differencePounds = roundMoney(bill.totalPounds - ownTotalPounds);

  const ofRates = bill.rates.map(({ kwh, ratePence }, k) => {
    const withVat = own.ratePence[k];
    const rate = withVat === undefined ? ratePence : withVat / factor;
    return { kwh: (kwh - (own.kwh[k] ?? 0)) * rate, rate: kwh * (ratePence - rate) };
  });
  const partsPounds: Record<BillPart, number> = {
    kwh: (factor * sum(ofRates.map(({ kwh }) => kwh))) / 100,
    rates: (factor * sum(ofRates.map(({ rate }) => rate))) / 100,
    days: (factor * (bill.days - own.days) * ownStanding) / 100,
    standingCharge: (factor * bill.days * (bill.standingChargePencePerDay - ownStanding)) / 100,
    export: ownExport - billedExport,
    vat: bill.vatPounds === undefined ? 0 : bill.vatPounds - vatShare * billedNet,
    sum: roundMoney(bill.totalPounds - roundMoney(billedNet + (bill.vatPounds ?? 0) - line(billedExport))),
  };
  // What is nothing but the noise of binary figures explains nothing.
  const weight = (part: BillPart): number => towards * Number(partsPounds[part].toFixed(PART_DIGITS));
  const towards = differencePounds > 0 ? 1 : -1;
  const main = BILL_PARTS.reduce((most, part) => (weight(part) > weight(most) ? part : most));

  const billedKwh = sum(bill.rates.map(({ kwh }) => kwh));
  const kwhMore = billedKwh - sum(own.kwh);
  const highestRate = Math.max(0, ...own.ratePence.map((rate) => rate ?? 0));
  const missingAtMostPounds =
    (Math.min(Math.max(0, kwhMore), Math.max(0, own.missingHalfHours) * own.largestHalfHourKwh) *
      highestRate) /
    100;
  const apart = (kwh: ByRate<number>): number =>
    sum(bill.rates.map((billed, k) => Math.abs(billed.kwh - (kwh[k] ?? 0))));
  const apartOwn = apart(own.kwh);
  const causes: readonly [KwhCause, boolean][] = [
    ['other clock', apart(own.otherClockKwh) < apartOwn / 2 && Math.abs(kwhMore) < apartOwn / 2],
    ['registers', bill.registersKwh !== undefined && Math.abs(billedKwh - bill.registersKwh) > REGISTER_KWH],
    ['estimated', bill.isEstimated],
    ['missing half-hours', missingAtMostPounds > 0 && missingAtMostPounds >= partsPounds.kwh / 2],
  ];
  return {
    ownTotalPounds,
    differencePounds,
    agrees: Math.abs(differencePounds) <= agreesWithinPounds + 1e-6,
    partsPounds,
    main,
    kwhMore,
    kwhCause: causes.find(([, holds]) => holds)?.[0] ?? 'other',
    missingAtMostPounds,
  };
}

function assertNumbers(bill: PrintedBill): void {
  const figures = {
    days: bill.days,
    standingChargePencePerDay: bill.standingChargePencePerDay,
    totalPounds: bill.totalPounds,
    vatPounds: bill.vatPounds ?? 0,
    exportKwh: bill.export?.kwh ?? 0,
    exportRatePence: bill.export?.ratePence ?? 0,
    ...Object.fromEntries(
      bill.rates.flatMap(({ kwh, ratePence }, k) => [
        [`kWh at rate ${k + 1}`, kwh],
        [`rate ${k + 1}`, ratePence],
      ]),
    ),
  };
  for (const [name, figure] of Object.entries(figures)) {
    if (!Number.isFinite(figure)) {
      throw new InputError(`${name} of the bill is ${figure}`, 'Type the figure as printed.');
    }
  }
}
