import type { Stated } from '../../analysis/uncertainty/stated.ts';

/** A value with its uncertainty, and no budget: coverage factor 2. */
export function stated(value: number, standardUncertainty: number): Stated {
  return {
    value,
    standardUncertainty,
    degreesOfFreedom: null,
    coverageFactor: 2,
    expandedUncertainty: 2 * standardUncertainty,
    budget: [],
  };
}
