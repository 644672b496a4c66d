import type { FillPattern, LineDash, LookName, MarkerSymbol } from './palette.js';

/** Text typed in the chart, or read from a cell so that it changes with the cell. */
export type TextSource =
  | string
  | {
      /** One cell, absolute: `Answer!$B$3`. */
      ref: string;
      /** What the cell says now. Kept as the cached text; programs that do not link titles show it. */
      text?: string;
    };

/** Where a chart stands on its sheet: it covers both named cells and all between them. */
export interface ChartAnchor {
  /** Top left cell, `B4`. */
  fromCell: string;
  /** Bottom right cell, `K22`. */
  toCell: string;
}

export type ChartKind =
  | 'stackedColumn'
  | 'clusteredColumn'
  | 'stackedBar'
  | 'clusteredBar'
  | 'line'
  | 'steps'
  | 'scatter'
  | 'combo';

/**
 * How one series is drawn. `steps` are touching columns: the shape of a rate that holds for a half-hour.
 * `points` and `joined` belong to a scatter chart, `markers` is a line chart's points without the line.
 */
export type SeriesPlot =
  | 'stackedColumn'
  | 'clusteredColumn'
  | 'stackedBar'
  | 'clusteredBar'
  | 'line'
  | 'markers'
  | 'steps'
  | 'points'
  | 'joined';

export interface ValueAxis {
  /** With the unit: `Cost (£ a year)`. */
  title: TextSource;
  /** Neither axis nor grid is drawn: where every mark is labelled, and the chart's title says the unit. */
  hidden?: boolean;
  /** Spreadsheet number format of the tick labels: `0.0`. */
  numberFormat: string;
  min?: number;
  max?: number;
  /** Distance between labelled ticks, in the axis' own unit. */
  majorUnit?: number;
}

export interface CategoryAxis {
  /** None where the labels say what they are. */
  title?: TextSource;
  /** Number format of the tick labels where categories are numbers, dates or times. */
  numberFormat?: string;
  /** What the category cells hold. Default: `text`, or `number` in a scatter chart. */
  holds?: 'text' | 'number';
  /** Label every nth category (48 half-hours labelled every 6). Not for scatter charts. */
  labelEvery?: number;
  /** Scatter charts only. */
  min?: number;
  max?: number;
  majorUnit?: number;
}

export interface ChartSeries {
  name: TextSource;
  /** Absolute range of the categories (or x values): `'Half-hours'!$A$8:$A$55`. */
  categories: string;
  /** Absolute range of the values (or y values), as long as the categories. */
  values: string;
  /** Default: what the chart's kind says. A combo must say it for each series. */
  plot?: SeriesPlot;
  /** Which value axis. Default `left`. */
  axis?: 'left' | 'right';
  /** Colour, marker, dash and pattern together. Default: the palette in order. */
  look?: LookName;
  marker?: MarkerSymbol;
  dash?: LineDash;
  pattern?: FillPattern;
  /** Print each value beside its mark. */
  labels?: { numberFormat: string };
}

/** A chart to add to a workbook. Every reference is absolute and names its sheet. */
export interface ChartSpec {
  /** Name of the sheet it stands on. */
  sheet: string;
  anchor: ChartAnchor;
  kind: ChartKind;
  /** What the chart shows. */
  title: TextSource;
  /** What a person who cannot see the chart needs to know of it. */
  altText: string;
  categoryAxis: CategoryAxis;
  valueAxis: ValueAxis;
  /** The axis on the right, for series that say `axis: 'right'`. */
  secondaryAxis?: ValueAxis;
  /** Default `bottom`. */
  legend?: 'bottom' | 'top' | 'right';
  series: ChartSeries[];
}

/**
 * What the cells of a reference hold now, row by row; `undefined` where it is not known. The reference comes as it is
 * written in the chart, and programs quote sheet names differently: `parseReference` takes it apart.
 * `null` is an empty cell or an error: the chart has a gap there.
 */
export type CachedValues = (ref: string) => readonly (string | number | null)[] | undefined;
