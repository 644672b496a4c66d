import { SHEETS } from '../../src/workbook/layout.js';
import { escapeXml, openWorkbookPackage, translateFormula } from '../../src/workbook/package/index.js';
import { type PartEdits, sheetPart, withParts } from './edit-package.js';

/** The sheet whose hundreds of thousands of formulas stay shared, for the time it would take. */
const LONG_SHEET = SHEETS.halfHours;

/**
 * A workbook as a program might save it that keeps nothing of the writing, only of the meaning: every formula written
 * out instead of shared, texts typed into cells moved to the shared texts, those in another order, styles numbered
 * anew, and every element with a prefix.
 *
 * @param bytes a workbook with parts of the usual names
 */
export function rewrittenWorkbook(bytes: Uint8Array): Uint8Array {
  const workbook = openWorkbookPackage(bytes, 'home.xlsx');
  const texts = [
    ...workbook
      .readPart('xl/sharedStrings.xml')!
      .toString()
      .matchAll(/<si>[\s\S]*?<\/si>/g),
  ].map(([item]) => item);
  const typed: string[] = [];
  const styleCount = workbook
    .readPart('xl/styles.xml')!
    .toString()
    .match(/<cellXfs[^>]*>([\s\S]*?)<\/cellXfs>/)![1]!
    .match(/<xf /g)!.length;
  const long = sheetPart(bytes, LONG_SHEET);
  const edits: PartEdits = {};
  for (const part of workbook.partNames().filter((name) => /^xl\/worksheets\/[^/]+\.xml$/.test(name))) {
    edits[part] = (xml) => {
      let now = part === long ? xml : withoutSharedFormulas(xml);
      now = now.replace(
        /<c ([^>]*)t="s"([^>]*)><v>(\d+)<\/v>/g,
        (_, before: string, after: string, index: string) =>
          `<c ${before}t="s"${after}><v>${texts.length - 1 - Number(index)}</v>`,
      );
      now = now.replace(/<c ([^>]*)t="inlineStr"([^>]*)><is>([\s\S]*?)<\/is>/g, (_, before, after, item) => {
        typed.push(`<si>${item}</si>`);
        return `<c ${before}t="s"${after}><v>${texts.length + typed.length - 1}</v>`;
      });
      now = now.replace(
        /(<c [^>]*s=")(\d+)"/g,
        (_, before: string, style: string) =>
          `${before}${Number(style) === 0 ? 0 : styleCount - Number(style)}"`,
      );
      return prefixed(now);
    };
  }
  const withSheets = withParts(bytes, edits);
  return withParts(withSheets, {
    'xl/styles.xml': (xml) =>
      xml.replace(/(<cellXfs[^>]*>)([\s\S]*?)(<\/cellXfs>)/, (_, open, inner: string, close) => {
        const [first, ...others] = inner.match(/<xf [^>]*\/>|<xf [\s\S]*?<\/xf>/g)!;
        return `${open}${[first, ...others.reverse()].join('')}${close}`;
      }),
    'xl/sharedStrings.xml': (xml) =>
      prefixed(
        `${xml.slice(0, xml.indexOf('<sst'))}<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">${[...texts.toReversed(), ...typed].join('')}</sst>`,
      ),
    'xl/workbook.xml': prefixed,
  });
}

/** Every element of the main namespace with a prefix. */
function prefixed(xml: string): string {
  return xml.replace(/<(\/?)([A-Za-z]+)(?=[\s>/])/g, '<$1x:$2').replace(' xmlns="', ' xmlns:x="');
}

function withoutSharedFormulas(xml: string): string {
  const masters = new Map<string, { formula: string; cell: string }>();
  return xml.replace(
    /(<c r="([A-Z]+\d+)"[^>]*>)<f t="shared"([^>]*?)(?:\/>|>([^<]*)<\/f>)/g,
    (_, tag: string, cell: string, attributes: string, text: string | undefined) => {
      const index = /si="(\d+)"/.exec(attributes)![1]!;
      if (text !== undefined) masters.set(index, { formula: unescaped(text), cell });
      const master = masters.get(index)!;
      return `${tag}<f>${escapeXml(translateFormula(master.formula, master.cell, cell))}</f>`;
    },
  );
}

function unescaped(text: string): string {
  return text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&apos;', "'")
    .replaceAll('&amp;', '&');
}
