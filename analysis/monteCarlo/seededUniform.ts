/** State of the generator: four whole numbers of 32 bits, not all zero. */
type Words = readonly [number, number, number, number];

function rotated(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by));
}

/**
 * The generator xoshiro128**, from a state that the caller gives.
 *
 * @param words - state, four whole numbers of 32 bits, not all zero [-]
 * @returns function that gives the next whole number, 0 to 2³² − 1 [-]
 * @throws RangeError if all four are zero, a state that the generator never leaves
 *
 * Source: Blackman and Vigna (2021), Scrambled linear pseudorandom number generators, ACM TOMS 47(4), 36.
 *
 * @example xoshiro128([1, 2, 3, 4])() // 11520: rotl(2 · 5, 7) · 9
 */
export function xoshiro128(words: Words): () => number {
  let [a, b, c, d] = words;
  if ((a | b | c | d) === 0) throw new RangeError('words: all four are zero');
  return () => {
    const scrambled = Math.imul(rotated(Math.imul(b, 5), 7), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotated(d, 11);
    return scrambled >>> 0;
  };
}

/** A seed spread over 32 bits: the finaliser of MurmurHash3 on a Weyl sequence, so that near seeds start far apart. */
function spread(seed: number, index: number): number {
  let mixed = (seed + Math.imul(index, 0x9e3779b9)) >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return (mixed ^ (mixed >>> 16)) >>> 0;
}

/**
 * Seeded uniform numbers: the same seed gives the same numbers on every machine.
 *
 * @param seed - any whole number; its lowest 32 bits count [-]
 * @returns function that gives the next number, in the middle of one of 2³² equal parts of 0 to 1, so neither 0 nor 1 [1]
 * @throws RangeError if the seed is not a whole number
 *
 * Source: xoshiro128** as {@link xoshiro128}.
 */
export function seededUniform(seed: number): () => number {
  if (!Number.isInteger(seed)) throw new RangeError(`seed: ${seed} is not a whole number`);
  const next = xoshiro128([spread(seed, 1), spread(seed, 2), spread(seed, 3), spread(seed, 4)]);
  return () => (next() + 0.5) / 2 ** 32;
}
