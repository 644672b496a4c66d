import { describe, expect, it } from 'vitest';
import { billFigures } from '../../../src/bills/index.js';
import { EVERY_DAY, type Tariff } from '../../../src/tariffs/tariff.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { checkCounts } from '../shown-by-sheet.js';
import { type Rows, randomRows } from '../workings/workings-case.js';
import { type BillCase, billCase, type TypedBill } from './bill-case.js';

/** A home in London in the spring of 2026: the clock changes on 29 March. */
const FIRST_MS = Date.UTC(2026, 2, 20);
const ROWS = randomRows(7, 'Europe/London', FIRST_MS, 30);
const DAY_1 = 46_101;
/** Ten days after the change of the clock: by UTC the night is an hour later. */
const FROM = DAY_1 + 12;
const TO = FROM + 9;
const TARIFF: Tariff = {
  name: 'Two rates',
  clock: 'local',
  includesVat: true,
  halfHourlyPriced: false,
  priceIncludesVat: true,
  exitFeePounds: 0,
  windows: [{ fromMinutes: 0, toMinutes: 420, days: EVERY_DAY }],
  ratePeriods: [
    {
      validFromSerial: 0,
      standingChargePencePerDay: 50,
      baseRatePence: 30,
      windowRatesPence: [10],
      exportRatePence: 15,
    },
  ],
};

function figures(rows: Rows, tariff = TARIFF) {
  const { importKwh = new Float64Array(0), exportKwh = new Float64Array(0) } = rows.channels;
  return billFigures(
    tariff,
    halfHourCalendar(rows.startUtcMs, rows.zone),
    { importKwh, exportKwh },
    FROM,
    TO,
    0.05,
  );
}
const own = figures(ROWS);
const OWN_KWH = own.kwh[0] + own.kwh[1];

/** The right bill, or one with something else in it; its total is that of its lines. */
function bill(kwh: readonly [number, number], change: TypedBill = {}): TypedBill {
  const typed: TypedBill = {
    from: FROM,
    to: TO,
    tariff: TARIFF.name,
    lines: [
      { kwh: kwh[0], rate: 30 },
      { kwh: kwh[1], rate: 10 },
    ],
    standing: 50,
    ...change,
  };
  const energy = (typed.lines ?? []).reduce(
    (sum, line) => sum + (Number(line.kwh ?? 0) * Number(line.rate ?? 0)) / 100,
    0,
  );
  const net = energy + (Number(typed.days ?? 10) * Number(typed.standing)) / 100;
  const credit = (Number(typed.exportKwh ?? 0) * Number(typed.exportRate ?? 0)) / 100;
  return { total: Math.round((net + Number(typed.vat ?? 0) - credit) * 100) / 100, ...typed };
}
const RIGHT = [own.kwh[0], own.kwh[1]] as const;
const wordsOf = (found: BillCase, i = 0): string => String(found.at('What explains most of it', i));
const sentence = (typed: TypedBill, rows = ROWS, tariff = TARIFF, more = {}): string =>
  wordsOf(billCase(rows, [tariff], [typed], more));

describe('the sentence beside a bill', () => {
  it('says that a right one agrees', () => {
    expect(sentence(bill(RIGHT))).toBe('agrees');
    expect(sentence(bill(RIGHT, { exportKwh: own.exportKwh, exportRate: 15 }))).toBe('agrees');
  });

  it('names more days of standing charge', () => {
    expect(sentence(bill(RIGHT, { days: 16 }))).toBe('£3.00 more: 6 days more standing charge');
    expect(sentence(bill(RIGHT, { days: 7 }))).toBe('£1.50 less: 3 days less standing charge');
  });

  it('names a night billed by UTC hours, and the other way round', () => {
    const byUtc = [own.otherClockKwh[0], own.otherClockKwh[1]] as const;
    expect(sentence(bill(byUtc), ROWS, TARIFF, { agreesWithin: 0 })).toMatch(
      /(more|less): night kWh billed by UTC hours; its windows run by the home’s clock$/,
    );
    const utc: Tariff = { ...TARIFF, clock: 'utc' };
    expect(sentence(bill(RIGHT), ROWS, utc, { agreesWithin: 0 })).toMatch(
      /: night kWh billed by the home’s hours; its windows run by UTC$/,
    );
  });

  it('names estimated reads: of the bill, and of the readings', () => {
    const wrong = [own.kwh[0] + 40, own.kwh[1]] as const;
    expect(sentence(bill(wrong, { reads: 'estimated' }))).toBe('£12.00 more: estimated reads');
    const isEstimated = (row: number): boolean => row === 15 * 48;
    expect(sentence(bill(wrong), ROWS, TARIFF, { isEstimated })).toBe('£12.00 more: estimated reads');
    expect(sentence(bill(wrong))).toBe('£12.00 more: 40 kWh more');
  });

  it('names kWh that were billed at another rate: none more, and yet more to pay', () => {
    const moved = sentence(bill([own.kwh[0] + 40, own.kwh[1] - 40]));
    expect(moved).toBe('£8.00 more: 40 kWh billed at another rate');
    expect(sentence(bill([own.kwh[0] - 40, own.kwh[1] + 40]))).toBe(
      '£8.00 less: 40 kWh billed at another rate',
    );
  });

  it('names half-hours that are missing from the readings, and what they can be worth at most', () => {
    const first = 14 * 48;
    const keep = (_: unknown, i: number): boolean => i < first || i >= first + 38;
    const channels = Object.fromEntries(
      Object.entries(ROWS.channels).map(([key, values]) => [key, values.filter(keep)]),
    );
    const rows: Rows = { ...ROWS, startUtcMs: ROWS.startUtcMs.filter(keep), channels };
    const less = OWN_KWH - figures(rows).kwh[0] - figures(rows).kwh[1];
    expect(less).toBeGreaterThan(5);
    const most = `38 half-hours are missing from the readings: at most £${(less * 0.3).toFixed(2)}`;
    expect(sentence(bill(RIGHT), rows)).toMatch(new RegExp(`^£\\d+\\.\\d\\d more: ${most}$`));
    // They are told too where something else explains more.
    expect(sentence(bill(RIGHT, { days: 40 }), rows)).toBe(
      `£${(Number(bill(RIGHT, { days: 40 }).total) - Number(bill(RIGHT).total) + missingPounds(rows)).toFixed(2)} more: 30 days more standing charge; ${most}`,
    );
  });

  it('names kWh that its own registers did not count', () => {
    const lines = [
      { kwh: own.kwh[0] + 50, rate: 30, opening: 1000, closing: 1000 + Math.round(own.kwh[0]) },
      { kwh: own.kwh[1], rate: 10, opening: 500, closing: 500 + Math.round(own.kwh[1]) },
    ];
    expect(sentence(bill(RIGHT, { lines }))).toBe(
      `£15.00 more: ${(OWN_KWH + 50).toFixed(0)} kWh billed, ${Math.round(own.kwh[0]) + Math.round(own.kwh[1])} by its own registers`,
    );
  });

  it('names a rate, a standing charge, export, VAT and a sum of its own', () => {
    const at = (rate: number) => [
      { kwh: own.kwh[0], rate: 30 },
      { kwh: own.kwh[1], rate },
    ];
    expect(sentence(bill(RIGHT, { lines: at(18.5) }))).toMatch(
      /more: rate 2 is 18\.500 on the bill, 10\.000 on the tariff$/,
    );
    expect(sentence(bill(RIGHT, { standing: 65 }))).toBe(
      '£1.50 more: standing charge of 65.000 a day on the bill, 50.000 on the tariff',
    );
    expect(sentence(bill(RIGHT, { exportKwh: 0, exportRate: 15 }))).toBe(
      `£${(own.exportKwh * 0.15).toFixed(2)} more: export of 0 kWh at 15.00, ${own.exportKwh.toFixed(0)} metered at 15.00`,
    );
    const lines = [
      { kwh: own.kwh[0], rate: 30 / 1.05 },
      { kwh: own.kwh[1], rate: 10 / 1.05 },
    ];
    expect(sentence(bill(RIGHT, { lines, standing: 50 / 1.05, vat: 20 }))).toMatch(
      /more: VAT of £20\.00, £\d+\.\d\d of its lines$/,
    );
    const total = Number(bill(RIGHT).total);
    expect(sentence({ ...bill(RIGHT), total: total + 12.5 })).toBe(
      `£12.50 more: its own lines come to £${total.toFixed(2)}`,
    );
  });

  it('asks for a row for each stretch where rates change within it', () => {
    const [rates] = TARIFF.ratePeriods;
    if (rates === undefined) throw new Error('no rates');
    const changed: Tariff = {
      ...TARIFF,
      ratePeriods: [rates, { ...rates, validFromSerial: FROM + 5, baseRatePence: 40 }],
    };
    expect(sentence(bill(RIGHT), ROWS, changed)).toMatch(
      /less: rates change in these days: type a row for each stretch$/,
    );
  });

  it('says why a bill can’t be compared', () => {
    const later = { from: FROM + 100, to: TO + 100 };
    expect(sentence(bill(RIGHT, later))).toBe('no readings of these days');
    expect(sentence({ ...bill(RIGHT), standing: null })).toBe('can’t be used: see Checks');
    expect(sentence({})).toBe('');
  });
});

const missingPounds = (rows: Rows): number => {
  const [with_, without] = [figures(ROWS), figures(rows)];
  const pounds = (f: typeof with_): number =>
    f.energyPence.reduce((sum, pence) => sum + Math.round(pence + 1e-7) / 100, 0);
  return pounds(with_) - pounds(without);
};

describe('the sentence about all bills', () => {
  const later = { from: TO + 1, to: TO + 5 };
  const words = (bills: readonly TypedBill[]): unknown =>
    billCase(ROWS, [TARIFF], bills).calculated.named('bills_words');

  it('counts those that differ, says by how much, and what explains most of the first', () => {
    expect(words([])).toBe('');
    expect(words([bill(RIGHT)])).toBe('The bill agrees with the readings within £1.00.');
    expect(words([bill(RIGHT, { days: 16 })])).toBe(
      '1 of 1 bills differs by £3.00: 6 days more standing charge.',
    );
    expect(words([bill(RIGHT, { days: 16 }), { ...bill([1, 1], later), total: 500 }])).toMatch(
      /^2 of 2 bills differ, in all by £[\d.]+; the first: 6 days more standing charge\.$/,
    );
  });

  it('counts those that could not be compared', () => {
    const unread = { ...bill([1, 1], { from: TO + 400, to: TO + 405 }), total: 5 };
    expect(words([bill(RIGHT), unread])).toBe(
      'The bill agrees with the readings within £1.00. 1 bill can’t be compared: see its row.',
    );
    expect(words([unread])).toBe('1 bill can’t be compared: see its row.');
  });
});

describe('checks of the bills', () => {
  const count = (found: BillCase, name: string): unknown => checkCounts(found)[name];
  const DATES = 'Bills whose dates are missing, no dates, or the wrong way round';
  const OVERLAP = 'Bills that charge days of another bill too';
  const GAPS = 'Days between bills that no bill charges';
  const DIFFER = 'Bills that differ from the readings';

  it('find an overlap, and compare neither bill', () => {
    const found = billCase(ROWS, [TARIFF], [bill(RIGHT), bill([5, 5], { from: TO, to: TO + 3 })]);
    expect(count(found, OVERLAP)).toBe(2);
    expect([wordsOf(found, 0), wordsOf(found, 1)]).toEqual([
      'can’t be used: see Checks',
      'can’t be used: see Checks',
    ]);
  });

  it('find a gap, in whatever order the bills stand', () => {
    const bills = [bill([5, 5], { from: TO + 4, to: TO + 6 }), bill(RIGHT)];
    const found = billCase(ROWS, [TARIFF], bills);
    expect(count(found, GAPS)).toBe(3);
    expect(count(found, OVERLAP)).toBe(0);
    expect(count(found, DIFFER)).toBe(1);
  });

  it('find dates the wrong way round', () => {
    const found = billCase(ROWS, [TARIFF], [bill(RIGHT, { from: TO, to: FROM })]);
    expect(count(found, DATES)).toBe(1);
    expect(count(found, OVERLAP)).toBe(0);
  });
});
