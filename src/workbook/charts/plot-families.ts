import { InputError } from '../../errors.js';
import type { ChartKind, ChartSeries, ChartSpec, SeriesPlot } from './chart-spec.js';

/** A series with what it left unsaid filled in. */
export interface PlacedSeries extends ChartSeries {
  /** Place in the spec: its identity in the chart and its turn in the palette. */
  index: number;
  plot: SeriesPlot;
  axis: 'left' | 'right';
}

/** The element of ECMA-376 Part 1, 21.2.2 that draws a plot. */
type PlotElement = 'barChart' | 'lineChart' | 'scatterChart';

/** Series that share one drawing element and one pair of axes. */
export interface PlotGroup {
  plot: SeriesPlot;
  element: PlotElement;
  axis: 'left' | 'right';
  series: PlacedSeries[];
}

const DEFAULT_PLOT: Readonly<Record<ChartKind, SeriesPlot | undefined>> = {
  stackedColumn: 'stackedColumn',
  clusteredColumn: 'clusteredColumn',
  stackedBar: 'stackedBar',
  clusteredBar: 'clusteredBar',
  line: 'line',
  steps: 'steps',
  scatter: 'points',
  combo: undefined,
};

const ELEMENT: Readonly<Record<SeriesPlot, PlotElement>> = {
  stackedColumn: 'barChart',
  clusteredColumn: 'barChart',
  stackedBar: 'barChart',
  clusteredBar: 'barChart',
  steps: 'barChart',
  line: 'lineChart',
  markers: 'lineChart',
  points: 'scatterChart',
  joined: 'scatterChart',
};

/** Plots that are drawn by one element together: a line and bare markers, points and a fitted line. */
const DRAWN_WITH: Partial<Record<SeriesPlot, SeriesPlot>> = { markers: 'line', joined: 'points' };

export function isHorizontal(plot: SeriesPlot): boolean {
  return plot === 'stackedBar' || plot === 'clusteredBar';
}

export function placeSeries(spec: ChartSpec): PlacedSeries[] {
  return spec.series.map((series, index) => {
    const plot = series.plot ?? DEFAULT_PLOT[spec.kind];
    if (plot === undefined) {
      throw new InputError(
        `series ${index + 1} of a combo chart does not say how it is drawn`,
        'Give it a plot.',
      );
    }
    return { ...series, index, plot, axis: series.axis ?? 'left' };
  });
}

/**
 * Series sorted into groups, back to front: programs draw the left side before the right and groups in the order in
 * which they stand in the file, so columns come before lines.
 */
export function plotGroups(series: readonly PlacedSeries[]): PlotGroup[] {
  const groups: PlotGroup[] = [];
  for (const one of series) {
    const plot = DRAWN_WITH[one.plot] ?? one.plot;
    const group = groups.find((candidate) => candidate.plot === plot && candidate.axis === one.axis);
    if (group === undefined) groups.push({ plot, element: ELEMENT[plot], axis: one.axis, series: [one] });
    else group.series.push(one);
  }
  const rank = (group: PlotGroup) => (group.axis === 'left' ? 0 : 2) + (group.element === 'barChart' ? 0 : 1);
  return groups.sort((a, b) => rank(a) - rank(b));
}
