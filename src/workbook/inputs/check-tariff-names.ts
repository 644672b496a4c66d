import { InputError, type Place } from '../../errors.js';

/**
 * Makes sure that formulas can look tariffs up by their names, for which case does not matter.
 *
 * @param names in the order of their columns; null where a column has none
 * @param placeOf where the name of a tariff (from 0) stands, for messages
 * @throws InputError when two share a name, or one holds a wildcard
 */
export function checkTariffNames(names: readonly (string | null)[], placeOf: (t: number) => Place): void {
  const bare = names.map((name) => name?.toLowerCase());
  names.forEach((name, t) => {
    if (name === null) return;
    if (bare.indexOf(bare[t]) < t) {
      throw new InputError(`two tariffs are called "${name}"`, 'Give each a name of its own.', placeOf(t));
    }
    if (/[*?~]/.test(name)) {
      throw new InputError(
        `the tariff's name "${name}" holds *, ? or ~, which spreadsheets take for wildcards`,
        'Leave them out.',
        placeOf(t),
      );
    }
  });
}
