import { describe, expect, it } from 'vitest';
import { clockTable } from '../../../src/workbook/model/clock-table.js';
import { inputsOf, smallTemplate, workedOut } from '../small-month.js';

describe('the coldest month, told by the clock', () => {
  it.each<[string, number | '']>([
    ['Europe/London', 1],
    ['America/Santiago', 7],
    // Half an hour, and its summer time as long as the rest of the year.
    ['Australia/Lord_Howe', 7],
    // Its clock goes back for a month that moves through the year, in February and March at first.
    ['Africa/Casablanca', 1],
    // Summer time given up: the one change of the table ends it, in February.
    ['America/Sao_Paulo', 7],
    ['Asia/Tokyo', ''],
  ])('is in %s %s', async (zone, coldest) => {
    const { calculated } = workedOut(inputsOf(await smallTemplate()), (inputs) => ({
      ...inputs,
      clock: clockTable(zone),
    }));
    expect(calculated.named('year_coldest_month')).toBe(coldest);
  });
});
