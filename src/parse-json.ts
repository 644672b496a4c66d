import type { z } from 'zod';
import { InputError } from './errors.js';

/**
 * Reads JSON that must follow a schema.
 *
 * @param json text of the file
 * @param schema what it must hold
 * @param file its path, for messages
 * @returns what the schema makes of it
 * @throws InputError with file and path within (`tariffs[1].windows[0].from`) when something is wrong
 * @example parseJson('{"vatShare": 0.05}', z.object({ vatShare: z.number() }), 'home.json').vatShare // 0.05
 */
export function parseJson<Schema extends z.ZodType>(
  json: string,
  schema: Schema,
  file: string,
): z.output<Schema> {
  let content: unknown;
  try {
    content = JSON.parse(json);
  } catch (error) {
    throw new InputError(
      `this is not JSON (${error instanceof Error ? error.message : String(error)})`,
      'Check the commas, quotes and brackets.',
      { file },
    );
  }
  const result = schema.safeParse(content);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  throw new InputError(issue!.message.replace(/\.$/, ''), 'Correct it and try again.', {
    file,
    line: pathText(issue!.path),
  });
}

function pathText(path: readonly PropertyKey[]): string {
  return path
    .map((part, depth) =>
      typeof part === 'number' ? `[${part}]` : `${depth === 0 ? '' : '.'}${String(part)}`,
    )
    .join('');
}
