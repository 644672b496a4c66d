import { XMLParser } from 'fast-xml-parser';
import { canonicalReference, isAbsoluteReference } from './cell-reference.js';
import type { ChartKind } from './chart-spec.js';
import { RELATION } from './namespaces.js';
import { partText, readParts, relationshipsOf, sheetParts } from './package-parts.js';

/** A series as a chart part holds it. References are written the canonical way: `'Sheet'!$A$1:$A$9`. */
export interface ReadSeries {
  /** The cell of its name, or the text typed in the chart. */
  name: string;
  categories: string;
  values: string;
}

export interface ReadChart {
  sheet: string;
  /** The words: typed, or as last cached from `titleRef`. */
  title: string;
  /** The cell the title is linked to. */
  titleRef?: string;
  altText: string;
  kind: ChartKind | 'other';
  /** Name of the chart part in the package. */
  part: string;
  series: ReadSeries[];
}

/** An XML node in document order: one key is the element's name, `:@` its attributes. */
type Node = Record<string, unknown>;

const parser = new XMLParser({
  preserveOrder: true,
  ignoreAttributes: false,
  attributeNamePrefix: '',
  removeNSPrefix: true,
  parseTagValue: false,
  trimValues: false,
});

/**
 * The charts of a workbook, sheet by sheet in the order of the tabs. Reads what any spreadsheet program saves.
 *
 * @param xlsxBytes a workbook (.xlsx)
 */
export function readCharts(xlsxBytes: Uint8Array): ReadChart[] {
  const parts = readParts(xlsxBytes);
  const found: ReadChart[] = [];
  for (const [sheet, sheetPart] of sheetParts(parts)) {
    for (const drawing of relationshipsOf(parts, sheetPart).filter(({ type }) => type === RELATION.drawing)) {
      const charts = new Map(relationshipsOf(parts, drawing.part).map(({ id, part }) => [id, part]));
      for (const frame of descendants(parser.parse(partText(parts, drawing.part)), 'graphicFrame')) {
        const chartId = attribute(descendants([frame], 'chart')[0], 'id');
        const part = chartId === undefined ? undefined : charts.get(chartId);
        if (part === undefined) continue;
        const altText = attribute(descendants([frame], 'cNvPr')[0], 'descr') ?? '';
        found.push({ sheet, altText, part, ...readChartXml(partText(parts, part)) });
      }
    }
  }
  return found;
}

type ChartContent = Pick<ReadChart, 'title' | 'titleRef' | 'kind' | 'series'>;

function readChartXml(xml: string): ChartContent {
  const chart = descendants(parser.parse(xml), 'chart')[0];
  const title = children(chart).find((node) => nameOf(node) === 'title');
  const titleRef = title === undefined ? undefined : reference(title);
  const words = descendants([title ?? {}], titleRef === undefined ? 't' : 'v');
  const plots = descendants([chart ?? {}], 'plotArea')
    .flatMap(children)
    .filter((node) => nameOf(node).endsWith('Chart'));
  const series = plots
    .flatMap((plot) => children(plot).filter((node) => nameOf(node) === 'ser'))
    .map((node) => ({ order: Number(childValue(node, 'order') ?? 0), ...readSeries(node) }))
    .sort((a, b) => a.order - b.order)
    .map(({ order: _, ...one }) => one);
  const kinds = new Set(plots.map(kindOf));
  const kind = kinds.size === 1 ? [...kinds][0] : 'combo';
  return {
    title: words.map(text).join(''),
    ...(titleRef === undefined ? {} : { titleRef }),
    kind: kind ?? 'other',
    series,
  };
}

function readSeries(node: Node): ReadSeries {
  const under = (...names: string[]) => children(node).find((child) => names.includes(nameOf(child)));
  const name = under('tx');
  const at = (child?: Node) => (child === undefined ? '' : (reference(child) ?? ''));
  return {
    name:
      at(name) ||
      descendants([name ?? {}], 'v')
        .map(text)
        .join(''),
    categories: at(under('cat', 'xVal')),
    values: at(under('val', 'yVal')),
  };
}

function kindOf(plot: Node): ChartKind | 'other' {
  switch (nameOf(plot)) {
    case 'lineChart':
      return 'line';
    case 'scatterChart':
      return 'scatter';
    case 'barChart': {
      const stacked = childValue(plot, 'grouping') === 'stacked';
      if (childValue(plot, 'barDir') === 'bar') return stacked ? 'stackedBar' : 'clusteredBar';
      if (childValue(plot, 'gapWidth') === '0') return 'steps';
      return stacked ? 'stackedColumn' : 'clusteredColumn';
    }
    default:
      return 'other';
  }
}

function nameOf(node: Node): string {
  return Object.keys(node).find((key) => key !== ':@') ?? '';
}

function children(node: Node | undefined): Node[] {
  const content = node?.[nameOf(node)];
  return Array.isArray(content) ? content : [];
}

function attribute(node: Node | undefined, name: string): string | undefined {
  return (node?.[':@'] as Record<string, string> | undefined)?.[name];
}

function childValue(node: Node, name: string): string | undefined {
  return attribute(
    children(node).find((child) => nameOf(child) === name),
    'val',
  );
}

/** Nodes of a name anywhere below, in document order; what lies inside a found node is not searched again. */
function descendants(nodes: Node[], name: string): Node[] {
  return nodes.flatMap((node) => (nameOf(node) === name ? [node] : descendants(children(node), name)));
}

function text(node: Node): string {
  return children(node)
    .map((child) => String(child['#text'] ?? ''))
    .join('');
}

/** A formula as reference, or as written where it is none: some programs write a typed name as `"name"`. */
function reference(node: Node): string | undefined {
  const formula = descendants([node], 'f')[0];
  if (formula === undefined) return undefined;
  const written = text(formula);
  const typed = /^"(.*)"$/.exec(written)?.[1];
  if (typed !== undefined) return typed.replaceAll('""', '"');
  return isAbsoluteReference(written) ? canonicalReference(written) : written;
}
