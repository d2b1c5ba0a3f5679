/**
 * Uncertainty by named sources. A value carries its sensitivity to each source; two values that share a source
 * share its error, so that it cancels or adds as it should when they are combined.
 */
export type Source = {
  readonly id: string;
  /** What a person calls it: 'flow meter, gain'. */
  readonly label: string;
  /** 'random' errors differ from hold to hold; 'calibration' errors are the same in every one and do not average out. */
  readonly kind: 'random' | 'calibration';
  /** Standard uncertainty, in the source's own unit. */
  readonly standardUncertainty: number;
  /** Degrees of freedom of that uncertainty; null where it is taken as known. */
  readonly degreesOfFreedom: number | null;
  readonly shape: 'normal' | 'rectangular';
  /**
   * Sources whose standard uncertainty came from one common estimate name it here; their variances count as one
   * component in the effective degrees of freedom and as one line in a budget.
   */
  readonly pooledAs: string | null;
};

/** Sources by id. */
export type SourceTable = Readonly<Record<string, Source>>;

/** A value and its partial derivatives with respect to the sources: ∂value/∂source, by source id. */
export type Uncertain = {
  readonly value: number;
  readonly sensitivities: Readonly<Record<string, number>>;
};

export function exactly(value: number): Uncertain {
  return { value, sensitivities: {} };
}

/**
 * A value computed from uncertain ones: its sensitivities by the chain rule, ∂y/∂s = Σ ∂y/∂xᵢ · ∂xᵢ/∂s.
 *
 * @param value - the computed value y [any unit]
 * @param inputs - each uncertain input with ∂y/∂xᵢ at the values used [unit of y per unit of xᵢ]
 * @returns y with its sensitivities [unit of y]
 *
 * Source: JCGM 100:2008, 5.1.2 and 5.2.2 (sources are independent by construction; correlation of inputs is
 * carried by the sources they share).
 *
 * @example combine(6, [{ input: exactly(2), derivative: 3 }]).value // 6
 */
export function combine(
  value: number,
  inputs: readonly { readonly input: Uncertain; readonly derivative: number }[],
): Uncertain {
  const sensitivities: Record<string, number> = {};
  for (const { input, derivative } of inputs) {
    const own = input.sensitivities;
    for (const id of Object.keys(own)) {
      sensitivities[id] = (sensitivities[id] ?? 0) + derivative * (own[id] ?? 0);
    }
  }
  return { value, sensitivities };
}

/** Table of sources by id. @throws RangeError if two different sources share an id */
export function sourceTable(sources: readonly Source[]): SourceTable {
  const table: Record<string, Source> = {};
  for (const source of sources) {
    if (table[source.id] !== undefined) throw new RangeError(`sources: two are called ${source.id}`);
    table[source.id] = source;
  }
  return table;
}
