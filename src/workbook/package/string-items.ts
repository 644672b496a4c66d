import { decodeXml } from './xml-text.js';

/** Where a comment, a CDATA section or an instruction that begins at `at` ends; -1 when something else begins there. */
function markupEnd(xml: string, at: number): number {
  let close: string;
  if (xml.startsWith('<!--', at)) close = '-->';
  else if (xml.startsWith('<![CDATA[', at)) close = ']]>';
  else if (xml.startsWith('<?', at)) close = '?>';
  else return -1;
  const end = xml.indexOf(close, at + 2);
  return end < 0 ? xml.length : end + close.length;
}

/**
 * Texts of string items (`<si>`): the runs of rich text joined, phonetic hints left out. One pass, whatever the XML.
 *
 * @param xml XML with string items; other elements round them do not matter
 * @returns one text an item, in order; escapes of cell text not yet resolved
 */
export function stringItems(xml: string): string[] {
  const items: string[] = [];
  let text = '';
  let textStart = -1;
  let phonetic = false;
  for (let at = xml.indexOf('<'); at >= 0; at = xml.indexOf('<', at)) {
    const skipped = markupEnd(xml, at);
    if (skipped >= 0) {
      at = skipped;
      continue;
    }
    const end = xml.indexOf('>', at);
    if (end < 0) break;
    const closes = xml.charCodeAt(at + 1) === 47;
    const empty = xml.charCodeAt(end - 1) === 47;
    const name = localName(xml, closes ? at + 2 : at + 1, end);
    if (name === 't') {
      if (closes && textStart >= 0) text += decodeXml(xml.slice(textStart, at));
      textStart = closes || empty || phonetic ? -1 : end + 1;
    } else if (name === 'rPh') phonetic = !closes && !empty;
    else if (name === 'si') {
      if (closes || empty) items.push(text);
      text = '';
    }
    at = end;
  }
  return items;
}

/** Name of a tag without its prefix. */
function localName(xml: string, start: number, end: number): string {
  let from = start;
  let at = start;
  for (; at < end; at++) {
    const code = xml.charCodeAt(at);
    if (code <= 32 || code === 47) break;
    if (code === 58) from = at + 1;
  }
  return xml.slice(from, at);
}
