import type { Book } from './book.js';
import { ref } from './references.js';

/**
 * The world of the headline: with the battery where one is entered. The other is a line beside it, blank without one.
 *
 * @param book inputs and workings
 * @returns formulas of one text where a battery is entered, and of another or none where none is
 */
export function worlds({ workings }: Book): {
  withBattery: (then: string, otherwise: string) => string;
  whereBattery: (then: string) => string;
} {
  const usable = ref(workings.battery.usableKwh);
  const withBattery = (then: string, otherwise: string): string => `IF(${usable}>0,${then},${otherwise})`;
  return { withBattery, whereBattery: (then) => withBattery(then, '""') };
}
