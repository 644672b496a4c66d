import type { CachedValues, CategoryAxis, ChartSpec, ValueAxis } from './chart-spec.js';
import { CHART_INK } from './palette.js';
import { noStroke, strokeXml } from './series-xml.js';
import { LETTERING, textPropertiesXml, titleXml } from './text-xml.js';
import { element, valued } from './xml.js';

/** Each side has a pair of axes that cross each other. */
export const AXIS_IDS = {
  left: { category: 1001, value: 1002 },
  right: { category: 2001, value: 2002 },
} as const;

interface AxesLayout {
  /** Bars lie on their side: categories run down the left. */
  horizontal: boolean;
  /** Both axes are number axes. */
  scatter: boolean;
  sides: ('left' | 'right')[];
}

/** The axes of a chart: each side's category (or x) axis and value axis, those of the first side first. */
export function axesXml(spec: ChartSpec, layout: AxesLayout, cachedValues?: CachedValues): string {
  return layout.sides
    .map((side) => {
      const valueAxis = side === 'right' ? spec.secondaryAxis : spec.valueAxis;
      if (valueAxis === undefined) return '';
      return (
        categoryAxisXml(spec, layout, side, cachedValues) +
        valueAxisXml(valueAxis, layout, side, cachedValues)
      );
    })
    .join('');
}

function categoryAxisXml(
  spec: ChartSpec,
  layout: AxesLayout,
  side: 'left' | 'right',
  cached?: CachedValues,
): string {
  const axis = spec.categoryAxis;
  // Both sides share their categories, so only one side's category axis is shown.
  const hidden = side === 'right' && layout.sides.length > 1;
  const opening = [
    valued('c:axId', AXIS_IDS[side].category),
    scalingXml({ ...(layout.scatter ? axis : {}), reversed: layout.horizontal }),
    valued('c:delete', hidden ? 1 : 0),
    valued('c:axPos', layout.horizontal ? 'l' : 'b'),
    hidden || axis.title === undefined
      ? undefined
      : titleXml(axis.title, { ...LETTERING.axisTitle, upright: layout.horizontal }, cached),
    formatXml(axis),
    valued('c:majorTickMark', layout.scatter ? 'out' : 'none'),
    valued('c:minorTickMark', 'none'),
    // Low: beside the plot even where bars go below zero.
    valued('c:tickLblPos', 'low'),
    element('c:spPr', {}, strokeXml(CHART_INK.axis, 9525, 'solid')),
    textPropertiesXml(LETTERING.label),
    valued('c:crossAx', AXIS_IDS[side].value),
    valued('c:crosses', 'autoZero'),
  ];
  if (layout.scatter) {
    return element('c:valAx', {}, ...opening, valued('c:crossBetween', 'midCat'), unitXml(axis.majorUnit));
  }
  const skips =
    axis.labelEvery === undefined
      ? []
      : [valued('c:tickLblSkip', axis.labelEvery), valued('c:tickMarkSkip', axis.labelEvery)];
  const closing = [valued('c:auto', 0), valued('c:lblAlgn', 'ctr'), valued('c:lblOffset', 100), ...skips];
  return element('c:catAx', {}, ...opening, ...closing, valued('c:noMultiLvlLbl', 0));
}

function valueAxisXml(
  axis: ValueAxis,
  layout: AxesLayout,
  side: 'left' | 'right',
  cached?: CachedValues,
): string {
  const position = layout.horizontal ? 'b' : side === 'right' ? 'r' : 'l';
  // Categories of lying bars run downwards, so their far end is the bottom.
  const farEnd = side === 'right' || layout.horizontal;
  const grid =
    side === 'left' && axis.hidden !== true
      ? element('c:majorGridlines', {}, element('c:spPr', {}, strokeXml(CHART_INK.grid, 6350, 'solid')))
      : undefined;
  return element(
    'c:valAx',
    {},
    valued('c:axId', AXIS_IDS[side].value),
    scalingXml({ ...axis, reversed: false }),
    valued('c:delete', axis.hidden === true ? 1 : 0),
    valued('c:axPos', position),
    grid,
    axis.hidden === true
      ? undefined
      : titleXml(axis.title, { ...LETTERING.axisTitle, upright: !layout.horizontal }, cached),
    formatXml(axis),
    valued('c:majorTickMark', 'none'),
    valued('c:minorTickMark', 'none'),
    valued('c:tickLblPos', 'nextTo'),
    element('c:spPr', {}, noStroke()),
    textPropertiesXml(LETTERING.label),
    valued('c:crossAx', AXIS_IDS[side].category),
    valued('c:crosses', farEnd ? 'max' : layout.scatter ? 'min' : 'autoZero'),
    valued('c:crossBetween', layout.scatter ? 'midCat' : 'between'),
    unitXml(axis.majorUnit),
  );
}

function scalingXml({ min, max, reversed }: { min?: number; max?: number; reversed: boolean }): string {
  return element(
    'c:scaling',
    {},
    valued('c:orientation', reversed ? 'maxMin' : 'minMax'),
    max === undefined ? undefined : valued('c:max', max),
    min === undefined ? undefined : valued('c:min', min),
  );
}

function formatXml(axis: ValueAxis | CategoryAxis): string {
  return element('c:numFmt', { formatCode: axis.numberFormat ?? 'General', sourceLinked: 0 });
}

function unitXml(majorUnit?: number): string | undefined {
  return majorUnit === undefined ? undefined : valued('c:majorUnit', majorUnit);
}
