import { describe, expect, it } from 'vitest';
import { isoDateToSerial } from '../../src/time/serial.js';
import { storedNumber } from '../../src/workbook/stored-number.js';

describe('a number that is stored beside a formula of a long column', () => {
  it('keeps twelve digits', () => {
    expect(storedNumber(1 / 3)).toBe(0.333333333333);
    expect(storedNumber(-1234.56789012345)).toBe(-1234.56789012);
  });

  it('is what it is where it is whole, or none', () => {
    for (const value of [17_520, 123_456_789_012_345, '', 'kWh', null, true])
      expect(storedNumber(value)).toBe(value);
  });

  it('keeps a time in full: a millisecond less is the minute before', () => {
    const midnight = isoDateToSerial('2026-10-01');
    for (let halfHour = 0; halfHour < 48; halfHour++) {
      const time = midnight + halfHour / 48;
      expect(storedNumber(time)).toBe(time);
    }
  });
});
