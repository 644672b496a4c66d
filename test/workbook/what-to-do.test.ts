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

describe('what to do before there is an answer', () => {
  it('is to paste where there is no reading', () => {
    expect(said(empty, 'to_do_words')).toBe(
      'No readings in the period yet: paste half-hours into Readings, or run the fill.',
    );
  });

  it('is to choose other months where those chosen have none', () => {
    const chosen = (inputs: WorkbookInputs): WorkbookInputs => ({
      ...inputs,
      fromMonth: isoDateToSerial('2026-03-01'),
      toMonth: isoDateToSerial('2026-04-01'),
    });
    expect(said(month, 'to_do_words', chosen)).toBe(
      'The chosen months have no readings: choose others, or clear both for all that there is.',
    );
    expect(said(empty, 'to_do_words', chosen)).toContain('paste half-hours');
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
      'No battery is entered: type its capacity to see what it changes.',
    );
  });

  it('can’t be said with a figure that lacks or is none, and is not taken for no battery', () => {
    for (const battery of [{ chargeEfficiency: null }, { chargeKw: 'much' }])
      expect(said(month, 'battery_sentence', typed(battery))).toBe(
        'A figure of the battery can’t be used: see its flag.',
      );
  });
});
