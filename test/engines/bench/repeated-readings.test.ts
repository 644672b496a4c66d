import { expect, it } from 'vitest';
import { repeatedReadings } from '../../../scripts/lib/bench/sample-input.js';

const HALF_HOUR_MS = 1_800_000;

it('readings over and over follow one another without a gap, with the values of the first', () => {
  const starts = Float64Array.from({ length: 96 }, (_, i) => Date.UTC(2025, 8, 30, 23) + i * HALF_HOUR_MS);
  const one = {
    timeZone: 'Europe/London',
    startUtcMs: starts,
    channels: {
      importKwh: starts.map((_, i) => i / 7),
      exportKwh: starts.map((_, i) => (i === 5 ? Number.NaN : i)),
    },
    estimated: Uint8Array.from(starts, (_, i) => Number(i === 90)),
  };
  const three = repeatedReadings(one, 3);
  expect(three.timeZone).toBe('Europe/London');
  expect([...three.startUtcMs]).toEqual(Array.from({ length: 288 }, (_, i) => starts[0]! + i * HALF_HOUR_MS));
  expect([...three.channels.importKwh!]).toEqual(Array.from({ length: 288 }, (_, i) => (i % 96) / 7));
  expect(three.channels.exportKwh![5 + 192]).toBeNaN();
  expect(three.channels.exportKwh![6 + 192]).toBe(6);
  expect([...three.estimated!.keys()].filter((i) => three.estimated![i] === 1)).toEqual([90, 186, 282]);
  expect(repeatedReadings(one, 1)).toEqual(one);
});
