import { XMLParser } from 'fast-xml-parser';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { InputError } from '../../errors.js';
import { NS, RELATION } from './namespaces.js';
import { element, XML_HEAD } from './xml.js';

/** Parts of an Open Packaging package by name, without the leading slash, in the order of the file. */
export type Parts = Record<string, Uint8Array>;

interface Relationship {
  id: string;
  /** Its type, a URI. */
  type: string;
  /** As written. */
  target: string;
  external: boolean;
  /** Name of the part it points at; empty where external. */
  part: string;
}

const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '',
  removeNSPrefix: true,
  parseAttributeValue: false,
  parseTagValue: false,
  trimValues: false,
  isArray: (name) => ['Relationship', 'Override', 'Default', 'sheet'].includes(name),
});

/** @throws InputError when the bytes are not a zip archive */
export function readParts(xlsxBytes: Uint8Array): Parts {
  try {
    const parts = unzipSync(xlsxBytes);
    return Object.fromEntries(Object.entries(parts).filter(([name]) => !name.endsWith('/')));
  } catch (cause) {
    throw new InputError(
      `the workbook cannot be opened: ${String(cause)}`,
      'Check that the file is an .xlsx workbook.',
    );
  }
}

/** A zip archive with the same bytes for the same parts: fixed dates, the parts' own order. */
export function writeParts(parts: Parts): Uint8Array {
  // zip dates have no time zone and are written from local time: local midnight is the same bytes everywhere.
  return zipSync(parts, { level: 6, mtime: new Date(1980, 0, 1) });
}

export function partText(parts: Parts, name: string): string {
  const bytes = parts[name];
  if (bytes === undefined) {
    throw new InputError(`the workbook has no part ${name}`, 'Save it again with a spreadsheet program.');
  }
  return strFromU8(bytes);
}

export function setPartText(parts: Parts, name: string, text: string): void {
  parts[name] = strToU8(text);
}

function relationshipsPartOf(part: string): string {
  const slash = part.lastIndexOf('/') + 1;
  return `${part.slice(0, slash)}_rels/${part.slice(slash)}.rels`;
}

/** Relationships of a part ('' is the package itself); none when it has no relationships part. */
export function relationshipsOf(parts: Parts, part: string): Relationship[] {
  const name = relationshipsPartOf(part);
  if (parts[name] === undefined) return [];
  const found: { Id: string; Type: string; Target: string; TargetMode?: string }[] =
    parser.parse(partText(parts, name)).Relationships?.Relationship ?? [];
  return found.map(({ Id, Type, Target, TargetMode }) => {
    const external = TargetMode === 'External';
    return {
      id: Id,
      type: Type,
      target: Target,
      external,
      part: external ? '' : resolveTarget(part, Target),
    };
  });
}

function resolveTarget(source: string, target: string): string {
  const folder = source.slice(0, source.lastIndexOf('/') + 1);
  const path = new URL(target, `part:///${folder}`).pathname;
  return decodeURIComponent(path).replace(/^\//, '');
}

function relativeTarget(source: string, target: string): string {
  const from = source.split('/').slice(0, -1);
  const to = target.split('/');
  let shared = 0;
  while (shared < from.length && from[shared] === to[shared]) shared += 1;
  return [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
}

/**
 * Adds a relationship from one part to another and gives its id.
 *
 * @param part the source; its relationships part is made when missing
 * @param target name of the target part
 */
export function addRelationship(parts: Parts, part: string, type: string, target: string): string {
  const name = relationshipsPartOf(part);
  const used = new Set(relationshipsOf(parts, part).map(({ id }) => id));
  let number = used.size + 1;
  while (used.has(`rId${number}`)) number += 1;
  const id = `rId${number}`;
  const empty = `${XML_HEAD}<Relationships xmlns="${NS.packageRelationships}"></Relationships>`;
  const text = (parts[name] === undefined ? empty : partText(parts, name)).replace(
    /(<(?:\w+:)?Relationships\b[^>]*?)\/>\s*$/,
    '$1></Relationships>',
  );
  const entry = element('Relationship', { Id: id, Type: type, Target: relativeTarget(part, target) });
  setPartText(parts, name, insertBeforeEnd(text, entry));
  return id;
}

export function addContentType(parts: Parts, part: string, contentType: string): void {
  const name = '[Content_Types].xml';
  const entry = element('Override', { PartName: `/${part}`, ContentType: contentType });
  setPartText(parts, name, insertBeforeEnd(partText(parts, name), entry));
}

/** Puts XML in front of the closing tag of the root element. */
export function insertBeforeEnd(xml: string, addition: string): string {
  const end = xml.lastIndexOf('</');
  return xml.slice(0, end) + addition + xml.slice(end);
}

interface ContentTypes {
  defaults: Map<string, string>;
  overrides: Map<string, string>;
}

export function contentTypesOf(parts: Parts): ContentTypes {
  const types = parser.parse(partText(parts, '[Content_Types].xml')).Types ?? {};
  const defaults: { Extension: string; ContentType: string }[] = types.Default ?? [];
  const overrides: { PartName: string; ContentType: string }[] = types.Override ?? [];
  return {
    defaults: new Map(defaults.map((one) => [one.Extension.toLowerCase(), one.ContentType])),
    overrides: new Map(overrides.map((one) => [one.PartName.replace(/^\//, ''), one.ContentType])),
  };
}

/** Worksheet parts by sheet name, in the order of the tabs. */
export function sheetParts(parts: Parts): Map<string, string> {
  const workbook =
    relationshipsOf(parts, '').find(({ type }) => type === RELATION.officeDocument)?.part ?? '';
  const targets = new Map(relationshipsOf(parts, workbook).map(({ id, part }) => [id, part]));
  const sheets: { name: string; id: string }[] =
    parser.parse(partText(parts, workbook)).workbook?.sheets?.sheet ?? [];
  return new Map(sheets.map(({ name, id }) => [name, targets.get(id) ?? '']));
}

/** `folder/name7.ext` with the first number that no part has. */
export function freePartName(parts: Parts, stem: string, extension: string): string {
  let number = 1;
  while (parts[`${stem}${number}.${extension}`] !== undefined) number += 1;
  return `${stem}${number}.${extension}`;
}
