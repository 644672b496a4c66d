import { XMLParser } from 'fast-xml-parser';
import { cacheXml } from './cache-xml.js';
import type { CachedValues } from './chart-spec.js';

const REFERENCE =
  /<((?:\w+:)?)(strRef|numRef)>(\s*)<\1f>([^<]*)<\/\1f>\s*(?:<\1(?:strCache|numCache)(?:\/>|>([\s\S]*?)<\/\1(?:strCache|numCache)>))?/g;

const decoder = new XMLParser();

/**
 * One chart part with its cached values brought up to date, whichever program wrote the chart. Wanted after readings or
 * rates change: programs that do not link a chart's title show the cached text, previewers all of it.
 *
 * @param xml of the chart part
 * @param cachedValues what referenced cells hold now; where it says `undefined` the old cache stays
 * @returns the part with fresh caches, else as it was
 * @see ECMA-376 Part 1, 21.2 (charts)
 * @example refreshedChartXml(xml, (ref) => (ref === 'Answer!$A$1' ? ['What the year cost'] : undefined))
 */
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
