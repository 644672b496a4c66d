import type { LineReferences, LineValues } from './heating-line.js';

/** Whether an input is set to a choice. */
export const isChoice = (at: LineValues, key: string, choice: string): boolean => at.text(key) === choice;
/** The condition of {@link isChoice} in a formula. */
export const choiceIs = (at: LineReferences, key: string, choice: string): string =>
  `${at.cell(key)}="${choice}"`;

/** Whether hot water is on both sides and an immersion heater makes it on the given one. */
export const bothByImmersion = (at: LineValues, sideKey: string): boolean =>
  isChoice(at, 'hotWaterSide', 'both') && isChoice(at, sideKey, 'immersion heater');
/** The condition of {@link bothByImmersion} in a formula. */
export const bothByImmersionFormula = (at: LineReferences, sideKey: string): string =>
  `AND(${choiceIs(at, 'hotWaterSide', 'both')},${choiceIs(at, sideKey, 'immersion heater')})`;
