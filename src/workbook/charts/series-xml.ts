import { cacheXml } from './cache-xml.js';
import type { CachedValues, ChartSpec } from './chart-spec.js';
import { lightness } from './lightness.js';
import { CHART_INK, LOOK_ORDER, SERIES_LOOKS, type SeriesLook } from './palette.js';
import type { PlacedSeries } from './plot-families.js';
import { LETTERING, textPropertiesXml, textReferenceXml } from './text-xml.js';
import { element, escapeXml, valued } from './xml.js';

/** Widths in EMU: 12,700 to the point. */
const LINE_WIDTH = 25400;
const OUTLINE_WIDTH = 6350;

/** `c:ser` (CT_BarSer, CT_LineSer or CT_ScatterSer, after the group it stands in). */
export function seriesXml(series: PlacedSeries, spec: ChartSpec, cachedValues?: CachedValues): string {
  const look = lookOf(series);
  const identity = [
    valued('c:idx', series.index),
    valued('c:order', series.index),
    nameXml(series, cachedValues),
  ];
  const labels = series.labels === undefined ? undefined : labelsXml(series);
  const formats = {
    categories: spec.categoryAxis.numberFormat,
    values: (series.axis === 'right' ? spec.secondaryAxis : spec.valueAxis)?.numberFormat,
  };
  const values = numbersXml(series.values, formats.values, cachedValues);
  switch (series.plot) {
    case 'points':
    case 'joined': {
      const x = numbersXml(series.categories, formats.categories, cachedValues);
      const line = series.plot === 'joined' ? strokeXml(look.line, LINE_WIDTH, look.dash) : noStroke();
      const marker = series.plot === 'joined' && series.marker === undefined ? 'none' : look.marker;
      const drawn = [
        element('c:spPr', {}, line),
        markerXml(look, marker, series.plot === 'points' ? 4 : 6),
        labels,
      ];
      const data = [element('c:xVal', {}, x), element('c:yVal', {}, values), valued('c:smooth', 0)];
      return element('c:ser', {}, ...identity, ...drawn, ...data);
    }
    case 'line':
    case 'markers': {
      const line = series.plot === 'line' ? strokeXml(look.line, LINE_WIDTH, look.dash) : noStroke();
      const drawn = [element('c:spPr', {}, line), markerXml(look, look.marker), labels];
      const data = [
        categoriesXml(series, spec, cachedValues),
        element('c:val', {}, values),
        valued('c:smooth', 0),
      ];
      return element('c:ser', {}, ...identity, ...drawn, ...data);
    }
    default: {
      const outline =
        series.plot === 'steps' ? noStroke() : strokeXml(CHART_INK.axis, OUTLINE_WIDTH, 'solid');
      const drawn = [element('c:spPr', {}, fillXml(look), outline), valued('c:invertIfNegative', 0), labels];
      const data = [categoriesXml(series, spec, cachedValues), element('c:val', {}, values)];
      return element('c:ser', {}, ...identity, ...drawn, ...data);
    }
  }
}

function lookOf(series: PlacedSeries): SeriesLook {
  const name = series.look ?? LOOK_ORDER[series.index % LOOK_ORDER.length] ?? 'ink';
  const look = SERIES_LOOKS[name];
  return {
    ...look,
    pattern: series.pattern ?? (series.plot === 'steps' ? 'solid' : look.pattern),
    dash: series.dash ?? look.dash,
    marker: series.marker ?? (series.plot === 'points' ? 'circle' : look.marker),
  };
}

function nameXml(series: PlacedSeries, cachedValues?: CachedValues): string {
  const text =
    typeof series.name === 'string'
      ? `<c:v>${escapeXml(series.name)}</c:v>`
      : textReferenceXml(series.name, cachedValues);
  return element('c:tx', {}, text);
}

function categoriesXml(series: PlacedSeries, spec: ChartSpec, cachedValues?: CachedValues): string {
  if (spec.categoryAxis.holds === 'number') {
    return element('c:cat', {}, numbersXml(series.categories, spec.categoryAxis.numberFormat, cachedValues));
  }
  return element('c:cat', {}, textReferenceXml({ ref: series.categories }, cachedValues));
}

function numbersXml(ref: string, numberFormat?: string, cachedValues?: CachedValues): string {
  const known = cachedValues?.(ref);
  const cache = known === undefined ? undefined : cacheXml('c:numCache', known, numberFormat);
  return element('c:numRef', {}, `<c:f>${escapeXml(ref)}</c:f>`, cache);
}

function labelsXml(series: PlacedSeries): string {
  const flags = ['showLegendKey', 'showVal', 'showCatName', 'showSerName', 'showPercent', 'showBubbleSize'];
  const isBar =
    series.plot !== 'line' &&
    series.plot !== 'markers' &&
    series.plot !== 'points' &&
    series.plot !== 'joined';
  const stacked = series.plot === 'stackedColumn' || series.plot === 'stackedBar';
  return element(
    'c:dLbls',
    {},
    element('c:numFmt', { formatCode: series.labels?.numberFormat, sourceLinked: 0 }),
    element('c:spPr', {}, element('a:noFill'), noStroke()),
    textPropertiesXml({ ...LETTERING.label, bold: true }),
    valued('c:dLblPos', stacked ? 'ctr' : isBar ? 'outEnd' : 't'),
    ...flags.map((flag) => valued(`c:${flag}`, flag === 'showVal' ? 1 : 0)),
  );
}

function colour(rgb: string): string {
  return element('a:srgbClr', { val: rgb });
}

function solid(rgb: string): string {
  return element('a:solidFill', {}, colour(rgb));
}

/** The pattern is drawn in white on dark fills and in grey on light ones, so that the fill keeps its lightness. */
function fillXml(look: SeriesLook): string {
  if (look.pattern === 'solid') return solid(look.fill);
  const stroke = lightness(look.fill) < 65 ? CHART_INK.paper : CHART_INK.axis;
  return element(
    'a:pattFill',
    { prst: look.pattern },
    element('a:fgClr', {}, colour(stroke)),
    element('a:bgClr', {}, colour(look.fill)),
  );
}

export function strokeXml(rgb: string, width: number, dash: string): string {
  return element(
    'a:ln',
    { w: width, cap: 'flat' },
    solid(rgb),
    element('a:prstDash', { val: dash }),
    element('a:round'),
  );
}

export function noStroke(): string {
  return element('a:ln', {}, element('a:noFill'));
}

function markerXml(look: SeriesLook, symbol: string, size = 6): string {
  if (symbol === 'none') return element('c:marker', {}, valued('c:symbol', 'none'));
  const stroke = strokeXml(look.line, 9525, 'solid');
  return element(
    'c:marker',
    {},
    valued('c:symbol', symbol),
    valued('c:size', size),
    element('c:spPr', {}, solid(look.line), stroke),
  );
}
