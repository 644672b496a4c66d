import { XMLParser } from 'fast-xml-parser';

/**
 * The published structure of every element the charts use: its children in their order, with how often each must and
 * may stand. Written by hand from ECMA-376 Part 1 (fifth edition), transitional schema; the section is named beside
 * each (those of fgClr, bgClr, rPr and defRPr from memory). `|` separates the members of a choice; a name that ends in
 * ` *` may repeat, in ` +` must stand at least once, in ` ?` may be missing, in ` 2` stands twice; a bare name stands
 * once. Colours and lettering are narrowed to what the charts use.
 */
export const CHART_SCHEMA: Readonly<Record<string, { section: string; children: string }>> = {
  chartSpace: {
    section: '21.2.2.29',
    children:
      'date1904 ?, lang ?, roundedCorners ?, style ?, clrMapOvr ?, pivotSource ?, protection ?, chart, spPr ?, txPr ?, externalData ?, printSettings ?, userShapes ?, extLst ?',
  },
  chart: {
    section: '21.2.2.27',
    children:
      'title ?, autoTitleDeleted ?, pivotFmts ?, view3D ?, floor ?, sideWall ?, backWall ?, plotArea, legend ?, plotVisOnly ?, dispBlanksAs ?, showDLblsOverMax ?, extLst ?',
  },
  title: { section: '21.2.2.210', children: 'tx ?, layout ?, overlay ?, spPr ?, txPr ?, extLst ?' },
  'title/tx': { section: '21.2.2.214', children: 'strRef|rich' },
  'ser/tx': { section: '21.2.2.215', children: 'strRef|v' },
  strRef: { section: '21.2.2.201', children: 'f, strCache ?, extLst ?' },
  numRef: { section: '21.2.2.123', children: 'f, numCache ?, extLst ?' },
  strCache: { section: '21.2.2.199', children: 'ptCount ?, pt *, extLst ?' },
  numCache: { section: '21.2.2.120', children: 'formatCode ?, ptCount ?, pt *, extLst ?' },
  pt: { section: '21.2.2.150', children: 'v' },
  plotArea: {
    section: '21.2.2.145',
    children:
      'layout ?, barChart|lineChart|scatterChart +, valAx|catAx|dateAx|serAx *, dTable ?, spPr ?, extLst ?',
  },
  barChart: {
    section: '21.2.2.16',
    children:
      'barDir, grouping ?, varyColors ?, ser *, dLbls ?, gapWidth ?, overlap ?, serLines *, axId 2, extLst ?',
  },
  lineChart: {
    section: '21.2.2.97',
    children:
      'grouping, varyColors ?, ser *, dLbls ?, dropLines ?, hiLowLines ?, upDownBars ?, marker ?, smooth ?, axId 2, extLst ?',
  },
  scatterChart: {
    section: '21.2.2.161',
    children: 'scatterStyle, varyColors ?, ser *, dLbls ?, axId 2, extLst ?',
  },
  'barChart/ser': {
    section: '21.2.2.170',
    children:
      'idx, order, tx ?, spPr ?, invertIfNegative ?, pictureOptions ?, dPt *, dLbls ?, trendline *, errBars ?, cat ?, val ?, shape ?, extLst ?',
  },
  'lineChart/ser': {
    section: '21.2.2.171',
    children:
      'idx, order, tx ?, spPr ?, marker ?, dPt *, dLbls ?, trendline *, errBars ?, cat ?, val ?, smooth ?, extLst ?',
  },
  'scatterChart/ser': {
    section: '21.2.2.167',
    children:
      'idx, order, tx ?, spPr ?, marker ?, dPt *, dLbls ?, trendline *, errBars *, xVal ?, yVal ?, smooth ?, extLst ?',
  },
  'ser/marker': { section: '21.2.2.106', children: 'symbol ?, size ?, spPr ?, extLst ?' },
  cat: { section: '21.2.2.24', children: 'multiLvlStrRef|numRef|numLit|strRef|strLit' },
  xVal: { section: '21.2.2.234', children: 'multiLvlStrRef|numRef|numLit|strRef|strLit' },
  val: { section: '21.2.2.224', children: 'numRef|numLit' },
  yVal: { section: '21.2.2.237', children: 'numRef|numLit' },
  dLbls: {
    section: '21.2.2.49',
    children:
      'dLbl *, numFmt ?, spPr ?, txPr ?, dLblPos ?, showLegendKey ?, showVal ?, showCatName ?, showSerName ?, showPercent ?, showBubbleSize ?, separator ?, showLeaderLines ?, leaderLines ?, extLst ?',
  },
  catAx: {
    section: '21.2.2.25',
    children:
      'axId, scaling, delete ?, axPos, majorGridlines ?, minorGridlines ?, title ?, numFmt ?, majorTickMark ?, minorTickMark ?, tickLblPos ?, spPr ?, txPr ?, crossAx, crosses|crossesAt ?, auto ?, lblAlgn ?, lblOffset ?, tickLblSkip ?, tickMarkSkip ?, noMultiLvlLbl ?, extLst ?',
  },
  valAx: {
    section: '21.2.2.226',
    children:
      'axId, scaling, delete ?, axPos, majorGridlines ?, minorGridlines ?, title ?, numFmt ?, majorTickMark ?, minorTickMark ?, tickLblPos ?, spPr ?, txPr ?, crossAx, crosses|crossesAt ?, crossBetween ?, majorUnit ?, minorUnit ?, dispUnits ?, extLst ?',
  },
  scaling: { section: '21.2.2.160', children: 'logBase ?, orientation ?, max ?, min ?, extLst ?' },
  majorGridlines: { section: '21.2.2.100', children: 'spPr ?' },
  legend: {
    section: '21.2.2.93',
    children: 'legendPos ?, legendEntry *, layout ?, overlay ?, spPr ?, txPr ?, extLst ?',
  },
  layout: { section: '21.2.2.88', children: 'manualLayout ?, extLst ?' },
  rich: { section: '21.2.2.156', children: 'bodyPr, lstStyle ?, p +' },
  txPr: { section: '21.2.2.216', children: 'bodyPr, lstStyle ?, p +' },
  spPr: {
    section: '21.2.2.197',
    children:
      'xfrm ?, custGeom|prstGeom ?, noFill|solidFill|gradFill|blipFill|pattFill|grpFill ?, ln ?, effectLst|effectDag ?, scene3d ?, sp3d ?, extLst ?',
  },
  ln: {
    section: '20.1.2.2.24',
    children:
      'noFill|solidFill|gradFill|pattFill ?, prstDash|custDash ?, round|bevel|miter ?, headEnd ?, tailEnd ?, extLst ?',
  },
  pattFill: { section: '20.1.8.47', children: 'fgClr ?, bgClr ?' },
  fgClr: { section: '20.1.8.27', children: 'srgbClr' },
  bgClr: { section: '20.1.8.10', children: 'srgbClr' },
  solidFill: { section: '20.1.8.54', children: 'srgbClr ?' },
  p: { section: '21.1.2.2.6', children: 'pPr ?, r|br|fld *, endParaRPr ?' },
  pPr: { section: '21.1.2.2.7', children: 'lnSpc ?, spcBef ?, spcAft ?, tabLst ?, defRPr ?, extLst ?' },
  r: { section: '21.1.2.3.8', children: 'rPr ?, t' },
  rPr: { section: '21.1.2.3.9', children: 'ln ?, solidFill ?, latin ?, ea ?, cs ?, extLst ?' },
  defRPr: { section: '21.1.2.3.2', children: 'ln ?, solidFill ?, latin ?, ea ?, cs ?, extLst ?' },
  wsDr: { section: '20.5.2.35', children: 'twoCellAnchor|oneCellAnchor|absoluteAnchor *' },
  twoCellAnchor: {
    section: '20.5.2.33',
    children: 'from, to, sp|grpSp|graphicFrame|cxnSp|pic|contentPart, clientData',
  },
  from: { section: '20.5.2.15', children: 'col, colOff, row, rowOff' },
  to: { section: '20.5.2.32', children: 'col, colOff, row, rowOff' },
  graphicFrame: { section: '20.5.2.16', children: 'nvGraphicFramePr, xfrm, graphic' },
  nvGraphicFramePr: { section: '20.5.2.20', children: 'cNvPr, cNvGraphicFramePr' },
  'graphicFrame/xfrm': { section: '20.5.2.36', children: 'off ?, ext ?' },
  graphic: { section: '20.1.2.2.16', children: 'graphicData' },
  graphicData: { section: '20.1.2.2.17', children: 'chart' },
};

/** Elements that hold no element: a value, an attribute or text. */
export const LEAVES: ReadonlySet<string> = new Set(
  `date1904 roundedCorners autoTitleDeleted plotVisOnly dispBlanksAs overlay legendPos barDir grouping varyColors gapWidth
  overlap axId scatterStyle idx order invertIfNegative symbol size smooth lineChart/marker delete axPos orientation max min
  numFmt majorTickMark minorTickMark tickLblPos crossAx crosses crossBetween majorUnit auto lblAlgn lblOffset tickLblSkip
  tickMarkSkip noMultiLvlLbl f v ptCount formatCode dLblPos showLegendKey showVal showCatName showSerName showPercent
  showBubbleSize bodyPr lstStyle endParaRPr t srgbClr noFill prstDash round col colOff row rowOff clientData cNvPr
  cNvGraphicFramePr off ext graphicData/chart`.split(/\s+/),
);

type Node = Record<string, unknown>;

const parser = new XMLParser({ preserveOrder: true, ignoreAttributes: false, removeNSPrefix: true });

/** Where a part departs from {@link CHART_SCHEMA}; empty where it does not. */
export function schemaProblems(xml: string): string[] {
  const root = (parser.parse(xml) as Node[]).find((node) => nameOf(node) !== '?xml');
  return root === undefined ? ['no root element'] : problemsIn(root, '', '');
}

function problemsIn(node: Node, parent: string, path: string): string[] {
  const name = nameOf(node);
  const here = `${path}/${name}`;
  const children = ((node[name] ?? []) as Node[]).filter((child) => nameOf(child) !== '#text');
  const below = children.flatMap((child) => problemsIn(child, name, here));
  if (
    LEAVES.has(`${parent}/${name}`) ||
    (LEAVES.has(name) && CHART_SCHEMA[`${parent}/${name}`] === undefined)
  ) {
    return children.length === 0 ? below : [`${here} may hold no element`, ...below];
  }
  const rule = CHART_SCHEMA[`${parent}/${name}`] ?? CHART_SCHEMA[name];
  if (rule === undefined) return [`${here} is not in the table`];
  const written = children.map((child) => `<${nameOf(child)}>`).join('');
  if (patternOf(rule.children).test(written)) return below;
  return [`${here} holds ${written}, against section ${rule.section}: ${rule.children}`, ...below];
}

/** The order and counts of children as a pattern over their tags. */
function patternOf(children: string): RegExp {
  const parts = children.split(', ').map((rule) => {
    const [names = '', count = ''] = rule.split(' ');
    const quantifier = count === '2' ? '{2}' : count;
    return `(?:${names
      .split('|')
      .map((name) => `<${name}>`)
      .join('|')})${quantifier}`;
  });
  return new RegExp(`^${parts.join('')}$`);
}

function nameOf(node: Node): string {
  return Object.keys(node).find((key) => key !== ':@') ?? '';
}
