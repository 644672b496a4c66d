import { beforeAll, describe, expect, it } from 'vitest';
import { isoDateToSerial } from '../../src/time/serial.js';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
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

describe('what to do before there is an answer', () => {
  it('is to paste where there is no reading', () => {
    expect(said(empty, 'to_do_words')).toBe(
      'No readings in the period yet: paste half-hours into Readings, or run the fill.',
    );
  });

  it('is to choose other months where those chosen have none', () => {
    expect(said(month, 'to_do_words', chosen)).toBe(
      'The chosen months have no readings: choose others, or clear both.',
    );
    expect(said(empty, 'to_do_words', chosen)).toContain('paste half-hours');
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
    for (const battery of [{ chargeEfficiency: null }, { chargeKw: 'much' }, { usableKwh: 'large' }])
      expect(said(month, 'battery_sentence', typed(battery))).toBe(
        'A figure of the battery can’t be used: see Checks.',
      );
    expect(said(month, 'battery_sentence', typed({ usableKwh: 0, wearPencePerKwh: 'some' }))).toContain(
      'No battery is entered',
    );
  });

  it('can’t be said without readings, for the reason that Answer gives', () => {
    expect(said(month, 'battery_sentence', chosen)).toBe(said(month, 'no_readings_words', chosen));
    expect(said(empty, 'battery_sentence')).toBe(said(empty, 'no_readings_words'));
  });
});
