import { coverageFactorFor } from '../uncertainty/coverage.ts';
import type { SourceTable, Uncertain } from '../uncertainty/source.ts';

/** Standard and expanded uncertainty of one combination [unit of the combination]. */
export type Band = {
  readonly standardUncertainty: number;
  readonly expandedUncertainty: number;
};

type Component = {
  readonly rows: readonly Float64Array[];
  readonly degreesOfFreedom: number | null;
  /** One rectangular source, pooled with no other. */
  readonly isRectangular: boolean;
};

/**
 * Expanded uncertainty of many linear combinations Σ c_j x_j of the same few values: what stateUncertainty gives for each,
 * without its budget, prepared once so that a map of a thousand cells is quick.
 *
 * @param values - x_j with their sensitivities [m values, any units]
 * @param sources - every source that they are sensitive to [-]
 * @returns function from coefficients c_j to the uncertainty of their combination, 95 % [m coefficients]
 * @throws RangeError if a source is not in the table
 *
 * Source: JCGM 100:2008, 5.1.2, 5.2.2, G.4.1, G.3; as stateUncertainty.
 */
export function linearBand(
  values: readonly Uncertain[],
  sources: SourceTable,
): (coefficients: readonly number[]) => Band {
  const rowsByComponent = new Map<string, Component & { readonly rows: Float64Array[] }>();
  for (const id of new Set(values.flatMap(({ sensitivities }) => Object.keys(sensitivities)))) {
    const source = sources[id];
    if (source === undefined) throw new RangeError(`sources: none is called ${id}`);
    const { standardUncertainty, degreesOfFreedom, pooledAs, shape } = source;
    const isRectangular = shape === 'rectangular' && pooledAs === null;
    const row = Float64Array.from(values, ({ sensitivities }) => (sensitivities[id] ?? 0) * standardUncertainty);
    if (row.every((entry) => entry === 0)) continue;
    const component = rowsByComponent.get(pooledAs ?? id);
    if (component === undefined) rowsByComponent.set(pooledAs ?? id, { rows: [row], degreesOfFreedom, isRectangular });
    else component.rows.push(row);
  }
  const components: readonly Component[] = [...rowsByComponent.values()];
  return (coefficients) => {
    let variance = 0;
    let fourth = 0;
    let rectangular = 0;
    for (const { rows, degreesOfFreedom, isRectangular } of components) {
      let part = 0;
      for (const row of rows) {
        let sum = 0;
        for (let index = 0; index < row.length; index += 1) sum += (coefficients[index] ?? 0) * (row[index] ?? 0);
        part += sum * sum;
      }
      variance += part;
      if (degreesOfFreedom !== null) fourth += part ** 2 / degreesOfFreedom;
      if (isRectangular && part > rectangular) rectangular = part;
    }
    const standardUncertainty = Math.sqrt(variance);
    const share = variance === 0 ? 0 : rectangular / variance;
    const factor = coverageFactorFor(fourth === 0 ? null : variance ** 2 / fourth, share);
    return { standardUncertainty, expandedUncertainty: factor * standardUncertainty };
  };
}
