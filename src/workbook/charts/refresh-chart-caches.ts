import { XMLParser } from 'fast-xml-parser';
import { cacheXml } from './cache-xml.js';
import type { CachedValues } from './chart-spec.js';
import { CONTENT_TYPE } from './namespaces.js';
import { contentTypesOf, type Parts, partText, setPartText } from './package-parts.js';

const REFERENCE =
  /<((?:\w+:)?)(strRef|numRef)>(\s*)<\1f>([^<]*)<\/\1f>\s*(?:<\1(?:strCache|numCache)(?:\/>|>([\s\S]*?)<\/\1(?:strCache|numCache)>))?/g;

const decoder = new XMLParser();

/**
 * Brings the cached values of every chart of a package up to date, whichever program wrote the charts. Wanted after
 * readings or rates change: programs that do not link a chart's title show the cached text, previewers all of it.
 *
 * @param parts of the package; changed in place
 * @param cachedValues what referenced cells hold now; where it says `undefined` the old cache stays
 */
export function refreshChartCaches(parts: Parts, cachedValues: CachedValues): void {
  for (const part of chartPartsOf(parts)) {
    const xml = partText(parts, part);
    const refreshed = refreshedChartXml(xml, cachedValues);
    if (refreshed !== xml) setPartText(parts, part, refreshed);
  }
}

function chartPartsOf(parts: Parts): string[] {
  const { overrides } = contentTypesOf(parts);
  return Object.keys(parts).filter((name) => overrides.get(name) === CONTENT_TYPE.chart);
}

/** One chart part with its caches brought up to date. */
export function refreshedChartXml(xml: string, cachedValues: CachedValues): string {
  return xml.replace(
    REFERENCE,
    (whole, prefix: string, kind: string, space: string, written: string, cache?: string) => {
      const ref: string = decoder.parse(`<f>${written}</f>`).f;
      const values = cachedValues(ref);
      if (values === undefined) return whole;
      const format = /<(?:\w+:)?formatCode>([^<]*)</.exec(cache ?? '')?.[1];
      const formatCode = format === undefined ? undefined : String(decoder.parse(`<f>${format}</f>`).f);
      const fresh = cacheXml(`${prefix}${kind === 'numRef' ? 'numCache' : 'strCache'}`, values, formatCode);
      return `<${prefix}${kind}>${space}<${prefix}f>${written}</${prefix}f>${fresh}`;
    },
  );
}
