import { cacheXml } from './cache-xml.js';
import type { CachedValues, TextSource } from './chart-spec.js';
import { CHART_INK } from './palette.js';
import { element, escapeXml, valued } from './xml.js';

interface Lettering {
  /** Hundredths of a point. */
  size: number;
  bold?: boolean;
  /** Reads from bottom to top, for the title of an upright axis. */
  upright?: boolean;
}

/** Sized for a laptop of 1366 × 768 at normal zoom: 9 pt is 12 screen pixels. */
export const LETTERING = {
  title: { size: 1200, bold: true },
  axisTitle: { size: 900 },
  label: { size: 900 },
} as const satisfies Record<string, Lettering>;

function ink(): string {
  return element('a:solidFill', {}, element('a:srgbClr', { val: CHART_INK.text }));
}

function body(lettering: Lettering): string {
  return element('a:bodyPr', lettering.upright ? { rot: -5400000, vert: 'horz' } : {});
}

function runProperties(tag: string, { size, bold }: Lettering): string {
  return element(tag, { sz: size, b: bold ? 1 : 0 }, ink());
}

/** `c:txPr` (CT_TextBody): how a text looks whose words come from elsewhere. */
export function textPropertiesXml(lettering: Lettering): string {
  const paragraph = element(
    'a:p',
    {},
    element('a:pPr', {}, runProperties('a:defRPr', lettering)),
    element('a:endParaRPr', { lang: 'en-GB' }),
  );
  return element('c:txPr', {}, body(lettering), element('a:lstStyle'), paragraph);
}

/** `c:title`: words typed in the chart, or a link to a cell. */
export function titleXml(source: TextSource, lettering: Lettering, cachedValues?: CachedValues): string {
  const after = [element('c:layout'), valued('c:overlay', 0)];
  if (typeof source !== 'string') {
    const linked = element('c:tx', {}, textReferenceXml(source, cachedValues));
    return element('c:title', {}, linked, ...after, textPropertiesXml(lettering));
  }
  const run = element(
    'a:r',
    {},
    element('a:rPr', { lang: 'en-GB', sz: lettering.size, b: lettering.bold ? 1 : 0 }, ink()),
    `<a:t>${escapeXml(source)}</a:t>`,
  );
  const paragraph = element('a:p', {}, element('a:pPr', {}, runProperties('a:defRPr', lettering)), run);
  const rich = element('c:rich', {}, body(lettering), element('a:lstStyle'), paragraph);
  return element('c:title', {}, element('c:tx', {}, rich), ...after);
}

/** `c:strRef` to one cell, with the text it holds now where that is known. */
export function textReferenceXml(source: Exclude<TextSource, string>, cachedValues?: CachedValues): string {
  const known = cachedValues?.(source.ref) ?? (source.text === undefined ? undefined : [source.text]);
  return element(
    'c:strRef',
    {},
    `<c:f>${escapeXml(source.ref)}</c:f>`,
    known === undefined ? undefined : cacheXml('c:strCache', known),
  );
}
