import { escapeXml } from '../package/xml-text.js';

export { escapeXml };

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** One element as text; `undefined` attributes and children are left out. */
export function element(
  name: string,
  attributes: Attributes = {},
  ...children: (string | undefined)[]
): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${escapeXml(String(value)).replace(/\n/g, '&#10;')}"`)
    .join('');
  const content = children.filter((child) => child !== undefined).join('');
  return content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

/** The chart namespace's favourite shape: `<c:name val="…"/>`. */
export function valued(name: string, value: string | number): string {
  return element(name, { val: value });
}

export const XML_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
