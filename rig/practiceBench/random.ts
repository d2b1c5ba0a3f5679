/** A stream of pseudo-random numbers; two streams of the same seed and name are alike. */
export type Random = {
  /** Uniform in [0, 1) [1]. */
  readonly uniform: () => number;
  /** Normal with mean 0 and standard deviation 1 [1]. */
  readonly normal: () => number;
};

/**
 * Seeded pseudo-random numbers, the only source of chance in the practice bench.
 *
 * @param seed - any integer; its lower 32 bits count [-]
 * @param stream - independent streams of one seed have different numbers [-]
 * @returns uniform and normal deviates [1]
 *
 * Source: generator sfc32, C. Doty-Humphrey, PractRand (public domain); normal deviates by the polar method,
 * G. Marsaglia and T. A. Bray (1964), SIAM Review 6.
 */
export function createRandom(seed: number, stream: number): Random {
  let a = seed | 0;
  let b = stream | 0;
  let c = 0x9e3779b9 | 0;
  let counter = 1;
  let spareNormal: number | undefined;

  function uniform(): number {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    return (sum >>> 0) / 2 ** 32;
  }

  function normal(): number {
    if (spareNormal !== undefined) {
      const value = spareNormal;
      spareNormal = undefined;
      return value;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      spareNormal = y * stretch;
      return x * stretch;
    }
  }

  // Near seeds give near first numbers: run in, as the author of sfc32 advises.
  for (let turn = 0; turn < 16; turn++) uniform();
  return { uniform, normal };
}
