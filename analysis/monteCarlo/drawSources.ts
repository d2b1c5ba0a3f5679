import type { Source } from '../uncertainty/source.ts';

/** Draws one error of every source into `errors`, each in the source's own unit, in the order of the sources. */
export type DrawErrors = (errors: Float64Array) => void;

/**
 * Standard normal numbers, two at a time.
 *
 * @param nextUniform - gives numbers strictly between 0 and 1 [1]
 * @returns function that gives the next normal number [1]
 *
 * Source: Box and Muller (1958), as in JCGM 101:2008, C.4.
 */
function normalFrom(nextUniform: () => number): () => number {
  let spare: number | null = null;
  return () => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(nextUniform()));
    const angle = 2 * Math.PI * nextUniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
}

/** χ² of ν degrees of freedom, ν any number above zero [1]. */
function chiSquare(degreesOfFreedom: number, nextUniform: () => number, nextNormal: () => number): number {
  const shape = degreesOfFreedom / 2;
  const raised = shape < 1 ? shape + 1 : shape;
  const d = raised - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = nextNormal();
    const v = (1 + c * x) ** 3;
    if (v <= 0) continue;
    if (Math.log(nextUniform()) < (x * x) / 2 + d - d * v + d * Math.log(v)) {
      const boost = shape < 1 ? nextUniform() ** (1 / shape) : 1;
      return 2 * d * v * boost;
    }
  }
}

/**
 * Makes the draw of one trial: normal, rectangular, or for a standard uncertainty of ν degrees of freedom a t
 * distribution scaled by it (normal over √(χ²/ν)). Sources whose uncertainty is one common estimate share the χ².
 *
 * @param sources - each with shape, standard uncertainty and degrees of freedom [-]
 * @param nextUniform - gives numbers strictly between 0 and 1 [1]
 * @returns function that draws all errors of a trial [unit of each source]
 *
 * Source: JCGM 101:2008, 6.4.2 (rectangular, half-width √3 u), 6.4.7 (normal), 6.4.9 (scaled t); χ² by Marsaglia and
 * Tsang (2000), ACM TOMS 26, 363-372.
 */
export function drawSources(sources: readonly Source[], nextUniform: () => number): DrawErrors {
  const nextNormal = normalFrom(nextUniform);
  const pools: { readonly name: string; readonly degreesOfFreedom: number }[] = [];
  const plans = sources.map(({ standardUncertainty, shape, degreesOfFreedom, pooledAs }) => {
    if (shape === 'rectangular' || degreesOfFreedom === null || pooledAs === null) {
      return { shape, standardUncertainty, degreesOfFreedom, pool: -1 };
    }
    let pool = pools.findIndex(({ name }) => name === pooledAs);
    if (pool < 0) pool = pools.push({ name: pooledAs, degreesOfFreedom }) - 1;
    return { shape, standardUncertainty, degreesOfFreedom, pool };
  });
  const stretches = new Float64Array(pools.length);
  const stretchOf = (degreesOfFreedom: number): number =>
    Math.sqrt(degreesOfFreedom / chiSquare(degreesOfFreedom, nextUniform, nextNormal));
  return (errors) => {
    for (const [index, { degreesOfFreedom }] of pools.entries()) stretches[index] = stretchOf(degreesOfFreedom);
    for (const [index, { shape, standardUncertainty, degreesOfFreedom, pool }] of plans.entries()) {
      if (shape === 'rectangular') {
        errors[index] = Math.sqrt(3) * (2 * nextUniform() - 1) * standardUncertainty;
        continue;
      }
      const stretch = degreesOfFreedom === null ? 1 : pool < 0 ? stretchOf(degreesOfFreedom) : (stretches[pool] ?? 1);
      errors[index] = nextNormal() * stretch * standardUncertainty;
    }
  };
}
