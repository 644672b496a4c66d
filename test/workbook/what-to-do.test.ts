import { beforeAll, describe, expect, it } from 'vitest';
import { isoDateToSerial } from '../../src/time/serial.js';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { WORDS } from '../../src/workbook/model/answer-sheet.js';
import { checkCounts } from './shown-by-sheet.js';
import { inputsOf, smallMonth, smallTemplate, workedOut } from './small-month.js';

let month: ReturnType<typeof inputsOf>;
let empty: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  month = inputsOf(await smallMonth());
  empty = inputsOf(await smallTemplate());
});

const said = (
  of: ReturnType<typeof inputsOf>,
  name: string,
  change?: (inputs: WorkbookInputs) => WorkbookInputs,
): unknown => workedOut(of, change).calculated.named(name);

const chosen = (inputs: WorkbookInputs): WorkbookInputs => ({
  ...inputs,
  fromMonth: isoDateToSerial('2026-03-01'),
  toMonth: isoDateToSerial('2026-04-01'),
});

const period =
  (from: string | null, to: string | null) =>
  (inputs: WorkbookInputs): WorkbookInputs => ({
    ...inputs,
    fromMonth: from === null ? null : isoDateToSerial(from),
    toMonth: to === null ? null : isoDateToSerial(to),
  });

/** September, where the first days were read in August and all others in October. */
const inAGap = (inputs: WorkbookInputs): WorkbookInputs => ({
  ...period('2026-09-01', '2026-09-01')(inputs),
  readings: {
    ...inputs.readings,
    startSerial: inputs.readings.startSerial.map((serial, i) => (i < 48 ? serial - 35 : serial)),
  },
});

describe('what to do before there is an answer', () => {
  it('is to paste where there is no reading', () => {
    expect(said(empty, 'to_do_words')).toBe(
      'No readings in the period yet: paste half-hours into Readings, or run the fill.',
    );
  });

  it('is to choose other months where those chosen have none', () => {
    expect(said(month, 'to_do_words', inAGap)).toBe(
      'The chosen months have no readings: choose others, or clear both.',
    );
    expect(said(empty, 'to_do_words', chosen)).toContain('paste half-hours');
  });

  it('says where the readings end or begin, where the chosen months lie beyond', () => {
    const ends = 'The readings end with Oct 2026, before the from-month: choose others, or clear both.';
    const begins = 'The readings begin with Oct 2026, after the to-month: choose others, or clear both.';
    for (const to of [null, '2027-04-01']) {
      expect(said(month, 'to_do_words', period('2026-11-01', to))).toBe(ends);
    }
    for (const from of [null, '2026-03-01']) {
      expect(said(month, 'to_do_words', period(from, '2026-09-01'))).toBe(begins);
    }
    expect(said(month, 'to_do_words', period('2026-10-01', null))).toBe('');
    expect(said(month, 'to_do_words', period(null, '2026-10-01'))).toBe('');
  });

  it('says that the months are the wrong way round, wherever the readings lie', () => {
    const wrongWay = 'The from-month is after the to-month: choose others, or clear both.';
    for (const [from, to] of [
      ['2026-11-01', '2026-10-01'],
      ['2026-10-01', '2026-09-01'],
      ['2027-02-01', '2027-01-01'],
    ] as const) {
      expect(said(month, 'to_do_words', period(from, to))).toBe(wrongWay);
    }
  });

  it('finds the from-month after the to-month only where both are typed', () => {
    const found = (from: string | null, to: string | null): unknown =>
      checkCounts(workedOut(month, period(from, to)))['From-month after to-month, or not a date'];
    expect(found('2026-11-01', null)).toBe(0);
    expect(found(null, '2026-09-01')).toBe(0);
    expect(found('2026-11-01', '2026-10-01')).toBe(1);
    expect(found('2026-10-01', '2026-10-01')).toBe(0);
  });

  it('asks in one line whether they are, for the words and the check', () => {
    for (const [from, to] of [
      ['2026-11-01', '2026-10-01'],
      ['2026-10-01', '2026-11-01'],
      ['2026-11-01', null],
    ] as const) {
      const values = workedOut(month, period(from, to));
      const isWrong = to !== null && from > to;
      expect(values.calculated.named('months_wrong_way_round')).toBe(isWrong ? 1 : 0);
      expect(checkCounts(values)['From-month after to-month, or not a date']).toBe(isWrong ? 1 : 0);
      expect(String(values.calculated.named('none_chosen_words')).startsWith('The from-month')).toBe(isWrong);
    }
  });

  it('is on Timers what it is on Answer', () => {
    for (const change of [chosen, inAGap, period('2026-11-01', null)]) {
      expect(said(month, 'timer_sentence', change)).toBe(said(month, 'no_readings_words', change));
    }
    expect(said(empty, 'timer_sentence')).toBe(said(empty, 'no_readings_words'));
    expect(said(month, 'timer_sentence')).toContain('the car took its energy');
  });

  it('is not to choose others where no month has any, as with dates that are texts', () => {
    const texts = (inputs: WorkbookInputs): WorkbookInputs => ({
      ...chosen(inputs),
      readings: {
        ...inputs.readings,
        startSerial: inputs.readings.startSerial.map(() => Number.NaN),
        startIsText: inputs.readings.startIsText.map(() => 1),
      },
    });
    expect(said(month, 'to_do_words', texts)).toContain('paste half-hours');
  });

  it('is nothing where there are some', () => {
    expect(said(month, 'to_do_words')).toBe('');
  });
});

describe('what the battery changes', () => {
  const typed =
    (battery: Partial<WorkbookInputs['battery']>) =>
    (inputs: WorkbookInputs): WorkbookInputs => ({
      ...inputs,
      battery: { ...inputs.battery, ...battery },
    });

  it('can’t be said without a capacity', () => {
    expect(said(month, 'battery_sentence', typed({ usableKwh: 0 }))).toBe(
      'No battery is entered: type its capacity.',
    );
  });

  it('can’t be said with a figure that lacks or is none, and is not taken for no battery', () => {
    for (const [battery, which] of [
      [{ chargeEfficiency: null }, '“Charge efficiency” is missing.'],
      [
        { chargeEfficiency: null, dischargeEfficiency: null },
        '“Charge efficiency” is missing (one of 2 figures).',
      ],
      [{ dischargeEfficiency: 20 }, '“Discharge efficiency” can’t be used.'],
      [{ chargeKw: 'much' }, '“Charge power” can’t be used.'],
      [{ dischargeKw: null }, '“Discharge power” is missing.'],
      [{ usableKwh: 'large' }, '“Usable capacity” can’t be used.'],
    ] as const) {
      const values = workedOut(month, typed(battery));
      const sentence = `The battery is left out: ${which}`;
      expect(values.calculated.named('battery_sentence')).toBe(sentence);
      expect(values.calculated.at(SHEETS.answer, WORDS.missing)).toBe(sentence);
    }
    expect(workedOut(month).calculated.at(SHEETS.answer, WORDS.missing)).toBe('');
    expect(said(month, 'battery_sentence', typed({ usableKwh: 0, wearPencePerKwh: 'some' }))).toContain(
      'No battery is entered',
    );
  });

  it('can’t be said without readings, for the reason that Answer gives', () => {
    expect(said(month, 'battery_sentence', chosen)).toBe(said(month, 'no_readings_words', chosen));
    expect(said(empty, 'battery_sentence')).toBe(said(empty, 'no_readings_words'));
  });
});
