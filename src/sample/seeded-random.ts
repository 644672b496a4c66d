/** A repeatable stream of random numbers. */
export interface RandomStream {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Standard normal: mean 0, standard deviation 1. */
  normal(): number;
}

/**
 * A repeatable stream of random numbers: the same seed gives the same numbers on every machine.
 * Source: mulberry32 (public domain, from memory) for uniform numbers, Box and Muller (1958) for normal ones.
 *
 * @param seed a text; each part of the sample home has its own, so that changing one part leaves the others alone
 * @returns the stream, at its first number
 * @example seededRandom('weather').uniform() === seededRandom('weather').uniform() // true
 */
export function seededRandom(seed: string): RandomStream {
  let state = 2_166_136_261;
  for (const character of seed) state = Math.imul(state ^ character.codePointAt(0)!, 16_777_619);
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return {
    uniform,
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
