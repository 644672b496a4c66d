const special = /[&<>"]/g;
const notXml =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that XML 1.0 can't hold
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;
const replacements: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/**
 * Makes a text safe as XML content or inside a quoted attribute.
 *
 * Characters that XML can't hold become U+FFFD, the replacement character.
 *
 * @param text any text
 * @returns the text with `&`, `<`, `>` and `"` as entities
 * @example escapeXml('a < b') // 'a &lt; b'
 */
export function escapeXml(text: string): string {
  return text.replace(special, (found) => replacements[found] as string).replace(notXml, '\ufffd');
}

const looksEscaped = /_(?=x[0-9A-Fa-f]{4}_)/g;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what this escapes
const control = /[\u0000-\u0008\u000b-\u001f]/g;

/**
 * Writes a cell's text as XML content: control characters, a carriage return and text that looks like one of
 * these escapes are written `_xHHHH_` (the type ST_Xstring of ECMA-376 part 1, 22.9.2.19).
 *
 * @param text the text that the cell shows
 * @returns XML content
 */
export function encodeCellText(text: string): string {
  return escapeXml(
    text
      .replace(looksEscaped, '_x005F_')
      .replace(control, (found) => `_x${found.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`),
  );
}

const escaped = /_x([0-9A-Fa-f]{4})_/g;

/** Turns the `_xHHHH_` escapes of a stored text back into characters. */
export function decodeCellText(text: string): string {
  if (!text.includes('_x')) return text;
  return text.replace(escaped, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}

const named: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
const markup = /<!\[CDATA\[([\s\S]*?)\]\]>|<!--[\s\S]*?-->|<\?[\s\S]*?\?>|&(#x?[0-9A-Fa-f]+|[A-Za-z]+);/g;

/**
 * Characters of XML content: entities, CDATA sections, comments and line ends resolved.
 *
 * Only the five entities of XML itself and character numbers are known: a document type, and with it any other
 * entity, is refused before it gets here, and an unknown entity stays as it is written.
 *
 * @param raw content as it stands in the file
 * @returns the text
 */
export function decodeXml(raw: string): string {
  const lines = raw.includes('\r') ? raw.replace(/\r\n?/g, '\n') : raw;
  if (!lines.includes('&') && !lines.includes('<')) return lines;
  return lines.replace(markup, (whole, cdata: string | undefined, entity: string | undefined) => {
    if (cdata !== undefined) return cdata;
    if (entity === undefined) return '';
    if (!entity.startsWith('#')) return named[entity] ?? whole;
    const code = /^#x/i.test(entity)
      ? Number.parseInt(entity.slice(2), 16)
      : Number.parseInt(entity.slice(1), 10);
    return code >= 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '\ufffd';
  });
}
