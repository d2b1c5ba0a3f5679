import type { Material } from '../records/material.ts';

/** A coefficient of linear expansion, and half the width it may lie within [1/K]. */
export type Expansion = { readonly perK: number; readonly halfWidthPerK: number };

/**
 * Linear expansion near room temperature [1/K]. Source: Callister and Rethwisch, Fundamentals of Materials Science and
 * Engineering, 3rd ed., table B.6 (aluminium alloys 21.5, cast 356, to 23.6; bearing bronze C93200 18.0, phosphor bronze
 * 17.8; grey iron 11.4, ductile 10.6 to 11.2); plain carbon and low-alloy steels 11.3 to 12.3, from memory of the same
 * table. Half-widths cover the alloys of the name.
 */
const EXPANSIONS: Readonly<Record<Material, Expansion>> = {
  aluminium: { perK: 22.5e-6, halfWidthPerK: 1.1e-6 },
  'cast iron': { perK: 11.0e-6, halfWidthPerK: 0.5e-6 },
  steel: { perK: 11.8e-6, halfWidthPerK: 0.6e-6 },
  bronze: { perK: 17.9e-6, halfWidthPerK: 0.6e-6 },
};

/** Where nobody knows the material: anything of the list. */
const UNKNOWN: Expansion = { perK: 17.05e-6, halfWidthPerK: 6.55e-6 };

/**
 * Linear expansion of a part.
 *
 * @param of - its material; null: not known, the middle of all with a width that spans them [-]
 * @returns coefficient and half-width [1/K]
 *
 * Source: as the table above.
 *
 * @example expansionOf('aluminium').perK // 2.25e-5
 */
export function expansionOf(of: Material | null): Expansion {
  return of === null ? UNKNOWN : EXPANSIONS[of];
}

/** Two parts that leave a clearance between them. */
export type ClearancePair = {
  /** Cold clearance: across the whole diameter or length [m]. */
  readonly clearanceM: number;
  /** Of the part inside, in the same direction [m]. */
  readonly insideM: number;
  readonly outsideExpansionPerK: number;
  readonly insideExpansionPerK: number;
};

/**
 * A clearance when everything is warmer: c + ΔT (α_out (D + c) − α_in D); for a radial clearance give diameters and halve.
 * Both parts at one temperature; a bush pressed into a body follows it in part, which is neglected.
 *
 * @param pair - cold clearance, inside length and both expansions [m, 1/K]
 * @param warmingK - temperature above that of the measurement [K]
 * @returns warm clearance; negative where the parts bind [m]
 *
 * Source: definition of linear expansion.
 *
 * @example warmClearance({ clearanceM: 0, insideM: 0.1, outsideExpansionPerK: 2e-5, insideExpansionPerK: 1e-5 }, 50) // 5e-5
 */
export function warmClearance(pair: ClearancePair, warmingK: number): number {
  const { clearanceM, insideM, outsideExpansionPerK, insideExpansionPerK } = pair;
  return clearanceM + warmingK * (outsideExpansionPerK * (insideM + clearanceM) - insideExpansionPerK * insideM);
}
