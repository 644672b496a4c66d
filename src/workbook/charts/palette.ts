/**
 * Looks of series. Hues after the colour-blind-safe set of Okabe & Ito, "Color Universal Design" (2008), blue,
 * vermilion, bluish green, orange, sky blue, yellow and black; each is darkened or lightened here so that the
 * fills are at least 10 apart in CIE 1976 lightness L* and keep their order when printed in grey. Pattern,
 * dash and marker differ too: colour is never the only signal.
 */
export interface SeriesLook {
  /** RRGGBB of an area. */
  fill: string;
  /** RRGGBB of a line, dark enough to be seen on white. */
  line: string;
  pattern: FillPattern;
  dash: LineDash;
  marker: MarkerSymbol;
}

export type LookName = 'ink' | 'blue' | 'vermilion' | 'green' | 'orange' | 'sky' | 'yellow';

/** ST_PresetPatternVal, ECMA-376 Part 1, 20.1.10.51 (those used), and plain. */
export type FillPattern = 'solid' | 'wdUpDiag' | 'wdDnDiag' | 'ltHorz' | 'ltVert' | 'pct20' | 'smGrid';

/** ST_PresetLineDashVal, ECMA-376 Part 1, 20.1.10.49 (those used). */
export type LineDash = 'solid' | 'dash' | 'sysDot' | 'sysDash' | 'dashDot' | 'lgDash' | 'lgDashDot';

/** ST_MarkerStyle, ECMA-376 Part 1, 21.2.3.27 (those used). */
export type MarkerSymbol = 'circle' | 'square' | 'diamond' | 'triangle' | 'x' | 'plus' | 'dash' | 'none';

export const SERIES_LOOKS: Readonly<Record<LookName, SeriesLook>> = {
  ink: { fill: '14212B', line: '14212B', pattern: 'solid', dash: 'solid', marker: 'circle' },
  blue: { fill: '0B4F80', line: '0B4F80', pattern: 'solid', dash: 'lgDash', marker: 'square' },
  vermilion: { fill: 'BC4A1C', line: 'B5401A', pattern: 'wdUpDiag', dash: 'solid', marker: 'triangle' },
  green: { fill: '2E9E7A', line: '1F8A68', pattern: 'wdDnDiag', dash: 'dash', marker: 'diamond' },
  orange: { fill: 'E69F00', line: 'C98300', pattern: 'solid', dash: 'sysDash', marker: 'x' },
  sky: { fill: '96D0F2', line: '4E9FCE', pattern: 'ltHorz', dash: 'dashDot', marker: 'plus' },
  yellow: { fill: 'F6EFA9', line: 'A79B1E', pattern: 'solid', dash: 'sysDot', marker: 'dash' },
};

/** The order in which series take a look when they do not name one. */
export const LOOK_ORDER: readonly LookName[] = [
  'blue',
  'orange',
  'vermilion',
  'sky',
  'ink',
  'green',
  'yellow',
];

/** Colours of everything that is not data. */
export const CHART_INK = { text: '262626', axis: '7F7F7F', grid: 'D9D9D9', paper: 'FFFFFF' } as const;
