import { describe, expect, it } from 'vitest';
import { formatVerification } from '../../src/cli/format-verification.js';
import type { Verification } from '../../src/workbook/verify/verify-workbook.js';

const overwritten = (count: number): Verification =>
  ({
    sheets: [
      {
        sheet: 'Days',
        intact: 10,
        altered: Array.from({ length: count }, (_, i) => ({ sheet: 'Days', cell: `B${8 + i}`, found: '99' })),
        differing: [],
        others: 0,
      },
    ],
    compared: 10,
    agrees: false,
  }) as unknown as Verification;

describe('a verification', () => {
  it('names every formula that was overwritten, up to 20 on a sheet', () => {
    expect(
      formatVerification(overwritten(20))
        .split('\n')
        .filter((line) => line.startsWith('Days!')),
    ).toHaveLength(20);
  });

  it('names the first few of more, and says how many there are', () => {
    expect(formatVerification(overwritten(4321)).trimEnd().split('\n')).toEqual([
      ...[8, 9, 10, 11, 12].map((row) => `Days!B${row}: the formula was overwritten; it holds 99`),
      'Days: so are 4,316 more; where you changed none, the workbook is of another version: fill into a fresh one',
      '10 formula cells compared: 4,321 differ.',
    ]);
  });
});
