import { element, escapeXml, valued } from './xml.js';

/**
 * `strCache` or `numCache` (CT_StrData, CT_NumData): what the cells of a reference hold now.
 * Empty cells, and text where numbers are wanted, have no point: the chart shows a gap.
 *
 * @param name element name with its prefix
 * @param values of the cells in order
 * @param formatCode number format; `numCache` only
 */
export function cacheXml(
  name: string,
  values: readonly (string | number | null)[],
  formatCode?: string,
): string {
  const prefix = name.includes(':') ? name.slice(0, name.indexOf(':') + 1) : '';
  const numeric = name.endsWith('numCache');
  const points = values.map((value, index) => {
    if (value === null || (numeric && !(typeof value === 'number' && Number.isFinite(value))))
      return undefined;
    return element(`${prefix}pt`, { idx: index }, `<${prefix}v>${escapeXml(String(value))}</${prefix}v>`);
  });
  const format = numeric
    ? `<${prefix}formatCode>${escapeXml(formatCode ?? 'General')}</${prefix}formatCode>`
    : undefined;
  return element(name, {}, format, valued(`${prefix}ptCount`, values.length), ...points);
}
