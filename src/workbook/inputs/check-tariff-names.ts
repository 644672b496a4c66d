import { type Fault, type Place, refuse } from '../../errors.js';

/**
 * Makes sure that formulas can look tariffs up by their names, for which case does not matter.
 *
 * @param names in the order of their columns; null where a column has none
 * @param placeOf where the name of a tariff (from 0) stands, for messages
 * @throws InputError when two share a name, or one holds a wildcard; InputErrors where several do
 */
export function checkTariffNames(names: readonly (string | null)[], placeOf: (t: number) => Place): void {
  const bare = names.map((name) => name?.toLowerCase());
  const faults = names.flatMap((name, t): Fault[] => {
    if (name === null) return [];
    if (bare.indexOf(bare[t]) < t) {
      return [
        {
          found: `two tariffs are called "${name}"`,
          whatToDo: 'Give each a name of its own.',
          place: placeOf(t),
        },
      ];
    }
    if (/[*?~]/.test(name)) {
      return [
        {
          found: `the tariff's name "${name}" holds *, ? or ~, which spreadsheets take for wildcards`,
          whatToDo: 'Leave them out.',
          place: placeOf(t),
        },
      ];
    }
    return [];
  });
  refuse(faults);
}
