import { coverageFactorFor } from './coverage.ts';
import type { Source, SourceTable, Uncertain } from './source.ts';
import type { BudgetLine, Stated } from './stated.ts';

/** Budget lines below this share of the variance are added up in one: a budget is there to be read [1]. */
const SMALLEST_SHARE = 0.001;

type Component = { readonly source: Source; variance: number };

/** Variance by component: sources that rest on one common estimate count as one. */
function componentsOf(uncertain: Uncertain, sources: SourceTable): Map<string, Component> {
  const components = new Map<string, Component>();
  for (const [id, sensitivity] of Object.entries(uncertain.sensitivities)) {
    const source = sources[id];
    if (source === undefined) throw new RangeError(`sources: none is called ${id}`);
    const variance = (sensitivity * source.standardUncertainty) ** 2;
    if (variance === 0) continue;
    const key = source.pooledAs ?? id;
    const component = components.get(key);
    if (component === undefined) components.set(key, { source, variance });
    else component.variance += variance;
  }
  return components;
}

/** Welch-Satterthwaite: ν_eff = u⁴ / Σ u_i⁴/ν_i; null when no component has a finite ν. */
function effectiveDegreesOfFreedom(components: Iterable<Component>, variance: number): number | null {
  let sum = 0;
  for (const { source, variance: part } of components) {
    if (source.degreesOfFreedom !== null) sum += (part / variance) ** 2 / source.degreesOfFreedom;
  }
  return sum === 0 ? null : 1 / sum;
}

/** Share of the largest single rectangular source; several that were pooled are not rectangular together. */
function largestRectangularShare(components: Iterable<Component>, variance: number): number {
  let largest = 0;
  for (const { source, variance: part } of components) {
    if (source.shape === 'rectangular' && source.pooledAs === null && part > largest) largest = part;
  }
  return variance === 0 ? 0 : largest / variance;
}

function budgetOf(components: ReadonlyMap<string, Component>, variance: number): readonly BudgetLine[] {
  const lines = [...components].map(
    ([sourceId, { source, variance: part }]): BudgetLine => ({
      sourceId,
      label: source.label,
      kind: source.kind,
      contribution: Math.sqrt(part),
      share: part / variance,
    }),
  );
  const named = lines.filter(({ share }) => share >= SMALLEST_SHARE).sort((a, b) => b.share - a.share);
  const small = lines.filter(({ share }) => share < SMALLEST_SHARE);
  if (small.length === 0) return named;
  const share = small.reduce((sum, line) => sum + line.share, 0);
  return [
    ...named,
    {
      sourceId: 'smaller',
      label: `${small.length} smaller contributions together`,
      kind: small.every(({ kind }) => kind === 'random') ? 'random' : 'calibration',
      contribution: Math.sqrt(share * variance),
      share,
    },
  ];
}

/**
 * Combined and expanded uncertainty of a value from its sensitivities to named sources, with its budget.
 *
 * @param uncertain - value with ∂value/∂source [any unit]
 * @param sources - every source that it is sensitive to [-]
 * @param coverageProbability - of the expanded uncertainty [1]
 * @returns the value as it is printed [unit of the value]
 * @throws RangeError if a source is not in the table
 *
 * Source: JCGM 100:2008, 5.1.2 (combination), G.4.1 (Welch-Satterthwaite; ν_eff is not truncated), G.3 (k from t); a dominant
 * rectangular error as coverageFactorFor has it.
 */
export function stateUncertainty(uncertain: Uncertain, sources: SourceTable, coverageProbability = 0.95): Stated {
  const components = componentsOf(uncertain, sources);
  let variance = 0;
  for (const component of components.values()) variance += component.variance;
  const degreesOfFreedom = effectiveDegreesOfFreedom(components.values(), variance);
  const factor = coverageFactorFor(
    degreesOfFreedom,
    largestRectangularShare(components.values(), variance),
    coverageProbability,
  );
  const standardUncertainty = Math.sqrt(variance);
  return {
    value: uncertain.value,
    standardUncertainty,
    degreesOfFreedom,
    coverageFactor: factor,
    expandedUncertainty: factor * standardUncertainty,
    budget: budgetOf(components, variance),
  };
}
