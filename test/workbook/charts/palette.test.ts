import { describe, expect, it } from 'vitest';
import { lightness, relativeLuminance } from '../../../src/workbook/charts/lightness.js';
import { LOOK_ORDER, SERIES_LOOKS } from '../../../src/workbook/charts/palette.js';

const looks = Object.values(SERIES_LOOKS);

describe('lightness', () => {
  it('is 0 for black, 100 for white and 53.6 for the middle grey 808080 (CIE 15)', () => {
    expect(lightness('000000')).toBe(0);
    expect(lightness('FFFFFF')).toBeCloseTo(100, 6);
    expect(lightness('808080')).toBeCloseTo(53.585, 3);
  });
});

describe('the looks of series', () => {
  it('have fills at least 10 apart in lightness, so that grey prints tell them apart', () => {
    const ranked = looks.map(({ fill }) => lightness(fill)).sort((a, b) => a - b);
    for (const [index, value] of ranked.slice(1).entries())
      expect(value - ranked[index]!).toBeGreaterThanOrEqual(10);
  });

  it('have lines with a contrast of 2.5 to 1 or more on white', () => {
    for (const { line } of looks) expect(1.05 / (relativeLuminance(line) + 0.05)).toBeGreaterThan(2.5);
  });

  it('never share a marker, so that colour is not the only signal', () => {
    expect(new Set(looks.map(({ marker }) => marker)).size).toBe(looks.length);
  });

  it('never give neighbours in the order the same pattern and similar lightness', () => {
    for (const [index, name] of LOOK_ORDER.slice(1).entries()) {
      const [a, b] = [SERIES_LOOKS[LOOK_ORDER[index]!], SERIES_LOOKS[name]];
      expect(Math.abs(lightness(a.fill) - lightness(b.fill)) > 20 || a.pattern !== b.pattern).toBe(true);
    }
  });

  it('are each used once in the order', () => {
    expect([...LOOK_ORDER].sort()).toEqual(Object.keys(SERIES_LOOKS).sort());
  });
});
