import { contentTypesOf, type Parts, readParts, relationshipsOf } from './package-parts.js';
import { tailStart } from './worksheet-tail.js';

const CONTENT_TYPES_PART = '[Content_Types].xml';

/**
 * Checks that a workbook's package hangs together: every part has a content type, every relationship has a target,
 * every part is reached by a relationship, and every relationship id that a part uses is defined.
 *
 * @param xlsxBytes a workbook (.xlsx)
 * @returns what is wrong, one sentence each; empty when nothing is
 * @see ECMA-376 Part 2 (Open Packaging Conventions): content types, relationships, part names
 */
export function checkPackage(xlsxBytes: Uint8Array): string[] {
  const parts = readParts(xlsxBytes);
  const names = Object.keys(parts);
  return [
    ...contentTypeProblems(parts, names),
    ...names.filter((name) => name.endsWith('.rels')).flatMap((name) => relationshipProblems(parts, name)),
    ...names.flatMap((name) => undefinedIds(parts, name)),
    ...orphans(parts, names),
  ];
}

function contentTypeProblems(parts: Parts, names: string[]): string[] {
  const { defaults, overrides } = contentTypesOf(parts);
  const untyped = names.filter((name) => {
    const extension = name.slice(name.lastIndexOf('.') + 1).toLowerCase();
    return name !== CONTENT_TYPES_PART && !overrides.has(name) && !defaults.has(extension);
  });
  // Plain xml is the type of no spreadsheet part: such a part needs a type of its own.
  const vague = names.filter(
    (name) =>
      name.endsWith('.xml') &&
      !overrides.has(name) &&
      defaults.get('xml') === 'application/xml' &&
      !isPlainXml(name),
  );
  const missing = [...overrides.keys()].filter((name) => parts[name] === undefined);
  return [
    ...untyped.map((name) => `${name} has no content type`),
    ...vague.map((name) => `${name} has no content type of its own`),
    ...missing.map((name) => `a content type is given for ${name}, which is not there`),
  ];
}

function isPlainXml(name: string): boolean {
  return name === CONTENT_TYPES_PART || name.startsWith('customXml/');
}

/** The part that a relationships part belongs to; '' for the package. */
function sourceOf(relationshipsPart: string): string {
  return relationshipsPart.replace(/_rels\/([^/]*)\.rels$/, '$1');
}

function relationshipProblems(parts: Parts, relationshipsPart: string): string[] {
  const source = sourceOf(relationshipsPart);
  const problems: string[] = [];
  if (source !== '' && parts[source] === undefined) problems.push(`${relationshipsPart} belongs to no part`);
  const seen = new Set<string>();
  for (const { id, target, external, part } of relationshipsOf(parts, source)) {
    if (seen.has(id)) problems.push(`${relationshipsPart} defines ${id} twice`);
    seen.add(id);
    if (!external && parts[part] === undefined)
      problems.push(`${relationshipsPart}: ${id} points at ${target}, which is not there`);
  }
  return problems;
}

function undefinedIds(parts: Parts, name: string): string[] {
  const bytes = parts[name];
  if (bytes === undefined || !/\.(xml|vml)$/.test(name) || name === CONTENT_TYPES_PART) return [];
  // A sheet's relationships are used after its cells, and the cells can be tens of megabytes.
  const start = name.startsWith('xl/worksheets/') ? tailStart(bytes) : 0;
  const text = Buffer.from(bytes.subarray(start)).toString('utf8');
  const defined = new Set(relationshipsOf(parts, name).map(({ id }) => id));
  const used = new Set(
    [...text.matchAll(/\br:(?:id|embed|link|pict)="([^"]+)"/g)].map((match) => match[1] ?? ''),
  );
  return [...used].filter((id) => !defined.has(id)).map((id) => `${name} uses ${id}, which is not defined`);
}

function orphans(parts: Parts, names: string[]): string[] {
  const reached = new Set<string>();
  const queue = [''];
  while (queue.length > 0) {
    for (const { external, part } of relationshipsOf(parts, queue.pop() ?? '')) {
      if (external || reached.has(part)) continue;
      reached.add(part);
      queue.push(part);
    }
  }
  return names
    .filter((name) => name !== CONTENT_TYPES_PART && !name.endsWith('.rels') && !reached.has(name))
    .map((name) => `${name} is reached by no relationship`);
}
