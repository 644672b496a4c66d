import { describe, expect, it } from 'vitest';
import { calcLines, yearsLine } from '../../../scripts/lib/bench/calc-lines.js';
import { formatMeasured } from '../../../scripts/lib/bench/format-measured.js';
import type { CalcTimings } from '../../../scripts/lib/calc/measure-calc.js';

const year: CalcTimings = {
  loadMs: 4000,
  recalculateAllMs: 1300,
  changeMs: 210,
  changeSwitchedOffMs: 51,
  peakMegabytes: 800,
};
const saved = { ...year, saveCpuSeconds: 20, savedMegabytes: 9 };
const old: CalcTimings = {
  loadMs: 24_000,
  recalculateAllMs: 5000,
  changeMs: 1500,
  changeSwitchedOffMs: 700,
  peakMegabytes: 2300,
  saveCpuSeconds: 65,
  savedMegabytes: 29,
};
const bare: CalcTimings = { loadMs: 1600, recalculateAllMs: 1 };

describe('what LibreOffice needs for a filled year, in the benchmark', () => {
  const rounds = {
    filled: [{ ...year, loadMs: 9000 }, year, { ...saved, loadMs: 3000 }],
    bare: [bare, bare, { ...bare, loadMs: 900 }],
  };

  it('is held against a workbook without formulas, and against the earlier one by the medians', () => {
    const lines = calcLines({ ...rounds, earlier: [old, { ...old, loadMs: 90_000 }, old] });
    expect(lines.map(({ what, ratio, met }) => [what, ratio?.toFixed(3), met])).toEqual([
      ['Load a year / without formulas', '2.500', true],
      ['Load a year / earlier', '0.167', true],
      ['Recalculate all / earlier', '0.260', false],
      ['Change a rate', undefined, true],
      ['Change a rate, no battery', undefined, false],
      ['LibreOffice memory / earlier', '0.348', true],
      ['Save as .xlsx, processor / earlier', '0.308', true],
      ['Size of that save / earlier', '0.310', true],
    ]);
    expect(lines.map(({ figure, baseline, aim }) => `${figure} | ${baseline} | ${aim}`)).toEqual([
      '4.00 s | 1.60 s | ≤ 4×',
      '4.00 s | 24.0 s | ≤ 0.25×',
      '1.30 s | 5.00 s | ≤ 0.25×',
      '210 ms | 1.50 s | ≤ 250 ms',
      '51 ms | 700 ms | ≤ 50 ms',
      '800 MB | 2300 MB | ≤ 0.35×',
      '20.0 s | 65.0 s | ≤ 0.35×',
      '9.0 MB | 29 MB | ≤ 0.35×',
    ]);
  });

  it('has aims that are not held, neither met nor missed, where no earlier workbook is given', () => {
    const lines = calcLines(rounds);
    const open = lines.filter(({ met }) => met === 'not held').map(({ what }) => what);
    expect(open).toEqual([
      'Load a year / earlier',
      'Recalculate all / earlier',
      'LibreOffice memory / earlier',
      'Save as .xlsx, processor / earlier',
      'Size of that save / earlier',
    ]);
    const text = formatMeasured(lines);
    expect(text).toMatch(/LibreOffice memory \/ earlier +800 MB +≤ 0\.35× +not held/);
    expect(text).toContain('not held: give the filled year of an earlier shape, --against OLD.xlsx');
    expect(formatMeasured(calcLines({ ...rounds, earlier: [old] }))).not.toContain('not held');
  });

  it('says so where the system can’t tell memory or processor time', () => {
    const unknown = { ...year };
    delete unknown.peakMegabytes;
    const lines = calcLines({ filled: [unknown], bare: [bare] });
    expect(lines.filter(({ met }) => met === 'skipped').map(({ what }) => what)).toEqual([
      'LibreOffice memory',
      'Save as .xlsx, processor',
      'Size of that save',
    ]);
  });

  it('holds several years against one', () => {
    expect(yearsLine(3, [{ ...year, loadMs: 12_001 }], [year])).toMatchObject({
      what: 'Load 3 years / one',
      figure: '12.0 s',
      baseline: '4.00 s',
      aim: '≤ 3×',
      met: false,
    });
    expect(yearsLine(3, [{ ...year, loadMs: 12_000 }], [year]).met).toBe(true);
  });

  it('fits 80 columns', () => {
    const lines = [...calcLines({ ...rounds, earlier: [old] }), ...calcLines(rounds)];
    for (const line of formatMeasured(lines).split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  });
});
