import { InputError } from '../../errors.js';
import { AXIS_IDS, axesXml } from './axes-xml.js';
import { cellCount } from './cell-reference.js';
import type { CachedValues, ChartSpec } from './chart-spec.js';
import { NS } from './namespaces.js';
import { CHART_INK } from './palette.js';
import { isHorizontal, type PlacedSeries, type PlotGroup, placeSeries, plotGroups } from './plot-families.js';
import { noStroke, seriesXml, strokeXml } from './series-xml.js';
import { LETTERING, textPropertiesXml, titleXml } from './text-xml.js';
import { element, valued, XML_HEAD } from './xml.js';

const LEGEND_POSITION = { bottom: 'b', top: 't', right: 'r' } as const;

/** Room between categories as a percentage of one bar (ST_GapAmount): one bar in three is room. */
const GAP_WIDTH = 50;

/**
 * One chart part (`xl/charts/chartN.xml`) in the transitional chart language of ECMA-376 Part 1, 21.2.
 *
 * @throws InputError when the spec contradicts itself
 */
export function chartXml(spec: ChartSpec, cachedValues?: CachedValues): string {
  const series = placeSeries(spec);
  checkSpec(spec, series);
  const groups = plotGroups(series);
  const layout = {
    horizontal: series.some((one) => isHorizontal(one.plot)),
    scatter: groups.some((group) => group.element === 'scatterChart'),
    sides: [...new Set(groups.map((group) => group.axis))],
  };
  const plotArea = element(
    'c:plotArea',
    {},
    element('c:layout'),
    ...groups.map((group) => groupXml(group, spec, cachedValues)),
    axesXml(spec, layout, cachedValues),
    element('c:spPr', {}, element('a:noFill'), noStroke()),
  );
  const legend = element(
    'c:legend',
    {},
    valued('c:legendPos', LEGEND_POSITION[spec.legend ?? 'bottom']),
    element('c:layout'),
    valued('c:overlay', 0),
    element('c:spPr', {}, element('a:noFill'), noStroke()),
    textPropertiesXml(LETTERING.label),
  );
  const chart = element(
    'c:chart',
    {},
    titleXml(spec.title, LETTERING.title, cachedValues),
    valued('c:autoTitleDeleted', 0),
    plotArea,
    legend,
    // Workings may sit on hidden sheets, rows or columns: they are drawn all the same.
    valued('c:plotVisOnly', 0),
    valued('c:dispBlanksAs', 'gap'),
  );
  const paper = element('a:solidFill', {}, element('a:srgbClr', { val: CHART_INK.paper }));
  const space = element(
    'c:chartSpace',
    { 'xmlns:c': NS.chart, 'xmlns:a': NS.main, 'xmlns:r': NS.relationships },
    valued('c:date1904', 0),
    valued('c:roundedCorners', 0),
    chart,
    element('c:spPr', {}, paper, strokeXml(CHART_INK.grid, 9525, 'solid')),
    textPropertiesXml(LETTERING.label),
  );
  return XML_HEAD + space;
}

function groupXml(group: PlotGroup, spec: ChartSpec, cachedValues?: CachedValues): string {
  const series = group.series.map((one) => seriesXml(one, spec, cachedValues));
  const { category, value } = AXIS_IDS[group.axis];
  const axes = [valued('c:axId', category), valued('c:axId', value)];
  const oneColourASeries = valued('c:varyColors', 0);
  switch (group.element) {
    case 'scatterChart':
      return element(
        'c:scatterChart',
        {},
        valued('c:scatterStyle', 'lineMarker'),
        oneColourASeries,
        ...series,
        ...axes,
      );
    case 'lineChart':
      return element(
        'c:lineChart',
        {},
        valued('c:grouping', 'standard'),
        oneColourASeries,
        ...series,
        valued('c:marker', 1),
        ...axes,
      );
    case 'barChart': {
      const stacked = group.plot === 'stackedColumn' || group.plot === 'stackedBar';
      return element(
        'c:barChart',
        {},
        valued('c:barDir', isHorizontal(group.plot) ? 'bar' : 'col'),
        valued('c:grouping', stacked ? 'stacked' : 'clustered'),
        oneColourASeries,
        ...series,
        valued('c:gapWidth', group.plot === 'steps' ? 0 : GAP_WIDTH),
        stacked ? valued('c:overlap', 100) : undefined,
        ...axes,
      );
    }
  }
}

function checkSpec(spec: ChartSpec, series: readonly PlacedSeries[]): void {
  const fail = (found: string, whatToDo: string) => {
    const title = typeof spec.title === 'string' ? spec.title : spec.title.ref;
    throw new InputError(`chart "${title}" on sheet ${spec.sheet}: ${found}`, whatToDo);
  };
  if (series.length === 0) fail('it has no series', 'Give it at least one.');
  if (spec.altText.trim() === '') fail('it has no alternative text', 'Say in a sentence what it shows.');
  for (const one of series) {
    if (cellCount(one.categories) !== cellCount(one.values)) {
      fail(`${one.values} and its categories ${one.categories} differ in length`, 'Make them equally long.');
    }
  }
  const families = new Set(
    series.map((one) =>
      isHorizontal(one.plot)
        ? 'lying bars'
        : one.plot === 'points' || one.plot === 'joined'
          ? 'a scatter'
          : 'columns and lines',
    ),
  );
  if (families.size > 1) fail(`it mixes ${[...families].join(' with ')}`, 'Draw them in separate charts.');
  if (series.some((one) => one.axis === 'right') !== (spec.secondaryAxis !== undefined)) {
    fail('a series on the right axis and a secondaryAxis need each other', 'Give both or neither.');
  }
  if (series.every((one) => one.axis === 'right')) fail('no series is on the left axis', 'Put one there.');
  const isColumn = (one: PlacedSeries) => !['line', 'markers', 'points', 'joined'].includes(one.plot);
  if (
    series.some((one) => isColumn(one) && one.axis === 'right') &&
    series.some((one) => !isColumn(one) && one.axis === 'left')
  ) {
    fail(
      'columns on the right axis would hide the lines on the left',
      'Put the columns left and the lines right.',
    );
  }
  if (families.has('lying bars') && spec.secondaryAxis !== undefined) {
    fail('lying bars have one value axis', 'Leave secondaryAxis out.');
  }
}
