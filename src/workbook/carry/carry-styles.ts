import { XMLBuilder, XMLParser } from 'fast-xml-parser';

type XmlNode = Record<string, unknown>;

const OPTIONS = { preserveOrder: true, ignoreAttributes: false, attributeNamePrefix: '@' } as const;
const READING = {
  ...OPTIONS,
  parseTagValue: false,
  parseAttributeValue: false,
  processEntities: false,
} as const;
const parser = new XMLParser(READING);
/** For a part that some program wrote, whose elements may have a prefix. Prefixes taken off, the namespace goes too. */
const plainParser = new XMLParser({ ...READING, removeNSPrefix: true });
const builder = new XMLBuilder({ ...OPTIONS, processEntities: false, suppressEmptyNode: true });

/** Lists of the styles part that a cell format points into: attribute of the format, list, entry. */
const LISTS = [
  ['fontId', 'fonts'],
  ['fillId', 'fills'],
  ['borderId', 'borders'],
] as const;
/** First number format that is a workbook's own. */
const OWN_FORMATS = 164;

/** Formats of cells that are carried from one workbook to another. */
export interface CarriedStyles {
  /** The styles part of the new workbook with the formats added. */
  xml: string;
  /** Index of a format in the new workbook, by that in the old one. */
  styleOf: ReadonlyMap<number, number>;
}

/**
 * Adds formats of cells of an old workbook to the styles of a new one: number format, font, fill, border, alignment.
 *
 * @param oldXml styles part of the old workbook
 * @param newXml styles part of the new one
 * @param used indexes of the formats among the old ones
 * @returns the new part, and where each format stands in it; one that the old part does not have is left out
 */
export function carryStyles(oldXml: string, newXml: string, used: Iterable<number>): CarriedStyles {
  const from = sheetOf(plainParser.parse(oldXml));
  const document = parser.parse(newXml) as XmlNode[];
  const into = sheetOf(document);
  const oldFormats = childrenOf(from, 'cellXfs');
  const newFormats = childrenOf(into, 'cellXfs');
  const formats = new NumberFormats(from, into);
  const styleOf = new Map<number, number>();
  for (const index of new Set(used)) {
    const old = oldFormats[index];
    if (old === undefined) continue;
    const attributes: Record<string, string> = { ...attributesOf(old), '@xfId': '0' };
    attributes['@numFmtId'] = String(formats.carried(Number(attributes['@numFmtId'] ?? 0)));
    attributes['@applyNumberFormat'] = '1';
    for (const [attribute, list] of LISTS) {
      const entry = childrenOf(from, list)[Number(attributes[`@${attribute}`] ?? 0)];
      if (entry === undefined) continue;
      const entries = childrenOf(into, list);
      attributes[`@${attribute}`] = String(placeOf(entries, entry));
      attributes[`@apply${list[0]?.toUpperCase()}${list.slice(1, -1)}`] = '1';
    }
    delete attributes['@pivotButton'];
    styleOf.set(index, placeOf(newFormats, { ...old, ':@': attributes }));
  }
  for (const list of ['numFmts', 'fonts', 'fills', 'borders', 'cellXfs']) recount(into, list);
  return { xml: String(builder.build(document)), styleOf };
}

/** Number formats of the workbook's own, by their code. */
class NumberFormats {
  private readonly old: ReadonlyMap<number, string>;

  constructor(
    from: XmlNode[],
    private readonly into: XmlNode[],
  ) {
    this.old = new Map(
      childrenOf(from, 'numFmts').map((node) => {
        const { '@numFmtId': id, '@formatCode': code = 'General' } = attributesOf(node);
        return [Number(id), code];
      }),
    );
  }

  /** Number of a format in the new workbook. */
  carried(id: number): number {
    const code = this.old.get(id);
    if (code === undefined) return id < OWN_FORMATS ? id : 0;
    let list = childrenOf(this.into, 'numFmts');
    const known = list.find((node) => attributesOf(node)['@formatCode'] === code);
    if (known !== undefined) return Number(attributesOf(known)['@numFmtId']);
    const next =
      Math.max(OWN_FORMATS - 1, ...list.map((node) => Number(attributesOf(node)['@numFmtId']))) + 1;
    if (!this.into.some((node) => 'numFmts' in node)) this.into.unshift({ numFmts: [] });
    list = childrenOf(this.into, 'numFmts');
    list.push({ numFmt: [], ':@': { '@numFmtId': String(next), '@formatCode': code } });
    return next;
  }
}

/** Place of an entry in a list, at its end where it is not there yet. */
function placeOf(list: XmlNode[], entry: XmlNode): number {
  const text = JSON.stringify(entry);
  const known = list.findIndex((other) => JSON.stringify(other) === text);
  return known >= 0 ? known : list.push(entry) - 1;
}

function sheetOf(document: XmlNode[]): XmlNode[] {
  return (document.find((node) => 'styleSheet' in node)?.styleSheet ?? []) as XmlNode[];
}

function childrenOf(sheet: XmlNode[], list: string): XmlNode[] {
  const found = sheet.find((node) => list in node)?.[list];
  return Array.isArray(found) ? (found as XmlNode[]) : [];
}

function attributesOf(node: XmlNode): Record<string, string> {
  return (node[':@'] ?? {}) as Record<string, string>;
}

function recount(sheet: XmlNode[], list: string): void {
  const node = sheet.find((found) => list in found);
  if (node === undefined) return;
  node[':@'] = { ...attributesOf(node), '@count': String(childrenOf(sheet, list).length) };
}
