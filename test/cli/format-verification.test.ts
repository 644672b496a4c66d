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

const wrongValues = (stored: (i: number) => number | undefined): Verification => {
  const { sheets, ...more } = overwritten(0);
  // Every other row: no two of them make a range.
  const differing = Array.from({ length: 739 }, (_, i) => ({
    cell: `B${8 + 2 * i}`,
    stored: stored(i),
    expected: 2,
  }));
  return { ...more, sheets: [{ ...sheets[0]!, intact: 1000, differing }] } as unknown as Verification;
};

describe('a verification', () => {
  it.each<[string, Verification, string, string]>([
    [
      'other values',
      wrongValues((i) => i),
      'Days!B8: holds 0, the library works out 2',
      'Days: 734 more hold another value than the library works out',
    ],
    [
      'ranges without a stored value',
      wrongValues(() => undefined),
      'Days!B8: no stored value; the spreadsheet program works it out when it opens the file',
      'Days: 734 more ranges have no stored value',
    ],
  ])('names the first few %s, and counts the rest', (_, verification, first, rest) => {
    const lines = formatVerification(verification).trimEnd().split('\n');
    expect(lines).toHaveLength(7);
    expect([lines[0], lines[5], lines[6]]).toEqual([first, rest, '10 formula cells compared: 739 differ.']);
  });

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
