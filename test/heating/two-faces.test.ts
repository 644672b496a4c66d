import { describe, expect, it } from 'vitest';
import { HEATING_FUNCTIONS } from '../../src/heating/described.js';
import { describeTwoFaces } from '../functions/two-faces.js';
import { heatingArguments } from './arbitraries.js';

describeTwoFaces('heating functions', HEATING_FUNCTIONS, heatingArguments);

describe('the heating functions', () => {
  it('have names of their own, in the library and in cells', () => {
    const names = HEATING_FUNCTIONS.map(({ name }) => name);
    const cellNames = HEATING_FUNCTIONS.map(({ cellName }) => cellName);
    expect(new Set(names).size).toBe(names.length);
    expect(new Set(cellNames).size).toBe(cellNames.length);
    expect(names.filter((name) => !(name in heatingArguments))).toEqual([]);
  });

  it('name the argument that a cell gives wrongly', () => {
    const compute = (name: string) => HEATING_FUNCTIONS.find((f) => f.name === name)!.compute;
    expect(() => compute('breakEvenCop')([28.71, null, 0.9])).toThrow('gasRatePence is blank');
    expect(() => compute('breakEvenCop')([28.71, '7p', 0.9])).toThrow('gasRatePence is "7p"');
    expect(() => compute('degreeDaysFromTemperatures')([[['cold']], 15.5, 24])).toThrow(
      'temperaturesC is "cold" in row 1 of the range',
    );
    expect(() => compute('degreeDaysFromTemperatures')([[[null]], 15.5, 24])).toThrow(
      'there is no temperature',
    );
    const halfKnown = [[8], [24], [null]];
    expect(() => compute('usePerDegreeDay')([halfKnown, [[0], [5], [10]]])).toThrow(
      'row 3 of the range: useKwhPerDay and degreeDaysPerDay do not pair. Give both in a row or neither.',
    );
  });
});
