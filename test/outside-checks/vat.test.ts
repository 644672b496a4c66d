import { expect, it } from 'vitest';
import { addVat } from '../../src/charges/add-vat.js';
import { monthBill } from '../../src/charges/month-bill.js';
import { removeVat } from '../../src/charges/remove-vat.js';

// Domestic fuel and power in the UK carries VAT at the reduced rate of 5 %.
// Source: HMRC VAT Notice 701/19, from memory.
const REDUCED_RATE = 0.05;

it('VAT on domestic electricity is a twentieth of the price before it', () => {
  expect(addVat(20, REDUCED_RATE)).toBeCloseTo(21, 12);
  expect(monthBill(100, 0, 0, REDUCED_RATE).vatPounds).toBe(5);
});

it('the VAT in a price is one part in 21 of it', () => {
  expect(21 - removeVat(21, REDUCED_RATE)).toBeCloseTo(1, 12);
});
