import type { FoundImport } from './read-imports.js';

/** What may import what: see `arrows.ts`. */
export interface Direction {
  arrows: Readonly<Record<string, readonly string[]>>;
  exceptions: readonly (readonly [from: string, to: string])[];
  withoutLibraries: readonly string[];
  pure: readonly string[];
}

/** Libraries that read or write files. */
const FILE_LIBRARIES = /^(node:|exceljs|fflate|commander)/;

/**
 * The part of the sources to which a file belongs.
 *
 * @param file as seen from `src`
 * @param parts folders and files of `src`
 * @returns the longest that fits, or undefined
 * @example partOf('workbook/package/index.ts', ['workbook', 'workbook/package']) // 'workbook/package'
 */
export function partOf(file: string, parts: readonly string[]): string | undefined {
  return parts
    .filter((part) => file === part || file.startsWith(`${part}/`))
    .sort((a, b) => b.length - a.length)[0];
}

/**
 * The imports that run against the declared direction.
 *
 * @param imports of all sources
 * @param direction what is allowed
 * @returns a sentence for each, with file and line
 */
export function forbiddenImports(imports: readonly FoundImport[], direction: Direction): string[] {
  const parts = Object.keys(direction.arrows);
  return imports.flatMap((found) => {
    const place = `src/${found.file}:${found.line}`;
    const from = partOf(found.file, parts);
    if (from === undefined) return [`${place}: this file is in no part of the table of arrows`];
    if (found.target === undefined) {
      if (direction.withoutLibraries.includes(from))
        return [`${place}: ${from} imports the library ${found.specifier}`];
      return direction.pure.includes(from) && FILE_LIBRARIES.test(found.specifier)
        ? [`${place}: ${from} imports ${found.specifier}, and is to know nothing of files`]
        : [];
    }
    const to = partOf(found.target, parts);
    if (to === undefined) return [`${place}: ${found.target} is in no part of the table of arrows`];
    const isAllowed =
      from === to ||
      direction.arrows[from]?.includes(to) === true ||
      direction.exceptions.some(([a, b]) => a === from && b === to);
    return isAllowed ? [] : [`${place}: ${from} imports ${to} (${found.specifier})`];
  });
}

/**
 * A way round in a table of arrows.
 *
 * @param arrows what each part may import
 * @returns the parts on the way, the first one again at the end; undefined where there is none
 * @example circleIn({ a: ['b'], b: ['a'] }) // ['a', 'b', 'a']
 */
export function circleIn(arrows: Readonly<Record<string, readonly string[]>>): string[] | undefined {
  const done = new Set<string>();
  const visit = (part: string, way: readonly string[]): string[] | undefined => {
    if (way.includes(part)) return [...way.slice(way.indexOf(part)), part];
    if (done.has(part)) return undefined;
    for (const next of arrows[part] ?? []) {
      const circle = visit(next, [...way, part]);
      if (circle !== undefined) return circle;
    }
    done.add(part);
    return undefined;
  };
  for (const part of Object.keys(arrows)) {
    const circle = visit(part, []);
    if (circle !== undefined) return circle;
  }
  return undefined;
}
