import { z } from 'zod';
import type { Field } from '../fields/field.js';

/**
 * What a number of the starting inputs may be: the limits of its field.
 *
 * @param field a field of numbers
 * @throws RangeError when it holds no numbers
 */
export function numberSchema({ spec: { limits, label } }: Field): z.ZodNumber {
  if (limits.kind !== 'number') throw new RangeError(`"${label}" is no field of numbers`);
  const { from, above, to, below } = limits;
  let schema = z.number();
  if (from !== undefined) schema = schema.gte(from);
  if (above !== undefined) schema = schema.gt(above);
  if (to !== undefined) schema = schema.lte(to);
  if (below !== undefined) schema = schema.lt(below);
  return schema;
}
