import { readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { cellName, parseCellRef } from '../../src/workbook/package/cell-reference.js';

/** A cell exactly as the file's XML has it. */
export interface StoredCell {
  ref: string;
  row: number;
  column: number;
  kind: 'blank' | 'number' | 'text' | 'boolean' | 'error';
  /** null: the file holds no value, which for a formula means that nobody has calculated it. */
  value: number | string | boolean | null;
  /** Present on a formula cell; a follower of a shared formula has no text of its own. */
  formula?: { text: string; type?: string; sharedIndex?: string; area?: string };
}

export interface StoredSheet {
  name: string;
  /** Visits the cells in file order; a year has a million, so none is kept. */
  cells: () => Generator<StoredCell>;
}

export interface StoredWorkbook {
  sheets: StoredSheet[];
  names: { name: string; formula: string; localSheet?: number }[];
}

/**
 * Reads an .xlsx with nothing but a zip library and patterns, so that what is compared is what the file says and not
 * what the library under test believes.
 */
export function readStoredWorkbook(file: string | Uint8Array): StoredWorkbook {
  const parts = unzipSync(typeof file === 'string' ? readFileSync(file) : file, {
    filter: ({ name }) => /\.(xml|rels)$/.test(name),
  });
  const text = (name: string) => (parts[name] === undefined ? '' : strFromU8(parts[name]));
  const rootTarget = relationships(text('_rels/.rels')).find(({ type }) =>
    type.endsWith('/officeDocument'),
  )!.target;
  const workbookPath = rootTarget.replace(/^\//, '');
  const folder = posix.dirname(workbookPath);
  const related = relationships(text(`${folder}/_rels/${posix.basename(workbookPath)}.rels`)).map(
    (relation) => ({
      ...relation,
      path: relation.target.startsWith('/') ? relation.target.slice(1) : posix.join(folder, relation.target),
    }),
  );
  const workbook = text(workbookPath);
  const stringsPath = related.find(({ type }) => type.endsWith('/sharedStrings'))?.path;
  const strings = stringsPath === undefined ? [] : sharedStrings(text(stringsPath));
  const sheets: StoredSheet[] = [];
  for (const [, attributes] of workbook.matchAll(/<(?:\w+:)?sheet\s([^>]*)>/g)) {
    const id = attribute(attributes!, '\\w+:id');
    const path = related.find((relation) => relation.id === id)!.path;
    sheets.push({
      name: decode(attribute(attributes!, 'name')!),
      cells: () => cellsOf(text(path), strings),
    });
  }
  const names = [...workbook.matchAll(/<(?:\w+:)?definedName\s([^>]*)>([^<]*)</g)].map(
    ([, attributes, formula]) => {
      const local = attribute(attributes!, 'localSheetId');
      return {
        name: decode(attribute(attributes!, 'name')!),
        formula: decode(formula!),
        ...(local === undefined ? {} : { localSheet: Number(local) }),
      };
    },
  );
  return { sheets, names };
}

function relationships(xml: string): { id: string; type: string; target: string }[] {
  return [...xml.matchAll(/<(?:\w+:)?Relationship\s([^>]*)>/g)].map(([, attributes]) => ({
    id: attribute(attributes!, 'Id')!,
    type: attribute(attributes!, 'Type')!,
    target: decode(attribute(attributes!, 'Target')!),
  }));
}

function sharedStrings(xml: string): string[] {
  return [...xml.matchAll(/<(?:\w+:)?si\s*(?:\/>|>([\s\S]*?)<\/(?:\w+:)?si>)/g)].map(([, inner]) =>
    runs(inner ?? ''),
  );
}

/** The text of rich or plain text; phonetic runs are no part of it. */
function runs(xml: string): string {
  const spoken = xml.replace(/<(?:\w+:)?rPh\b[\s\S]*?<\/(?:\w+:)?rPh>/g, '');
  return [...spoken.matchAll(/<(?:\w+:)?t(?:\s[^>]*)?>([^<]*)</g)].map(([, part]) => decode(part!)).join('');
}

function* cellsOf(xml: string, strings: readonly string[]): Generator<StoredCell> {
  const pattern = /<(?:\w+:)?(row|c)\b((?:[^>"]|"[^"]*")*?)(\/?)>/g;
  let row = 0;
  let column = 0;
  for (let match = pattern.exec(xml); match !== null; match = pattern.exec(xml)) {
    const [, element, attributes, selfClosing] = match;
    if (element === 'row') {
      row = Number(attribute(attributes!, 'r') ?? row + 1);
      column = 0;
      continue;
    }
    const written = attribute(attributes!, 'r');
    if (written === undefined) column++;
    else ({ row, column } = parseCellRef(written));
    const ref = written ?? cellName(row, column);
    let inner = '';
    if (selfClosing === '') {
      const end = xml.indexOf('c>', pattern.lastIndex);
      inner = xml.slice(pattern.lastIndex, xml.lastIndexOf('</', end));
      pattern.lastIndex = end + 2;
    }
    yield { ref, row, column, ...content(attribute(attributes!, 't') ?? 'n', inner, strings) };
  }
}

function content(
  type: string,
  inner: string,
  strings: readonly string[],
): Pick<StoredCell, 'kind' | 'value' | 'formula'> {
  const raw = /<(?:\w+:)?v(?:\s[^>]*)?>([^<]*)</.exec(inner)?.[1];
  const found = /<(?:\w+:)?f\b((?:[^>"]|"[^"]*")*?)(?:\/>|>([^<]*)<)/.exec(inner);
  const formula = found === null ? {} : { formula: formulaOf(found[1]!, found[2] ?? '') };
  if (type === 'inlineStr') return { kind: 'text', value: runs(inner), ...formula };
  if (type === 'str') return { kind: 'text', value: decode(raw ?? ''), ...formula };
  if (raw === undefined || raw === '') return { kind: 'blank', value: null, ...formula };
  if (type === 's') return { kind: 'text', value: strings[Number(raw)]!, ...formula };
  if (type === 'b') return { kind: 'boolean', value: raw === '1' || raw === 'true', ...formula };
  if (type === 'e') return { kind: 'error', value: decode(raw), ...formula };
  return { kind: 'number', value: Number(raw), ...formula };
}

function formulaOf(attributes: string, text: string): NonNullable<StoredCell['formula']> {
  const type = attribute(attributes, 't');
  const sharedIndex = attribute(attributes, 'si');
  const area = attribute(attributes, 'ref');
  return {
    text: decode(text),
    ...(type === undefined ? {} : { type }),
    ...(sharedIndex === undefined ? {} : { sharedIndex }),
    ...(area === undefined ? {} : { area }),
  };
}

const attributePatterns = new Map<string, RegExp>();

function attribute(attributes: string, name: string): string | undefined {
  let pattern = attributePatterns.get(name);
  if (pattern === undefined) {
    pattern = new RegExp(`(?:^|\\s)${name}="([^"]*)"`);
    attributePatterns.set(name, pattern);
  }
  return pattern.exec(attributes)?.[1];
}

const ENTITIES: Record<string, string> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

function decode(text: string): string {
  if (!text.includes('&') && !text.includes('_x')) return text;
  return text
    .replace(/&(?:#x([0-9a-fA-F]+)|#([0-9]+)|(\w+));/g, (_, hex, decimal, name) =>
      name
        ? (ENTITIES[name] ?? `&${name};`)
        : String.fromCodePoint(hex ? Number.parseInt(hex, 16) : Number(decimal)),
    )
    .replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex) => String.fromCharCode(Number.parseInt(hex, 16)));
}
