import { InputError } from '../errors.js';
import type { Draft } from './draft.js';

/**
 * Offset of stamps that do not follow the home's clock.
 *
 * @param draft the file
 * @returns minutes from UTC; undefined where stamps follow the home's clock
 * @throws InputError for a zone that is neither local, utc nor an offset
 * @example fixedOffsetOf(draft) // 0, where the header says UTC
 */
export function fixedOffsetOf<C extends string>(draft: Draft<C>): number | undefined {
  const { zone } = draft.stamps;
  if (zone === undefined || zone.toLowerCase() === 'local') return undefined;
  if (['utc', 'gmt', 'z'].includes(zone.toLowerCase())) return 0;
  const match = /^([+-])(\d{2}):?(\d{2})$/.exec(zone);
  if (match === null) {
    throw new InputError(
      `"${zone}" is no zone of stamps`,
      'Give local, utc or a fixed offset such as +10:00.',
    );
  }
  return (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match[3]));
}
