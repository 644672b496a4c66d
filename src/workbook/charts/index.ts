export { addCharts } from './add-charts.js';
export type {
  CachedValues,
  CategoryAxis,
  ChartAnchor,
  ChartKind,
  ChartSeries,
  ChartSpec,
  SeriesPlot,
  TextSource,
  ValueAxis,
} from './chart-spec.js';
export { checkPackage } from './check-package.js';
export type { LookName } from './palette.js';
export { type ReadChart, type ReadSeries, readCharts } from './read-charts.js';
export { refreshedChartXml } from './refresh-chart-caches.js';
