import type { Style } from 'exceljs';
import { describe, expect, it } from 'vitest';
import { relativeLuminance } from '../../../src/workbook/charts/lightness.js';
import { blankStart } from '../../../src/workbook/fill/blank-start.js';
import { USUAL_DAYS } from '../../../src/workbook/layout.js';
import { COLOURS, SCALE_ENDS, STYLES } from '../../../src/workbook/look/styles.js';
import { textWidthPixels, wrappedLines } from '../../../src/workbook/look/text-width.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';

/** Contrast of two colours (WCAG 2.2, contrast ratio): 1 to 21. */
function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [one, other]
    .map((argb) => relativeLuminance(argb.slice(2)))
    .sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}
const colourOf = (style: Partial<Style>): string => style.font?.color?.argb ?? COLOURS.ink;
const groundOf = ({ fill }: Partial<Style>): string =>
  fill?.type === 'pattern' ? (fill.fgColor?.argb ?? COLOURS.paper) : COLOURS.paper;

describe('every style', () => {
  it('has a contrast of 4.5 or more between its text and what is behind it', () => {
    const faint = Object.entries(STYLES).filter(
      ([, style]) => contrast(colourOf(style), groundOf(style)) < 4.5,
    );
    expect(faint.map(([name]) => name)).toEqual([]);
  });

  it('can be read on every fill that a condition gives a cell', () => {
    for (const ground of [COLOURS.best, COLOURS.good, COLOURS.input, ...Object.values(SCALE_ENDS)]) {
      expect(contrast(COLOURS.ink, ground)).toBeGreaterThan(4.5);
    }
    expect(contrast(COLOURS.badInk, COLOURS.bad)).toBeGreaterThan(4.5);
    expect(contrast(COLOURS.quietInk, COLOURS.band)).toBeGreaterThan(4.5);
  });

  it('of an input has a frame, which stands out from its fill', () => {
    for (const [name, style] of Object.entries(STYLES).filter(([key]) => key.startsWith('input'))) {
      const { border }: Partial<Style> = style;
      expect(Object.keys(border ?? {}).sort(), name).toEqual(['bottom', 'left', 'right', 'top']);
    }
    expect(contrast(COLOURS.inputEdge, COLOURS.input)).toBeGreaterThan(3);
  });
});

describe('the width of a text', () => {
  it('is that of its characters, and breaks between words', () => {
    expect(textWidthPixels('00', { size: 10, bold: false })).toBeCloseTo(14.83, 2);
    expect(wrappedLines('one two three', 40, { size: 10, bold: false })).toBe(3);
    expect(wrappedLines('one two three', 400, { size: 10, bold: false })).toBe(1);
    expect(wrappedLines('incomprehensibilities', 40, { size: 10, bold: false })).toBeGreaterThan(2);
  });
});

describe('every row with words that wrap', () => {
  it('is as high as they need, by a count of their characters', () => {
    // Independent of the metrics: a line of 10 points holds about a character each 5.6 pixels.
    const short: string[] = [];
    for (const sheet of workbookModel(blankStart(), declareBook(USUAL_DAYS))) {
      for (const cell of sheet.cells) {
        const style: Partial<Style> = STYLES[cell.style];
        if (cell.kind !== 'label' || typeof cell.value !== 'string' || cell.mergeTo !== undefined) continue;
        if (style.alignment?.wrapText !== true) continue;
        const [, letters = '', row = ''] = /^([A-Z]+)(\d+)$/.exec(cell.at) ?? [];
        const size = style.font?.size ?? 10;
        const pixels = (sheet.widths[letters] ?? 9) * 7;
        const lines = Math.ceil((cell.value.length * 5.2 * size) / 10 / pixels);
        const points = sheet.heights?.[Number(row)] ?? 15;
        if (points < (lines - 0.6) * size * 1.15) short.push(`${sheet.name}!${cell.at}: ${cell.value}`);
      }
    }
    expect(short).toEqual([]);
  });
});
